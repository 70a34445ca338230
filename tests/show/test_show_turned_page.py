"""What must hold of every picture of a lathe program, however odd the program or the part."""

import math
from dataclasses import replace
from itertools import combinations, pairwise

import pytest
import show_demos as demo
import show_turned as turned
from matplotlib.text import Text
from show_words import drawn_words, overlap

from jawcam.proof.report import Report
from jawcam.show.turned_plot import turned_plot
from jawcam.tools.turner import Turner
from jawcam.units import Units


def _scenes():
    pin, shaft, flange = turned.pin_target(), turned.shaft_target(), turned.flange_target()
    many = Report(turned.findings(40), demo.FIGURES)
    only_rapid = turned.Pen().call(1)
    at_once = turned.Pen()
    at_once.state = {"feed": 0.0, "rpm": 0.0, "surface": 0.0, "clamp": 0.0}
    at_once.feed(1.0, 2.0)
    unknown = turned.pin_program()
    unknown = replace(unknown, cuts=tuple(c._replace(tool=c.tool + 20) for c in unknown.cuts))
    crowded = [
        cut._replace(tool=1 + i % 14, work_offset=1 + i % 2)
        for i, cut in enumerate(turned.knob_program().cuts)
    ]
    bare = Turner(1, "turning")
    combs = [(-k / 2.0, 8.0 + k % 2) for k in range(120)]
    comb = [row for (z, x), (_, y) in pairwise(combs) for row in ((z, x), (z, y))]
    return {
        "pin": (turned.pin_program(), pin, {}),
        "pin in inches": (
            turned.program(turned.pin_pen(compensate=True)),
            pin,
            {"units": Units.INCH, "report": Report((), demo.FIGURES)},
        ),
        "pin with findings": (turned.pin_program(), pin, {"report": many}),
        "shaft": (turned.shaft_program(), shaft, {}),
        "shaft in inches, with findings": (
            turned.shaft_program(),
            shaft,
            {"report": many, "units": Units.INCH},
        ),
        "flange": (turned.flange_program(), flange, {}),
        "flange with findings": (turned.flange_program(), flange, {"report": many}),
        "knob": (turned.knob_program(), turned.knob_target(), {}),
        "knob with all": (
            turned.knob_program(),
            turned.knob_target(notes=("the work bends " * 20,) * 9, title="Knob socket, " * 30),
            {"report": many, "units": Units.INCH},
        ),
        "too many tools": (replace(turned.knob_program(), cuts=tuple(crowded)), pin, {}),
        "unknown tools": (unknown, pin, {"report": many}),
        "nothing held": (turned.pin_program(), replace(pin, keep_off=(), notes=()), {}),
        "no shape told": (turned.pin_program(), replace(pin, tools=(bare,)), {}),
        "many steps": (
            turned.pin_program(),
            replace(pin, finished=turned.finished(comb, -95.0), threads=()),
            {"units": Units.INCH},
        ),
        "odd words": (
            replace(turned.pin_program(), name="a" * 200),
            replace(pin, title="\u7c89\u7815 $x_1^2$ & 100 % \t\n"),
            {},
        ),
        "only rapid": (turned.program(only_rapid), pin, {}),
        "one point": (replace(unknown, cuts=tuple(at_once.cuts)), pin, {}),
    }


SCENES = _scenes()


@pytest.fixture(params=list(SCENES), scope="module")
def drawn(request):
    program, target, more = SCENES[request.param]
    figure = turned_plot(program, target=target, **more)
    return figure, drawn_words(figure)


def _axes(figure, label):
    return next(axes for axes in figure.axes if axes.get_label() == label)


def test_no_words_cross_each_other(drawn):
    for a, b in combinations(drawn[1], 2):
        assert overlap(a, b) <= 1.5, (a.text, b.text)


def test_no_words_run_out_of_their_panel(drawn):
    page = _axes(drawn[0], "page")
    frames = [line.get_xydata() for line in page.lines if len(line.get_xydata()) == 5]
    boxes = [(*frame.min(axis=0), *frame.max(axis=0)) for frame in frames]
    assert len(boxes) >= 4
    corners = [corner for word in drawn[1] for corner in (word[1:3], word[3:])]
    points = page.transData.inverted().transform(corners).reshape(-1, 2, 2)
    for words, ((x0, y0), (x1, y1)) in zip(drawn[1], points.tolist(), strict=True):
        assert any(
            left <= x0 and x1 <= right and low <= y0 and y1 <= high
            for left, low, right, high in boxes
        ), words


def test_panels_do_not_cross_each_other_and_lie_on_the_page(drawn):
    page = _axes(drawn[0], "page")
    frames = [line.get_xydata() for line in page.lines if len(line.get_xydata()) == 5]
    for frame in frames:
        assert frame.min() >= 0
        assert frame[:, 0].max() <= 297
        assert frame[:, 1].max() <= 210
    for a, b in combinations(frames, 2):
        shared = [
            min(p.max(), q.max()) - max(p.min(), q.min()) for p, q in zip(a.T, b.T, strict=True)
        ]
        assert min(shared) < 1e-6


def test_no_lettering_is_smaller_than_the_smallest_size(drawn):
    sizes = [t.get_fontsize() for t in drawn[0].findobj(Text) if t.get_text().strip()]
    assert min(sizes) >= 5.5


def test_the_half_section_has_one_scale_both_ways(drawn):
    axes = _axes(drawn[0], "half section")
    (x0, y0), (x1, y1) = axes.transData.transform([(0, 0), (1, 1)])
    assert math.isclose(x1 - x0, y1 - y0, rel_tol=1e-9)


def test_both_axes_tell_a_scale(drawn):
    axes = _axes(drawn[0], "half section")
    assert len(axes.get_xticks()) > 1
    assert len(axes.get_yticks()) > 1
    assert min(axes.get_yticks()) >= 0


def test_the_finished_face_and_the_axis_lie_in_the_picture(drawn):
    axes = _axes(drawn[0], "half section")
    (z0, z1), (x0, x1) = axes.get_xlim(), axes.get_ylim()
    assert z0 < 0 < z1
    assert x0 < 0 < x1
