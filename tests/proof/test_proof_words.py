"""A report as text and as plain values."""

import json
from dataclasses import fields, replace

from proof_pen import DISC, TARGET, disc_pocket, program

from jawcam.hold.target import Level
from jawcam.proof.prove import prove, refusals
from jawcam.proof.report import Figures, Finding, Peak, Report, ToolFigures
from jawcam.proof.words import granted_once, say, tally, to_dict
from jawcam.reader.cuts import ReadFault
from jawcam.units import Units

GOUGE = Finding(
    "P201",
    "stop",
    "T3 cuts 0.254 mm into what must stay",
    line=41,
    column=9,
    x=25.4,
    y=-12.7,
    z=-6.35,
    amount=0.254,
    mend="check this block",
    source="G1 X1. \tY2.",
)


def test_a_finding_shows_its_place_in_the_program_and_on_the_jaws():
    assert say(Report((GOUGE,)), Units.MM, "lever.nc").splitlines() == [
        "lever.nc:41:9: stop P201: T3 cuts 0.254 mm into what must stay, at X 25.4 Y -12.7 Z -6.35",
        "    G1 X1.  Y2.",
        "            ^",
        "    to mend: check this block",
        "lever.nc: not proven: 1 stop",
    ]


def test_places_are_told_in_the_units_asked_for():
    assert "at X 1 Y -0.5 Z -0.25" in say(Report((GOUGE,)), Units.INCH, "lever.nc")


def test_a_finding_about_no_line_is_told_without_one():
    bare = Finding("P106", "stop", "the program doesn't end", mend="end it with M30")
    assert say(Report((bare,)), Units.MM, "lever.nc").splitlines() == [
        "lever.nc: stop P106: the program doesn't end",
        "    to mend: end it with M30",
        "lever.nc: not proven: 1 stop",
    ]


def test_the_tally_counts_each_grade():
    warn, note = replace(GOUGE, grade="warn"), replace(GOUGE, grade="note")
    assert tally(Report()) == "proven"
    assert tally(Report((warn, note, note))) == "proven: 1 warning, 2 notes"
    assert tally(Report((GOUGE, GOUGE, warn))) == "not proven: 2 stops, 1 warning"
    assert Report((warn, note)).ok
    assert not Report((warn, GOUGE)).ok


def test_the_values_are_in_the_units_asked_for():
    figures = Figures(
        gouge=0.254,
        deepest=-6.35,
        area=645.16,
        volume=16387.064,
        feed_minutes=2.5,
        wall_left=2.54,
        levels=((-2.54, 1290.32), (-6.35, 645.16)),
    )
    values = to_dict(Report((GOUGE,), figures), Units.INCH)
    assert values["ok"] is False
    assert values["units"] == "inch"
    (finding,) = values["findings"]
    assert (finding["x"], finding["y"], finding["z"]) == (1.0, -0.5, -0.25)
    assert finding["amount"] == 0.01
    assert (finding["code"], finding["line"], finding["column"]) == ("P201", 41, 9)
    got = values["figures"]
    assert got["gouge"] == 0.01
    assert got["area"] == 1.0
    assert got["volume"] == 1.0
    assert got["feed_minutes"] == 2.5
    assert got["wall_left"] == 0.1
    assert got["bolt_clearance"] is None
    assert got["levels"] == [{"z": -0.1, "area": 2.0}, {"z": -0.25, "area": 1.0}]
    assert set(got) == {field.name for field in fields(Figures)} | {"minutes"}


def test_what_each_tool_does_is_in_the_units_asked_for():
    tool = ToolFigures(
        3,
        width=Peak(5.08, 12, 25.4, -2.54, -7.62),
        rate=Peak(16387.064, 14, 0.0, 0.0, -7.62),
        volume=32774.128,
        air=0.25,
        feed_minutes=2.0,
        rapid_minutes=0.25,
        ramp_minutes=0.5,
    )
    figures = Figures(feed_minutes=2.0, change_minutes=0.2, tools=(tool,), assumed=("2 g",))
    got = to_dict(Report((), figures), Units.INCH)["figures"]
    assert got["minutes"] == 2.2
    assert got["assumed"] == ["2 g"]
    assert got["tools"] == [
        {
            "tool": 3,
            "minutes": 2.75,
            "width": {"most": 0.2, "line": 12, "x": 1.0, "y": -0.1, "z": -0.3},
            "depth": None,
            "rate": {"most": 1.0, "line": 14, "x": 0.0, "y": 0.0, "z": -0.3},
            "volume": 2.0,
            "air": 0.25,
            "feed_minutes": 2.0,
            "rapid_minutes": 0.25,
            "ramp_minutes": 0.5,
        }
    ]


SEEN = Figures(
    volume=13244.8,
    feed_minutes=62.7134,
    rapid_minutes=0.004,
    ramp_minutes=0.0342,
    change_minutes=1 / 3,
    assumed=("2000 mm/s2", "10 s for a tool change"),
    tools=(
        ToolFigures(
            3,
            width=Peak(7.8759, 80, 3.1, -11.0, -3.95),
            depth=Peak(3.95, 40, 0.0, 0.0, -3.95),
            rate=Peak(42931.5, 81, 3.1, -11.0, -3.95),
            air=0.0591,
            feed_minutes=2.0,
        ),
        ToolFigures(4, air=1.0, feed_minutes=0.5),
        ToolFigures(9),
    ),
)


def test_volume_time_and_bites_are_told_before_the_outcome():
    assert say(Report((), SEEN), Units.MM, "lever.nc").splitlines() == [
        (
            "lever.nc: takes 13.2 cm3 in 1 h 3 min 5 s: cutting 1 h 2 min 43 s, "
            "speeding up and slowing down 2 s, tool changes 20 s"
        ),
        (
            "lever.nc: T3: 2 min, 6 % of its cuts in air; bites at most 7.88 mm wide (line 80), "
            "3.95 mm deep (line 40), 42.9 cm3/min (line 81)"
        ),
        "lever.nc: T4: 30 s, 100 % of its cuts in air",
        "lever.nc: T9: 0 s",
        "lever.nc: the times take for granted: 2000 mm/s2, 10 s for a tool change",
        "lever.nc: proven",
    ]


GRANTED = Figures(
    assumed=("10 s for a tool change",),
    untold=("shank of T3, T4: as thick as the cutter", "the spacer in the gap: lower than any cut"),
    unjudged=("the vise's own jaws and its bed", "the travel of X, Y, Z"),
)


def test_what_is_taken_for_granted_and_what_is_not_judged_are_a_line_each():
    assert say(Report((), GRANTED), Units.MM, "lever.nc").splitlines() == [
        "lever.nc: the times take for granted: 10 s for a tool change",
        (
            "lever.nc: not told, and taken so: shank of T3, T4 (as thick as the cutter); "
            "the spacer in the gap (lower than any cut)"
        ),
        (
            "lever.nc: not told, and so not judged: the vise's own jaws and its bed; "
            "the travel of X, Y, Z"
        ),
        "lever.nc: proven",
    ]


def test_of_several_programs_what_holds_for_all_is_told_once():
    other = replace(GRANTED, untold=("shank of T5: as thick as the cutter",))
    reports = [("a.nc", Report((), GRANTED)), ("b.nc", Report((), other))]
    first, second = granted_once(reports)
    assert [line.partition(": ")[0] for line in first] == ["a.nc, b.nc", "a.nc", "a.nc, b.nc"]
    assert second == ["b.nc: not told, and taken so: shank of T5 (as thick as the cutter)"]
    one = ("a.nc", Report((), GRANTED))
    first, second = granted_once([one, one])
    assert [line.partition(": ")[0] for line in first] == ["a.nc"] * 3, "stations of one program"
    assert second == []
    assert say(Report((), GRANTED), Units.MM, "a.nc", granted=()) == "a.nc: proven"


def test_in_inches_they_are_told_in_inches():
    said = say(Report((), SEEN), Units.INCH, "lever.nc")
    assert "takes 0.808 in3 in" in said
    assert "0.31 in wide (line 80), 0.156 in deep (line 40), 2.62 in3/min (line 81)" in said


def test_where_nothing_moves_no_figures_are_told():
    assert say(Report(), Units.MM, "lever.nc") == "lever.nc: proven"


def test_every_report_can_be_told_and_stored():
    for target in (TARGET, replace(TARGET, levels=(Level(0.0, -7.0, (DISC,)),))):
        report = prove(program(disc_pocket(wall=11.2)), target)
        text = say(report, Units.MM, "ring.nc")
        assert text.count("to mend: ") == len(report.findings) > 0
        assert json.loads(json.dumps(to_dict(report, Units.MM), allow_nan=False))["ok"] is False


def test_without_a_target_only_refused_blocks_are_told():
    fault = ReadFault("R204", "the radii differ", "mend the centre", 4, 7)
    whole = program(disc_pocket(wall=99.0), faults=(fault,))
    report = refusals(whole)
    assert [(f.code, f.line, f.source) for f in report.findings] == [("R204", 4, "block 4")]
    assert refusals(program(disc_pocket())).ok
