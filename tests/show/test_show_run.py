"""The run through a program, driven as a person would: by its slider, the wheel and the keys."""

import math
from types import SimpleNamespace

import numpy as np
import pytest
import show_demos as demo
import show_turned
from matplotlib.backend_bases import KeyEvent, MouseEvent
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from PIL import Image

from jawcam.errors import InputError
from jawcam.proof.report import Report
from jawcam.reader.cuts import Program
from jawcam.reader.read import read
from jawcam.show.film import film, frame_moves
from jawcam.show.pictures import run_of
from jawcam.show.run_window import RunWindow, show_run
from jawcam.show.stretch import WHOLE, Stretch
from jawcam.units import Units

TEXT = """G21 G90 G94 G17
T3 M6
S1000 M3
G0 X0 Y0 Z5
G1 Z-1 F100
X10 F200 (the long wall)
G2 X10 Y20 I0 J10
G0 Z5
M30"""


def job(*tools):
    """All that a run wants to know of one."""
    return SimpleNamespace(units=Units.MM, tools=tools, machine=SimpleNamespace(rapid=5000.0))


def run(text=TEXT, stretch=WHOLE):
    program = read(text, "rs274ngc-mill", "part.nc")
    return run_of(program, None, Report(), None, Units.MM, stretch)


@pytest.fixture
def window():
    made = run()
    FigureCanvasAgg(made.figure)
    driven = RunWindow(made)
    made.figure.canvas.draw()
    return driven


def line_of(made, gid, view="plan"):
    axes = next(axes for axes in made.figure.axes if axes.get_label() == view)
    return [line for line in axes.lines if line.get_gid() == gid]


def done(made, view="plan"):
    rows = [np.column_stack(line.get_data()) for line in line_of(made, "done", view)]
    rows = np.vstack(rows)
    return rows[~np.isnan(rows).any(axis=1)]


def marked(made):
    return next(text.get_text() for _, text in made.text.rows if text.get_fontweight() == "bold")


def test_at_every_move_what_is_done_ends_where_the_move_does():
    made = run()
    assert made.moves == 5
    for move, cut in enumerate(made.text.program.cuts):
        made.to(move)
        for view, seen in (("plan", cut.end[:2]), ("side", cut.end[1:])):
            assert np.hypot(*(done(made, view) - seen).T).min() < 1e-9


def test_what_is_still_to_come_is_not_done():
    made = run()
    made.to(2)
    assert done(made)[:, 1].max() == 0.0
    made.to(3)
    assert done(made)[:, 1].max() == pytest.approx(20.0, abs=0.01)


def test_going_back_takes_the_path_back():
    made = run()
    made.to(1)
    before = done(made)
    made.to(4)
    made.to(1)
    assert (done(made) == before).all()


def test_the_block_that_is_run_is_marked_with_its_neighbours_around():
    made = run()
    made.to(2)
    assert marked(made) == "X10 F200 (the long wall)"
    numbers = [mark.get_text() for mark, _ in made.text.rows]
    middle = len(numbers) // 2
    assert numbers[middle - 1 : middle + 2] == ["5", "6", "7"]
    assert numbers[-1] == ""  # beyond the program's end
    facts = [text.get_text() for text in made.text.facts]
    assert facts[0].startswith("move 3 of 5")
    assert facts[1] == "X 10 Y 0 Z -1"
    assert facts[2] == "T3, S1000, feed 200 mm/min"


def test_the_clock_is_length_by_feed():
    """5 mm rapid at 10 000, 6 mm at 100, 10 mm and half a turn of 10 mm radius at 200 mm/min; how
    the first rapid begins nobody knows."""
    times = np.diff(run().minutes)
    assert times == pytest.approx([0.06, 0.05, math.pi * 10 / 200, 6 / 10000])


def test_the_cutter_stands_at_the_end_of_the_move_true_to_scale():
    program = demo.program(demo.pocket_cuts())
    made = run_of(program, demo.lever_target(), Report(), job(demo.MILL), Units.MM, WHOLE)
    made.to(20)
    x, y, z = program.cuts[20].end
    [shape] = line_of(made, "tool")
    points = np.column_stack(shape.get_data())
    assert np.nanmin(points, axis=0) == pytest.approx((x - 4, y - 4))
    assert np.nanmax(points, axis=0) == pytest.approx((x + 4, y + 4))
    [shape] = line_of(made, "tool", "side")
    assert np.nanmin(shape.get_ydata()) == pytest.approx(z)
    assert np.nanmax(shape.get_ydata()) == pytest.approx(z + 22.0)  # its flutes


def mouse(window, name, move, button=1, **more):
    rail = window.run.rail.axes
    x, y = rail.transData.transform((move, 0.0))
    canvas = window.run.figure.canvas
    canvas.callbacks.process(name, MouseEvent(name, canvas, x, y, button, **more))


def key(window, name):
    canvas = window.run.figure.canvas
    canvas.callbacks.process("key_press_event", KeyEvent("key_press_event", canvas, name))


def test_the_window_begins_with_the_first_move(window):
    assert window.move == 0
    assert marked(window.run) == "G0 X0 Y0 Z5"


def test_the_slider_follows_the_mouse_as_long_as_it_is_held(window):
    mouse(window, "button_press_event", 2)
    assert window.move == 2
    mouse(window, "motion_notify_event", 3.3)
    assert window.move == 3
    mouse(window, "button_release_event", 3.3)
    mouse(window, "motion_notify_event", 1)
    assert window.move == 3
    assert window.run.rail.knob.get_xdata() == [3]


def test_the_slider_stops_at_its_ends(window):
    mouse(window, "button_press_event", 2)
    mouse(window, "motion_notify_event", 99)
    assert window.move == 4
    mouse(window, "motion_notify_event", -99)
    assert window.move == 0


def test_a_press_elsewhere_moves_nothing(window):
    canvas = window.run.figure.canvas
    plan = next(axes for axes in window.run.figure.axes if axes.get_label() == "plan")
    x, y = plan.transAxes.transform((0.5, 0.5))
    canvas.callbacks.process(
        "button_press_event", MouseEvent("button_press_event", canvas, x, y, 1)
    )
    mouse(window, "motion_notify_event", 3)
    assert window.move == 0


@pytest.mark.parametrize(
    ("names", "move"),
    [
        (["right"], 1),
        (["right", "right", "left"], 1),
        (["left"], 0),
        (["end"], 4),
        (["end", "right"], 4),
        (["end", "home"], 0),
        (["pageup"], 0),
        (["pagedown", "down", "up"], 1),
        (["x"], 0),
    ],
)
def test_keys_step_leap_and_go_to_the_ends(window, names, move):
    for name in names:
        key(window, name)
    assert window.move == move


def test_the_wheel_steps(window):
    mouse(window, "scroll_event", 0, None, step=2)
    assert window.move == 2


def test_a_change_is_painted_at_once(window):
    canvas = window.run.figure.canvas
    before = np.array(canvas.buffer_rgba())
    key(window, "end")
    after = np.array(canvas.buffer_rgba())
    assert (before != after).any()
    key(window, "home")
    assert (np.array(canvas.buffer_rgba()) == before).all()  # nothing of it is left behind


def test_a_run_through_a_stretch_has_its_moves_alone():
    assert run(stretch=Stretch(6, 7)).moves == 2


def test_a_program_without_moves_has_no_run():
    with pytest.raises(InputError, match="makes no move"):
        run_of(Program("part.nc", ("M30",), ()), None, Report(), None, Units.MM, WHOLE)


def test_without_a_screen_the_window_is_refused():
    with pytest.raises(InputError, match="no window can be opened"):
        show_run(run())


def test_the_window_is_driven_as_soon_as_it_has_its_canvas(monkeypatch):
    from matplotlib import pyplot as plt

    class Screen(FigureCanvasAgg):
        required_interactive_framework = "a screen"

    made, shown = run(), []

    def show(*, block):
        canvas = made.figure.canvas
        canvas.callbacks.process("key_press_event", KeyEvent("key_press_event", canvas, "end"))
        shown.append((block, marked(made)))

    monkeypatch.setattr(plt, "figure", lambda **_: Screen(Figure()).figure)
    monkeypatch.setattr(plt, "show", show)
    show_run(made)
    assert shown == [(True, "G0 Z5")]


def test_the_lathe_s_run_shows_the_half_section_and_its_tool():
    program, target = show_turned.pin_program(), show_turned.pin_target()
    made = run_of(program, target, Report(), job(), Units.MM, WHOLE)
    made.to(made.moves // 2)
    cut = program.cuts[made.moves // 2]
    at = (cut.end[2], cut.end[0])
    assert np.hypot(*(done(made, "half section") - at).T).min() < 1e-9


def test_pictures_of_a_film_are_equally_long_apart_in_the_machine_s_time():
    made = run()
    moves = frame_moves(made, 4)
    assert moves.tolist() == sorted(set(moves.tolist()))
    assert (moves[0], moves[-1]) == (0, 4)


@pytest.mark.parametrize(("ending", "kind"), [(".gif", "GIF"), (".apng", "PNG")])
def test_a_film_is_a_moving_picture_that_ends_with_everything_drawn(tmp_path, ending, kind):
    path = tmp_path / f"part{ending}"
    heard, made = [], run()
    count = len(frame_moves(made, 120))
    assert count > 2
    film(made, path, told=lambda *words: heard.append(words))
    with Image.open(path) as picture:
        assert picture.format == kind
        assert picture.n_frames == count
        first = np.asarray(picture.convert("RGB"))
        picture.seek(count - 1)
        last = np.asarray(picture.convert("RGB"))
    assert (first != last).any()
    assert heard == [("pictures drawn", k, count) for k in range(1, count + 1)]


def test_the_same_run_gives_the_same_bytes(tmp_path):
    for name in ("a.gif", "b.gif"):
        film(run(), tmp_path / name)
    assert (tmp_path / "a.gif").read_bytes() == (tmp_path / "b.gif").read_bytes()
