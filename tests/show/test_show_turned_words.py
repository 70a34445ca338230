"""The words beside a lathe's picture."""

from dataclasses import replace

import pytest
import show_demos as demo
import show_turned as turned

from jawcam.proof.report import Report
from jawcam.show.turned_picture import turned_picture
from jawcam.show.turned_times import turn_times
from jawcam.show.turned_tools import tool_rows
from jawcam.show.turned_words import turned_facts
from jawcam.units import Units


def _picture(program=None, target=None, units=Units.MM):
    return turned_picture(program or turned.pin_program(), target or turned.pin_target(), units)


def _facts(report=None, **scene):
    return turned_facts(_picture(**scene), report, 10000.0)


def _fact(label, **scene):
    return next(text for name, text in _facts(**scene) if name == label)


def test_stock_and_chuck_are_told():
    assert _fact("stock") == "dia 32 mm, 96 mm long, 1 mm in front of the finished face"
    assert _fact("chuck").startswith("the chuck holds 30 mm")
    plain = turned.shaft_target()
    assert _fact("chuck", target=plain) == (
        "its jaws end at Z -240; the work stands 240.5 mm out of them"
    )
    tube = turned.shaft_target(stock=turned.box(-270.0, 0.0, 3.0, 11.0), keep_off=())
    assert _fact("stock", target=tube) == "dia 22 mm, bore 6 mm, 270 mm long"
    assert _fact("chuck", target=tube) == "nothing told of it"


def test_more_notes_than_there_is_room_for_are_counted():
    target = turned.pin_target(notes=tuple(f"note {i}" for i in range(9)))
    words = [text for _, text in _facts(target=target)]
    assert "note 5" in words
    assert "note 6" not in words
    assert "and 3 more notes" in words


def test_units_zero_and_the_highest_speed_are_told():
    assert _fact("units", units=Units.INCH) == "inch; the program itself is in mm; X is a diameter"
    assert _fact("zero") == "on the axis, at the finished front face"
    assert _fact("speed") == "never above 2500 rpm in this setup"


def test_other_work_offsets_are_told():
    cuts = tuple(c._replace(work_offset=1 + (c.tool == 3)) for c in turned.pin_program().cuts)
    told = _fact("offset", program=replace(turned.pin_program(), cuts=cuts))
    assert told == "work offset 1; moves at offset 2 are not drawn"


def test_tools_are_told_in_the_order_of_use_with_their_speeds():
    rows = tool_rows(_picture())
    assert [row.what for row in rows] == [
        "T1 turning, CNMG 12 04 08, nose 0.8 mm",
        "T2 turning, VNMG 16 04 04, nose 0.4 mm",
        "T3 grooving, 3 mm wide",
        "T4 threading, 60 degrees",
    ]
    assert rows[0].speed == "180 m/min, at most 2500 rpm, 0.25 mm a turn"
    assert rows[3].speed == "900 rpm, lead 2.5 mm"


def test_tools_are_told_in_inches():
    rows = tool_rows(_picture(turned.knob_program(), turned.knob_target(), Units.INCH))
    told = {row.number: row for row in rows}
    # 180 m/min = 180 / 0.3048 ft/min
    assert told[1].speed == "591 ft/min, at most 2500 rpm, 0.0098 in a turn"
    assert told[7].what == "T7 drill, dia 0.6299 in"
    assert told[8].what == "T8 boring, CCMT 06 02 04, nose 0.0157 in"
    assert told[9].what.endswith("left hand")


def test_a_tool_that_the_job_lacks_is_owned_up_to():
    rows = tool_rows(_picture(target=turned.pin_target(tools=())))
    assert rows[0].what == "T1, not one of the job's tools"


def test_a_speed_without_a_clamp_is_owned_up_to():
    cuts = tuple(cut._replace(clamp=0.0) for cut in turned.pin_program().cuts)
    rows = tool_rows(_picture(replace(turned.pin_program(), cuts=cuts)))
    assert "no highest speed told" in rows[0].speed


@pytest.mark.parametrize(
    ("state", "start", "end", "seconds"),
    [
        # L 50, f 0.2, v 150, D 40 at 1193.66 rpm (turning time L / (f n)): 12.566 s
        ({"surface": 0.0, "rpm": 1193.662}, (0.0, 20.0), (-50.0, 20.0), 12.566),
        ({"surface": 150.0, "clamp": 2500.0}, (0.0, 20.0), (-50.0, 20.0), 12.566),
        # facing 100 to 0 at 200 m/min, clamp 2500: 12.545 s
        ({"surface": 200.0, "clamp": 2500.0}, (0.0, 50.0), (0.0, 0.0), 12.545),
        ({"surface": 0.0, "rpm": 500.0, "per_turn": False, "feed": 100.0}, (0, 5), (-50, 5), 30.0),
    ],
)
def test_times_follow_the_kind_of_speed_and_feed(state, start, end, seconds):
    pen = turned.Pen().call(1, **{"feed": 0.2, **state})
    pen.rapid(*start).feed(*end)
    times = turn_times(_picture(turned.program(pen)), 10000.0)
    assert times.minutes * 60 == pytest.approx(seconds, abs=0.01)
    assert times.untold == 0


def test_the_time_of_a_thread_follows_its_lead():
    pen = turned.Pen().call(4, rpm=600.0)
    pen.rapid(5.0, 9.0).thread(-25.0, 9.0, 2.5)
    times = turn_times(_picture(turned.program(pen)), 10000.0)
    assert times.minutes == pytest.approx(30.0 / 2.5 / 600.0)


def test_moves_whose_time_cannot_be_told_are_counted():
    cuts = tuple(cut._replace(feed=0.0) for cut in turned.shaft_program().cuts)
    words = [text for _, text in _facts(program=replace(turned.shaft_program(), cuts=cuts))]
    assert any("no feed or speed; their time is left out" in text for text in words)


def test_the_proofs_figures_go_before_our_own():
    report = Report((), demo.FIGURES)
    assert _fact("time", report=report).startswith("3 min 04 s at feed, 1 s rapid")
    assert _fact("figures", report=report) == "gouge 0 mm, left over 0.8 mm; 15.2 cm3 removed"
    assert _fact("proof", report=report) == "passed, no findings"
