"""Lathes with odd habits are more files, and no line of code; and what is wrong in such a file."""

from __future__ import annotations

import re

import pytest
from lathe_cases import EVERY_KIND

from jawcam.errors import InputError
from jawcam.motion.moves import (
    ArcFeed,
    Begin,
    Compensate,
    End,
    FeedPer,
    LineFeed,
    Rapid,
    Spindle,
    SurfaceSpeed,
    ThreadCut,
    ToolChange,
)
from jawcam.post.dialect import load
from jawcam.post.write import write
from jawcam.reader.read import read
from jawcam.resources import folder
from jawcam.units import Units

SHIPPED = (folder("posts") / "iso6983-lathe.toml").read_text(encoding="utf-8")
FRONT_IN_RADII = {
    "control": '"iso6983-lathe-front-radius"',
    "x": '"radius"',
    "turret": '"front"',
    "approach": '"x, then z"',
    "lead": '"F"',
    "spaces": "false",
    "step": "0",
    "surface_unit": '{ mm = "ft/min", inch = "m/min" }',
    "home": "{ mm = [90, 60.5], inch = [4, 3] }",
}
BY_RADIUS = {
    "passes": '["split_full_circles", "split_arcs"]',
    "centre": '"radius"',
    "largest_sweep": "90",
    "approach": '"together"',
    "modal": "[]",
}


def text_with(changes):
    text = SHIPPED
    for key, value in changes.items():
        text, count = re.subn(rf"(?m)^{key} = .*$", f"{key} = {value}", text)
        assert count, key
    return text


@pytest.fixture
def odd(tmp_path):
    """Write a post that differs in the given keys and load it."""

    def build(changes):
        (tmp_path / "odd.toml").write_text(text_with(changes), encoding="utf-8")
        return load("odd.toml", near=tmp_path)

    return build


@pytest.fixture
def faults(tmp_path):
    """The keys and words of what is wrong with a post that differs so."""

    def find(text):
        (tmp_path / "odd.toml").write_text(text, encoding="utf-8")
        with pytest.raises(InputError) as caught:
            load("odd.toml", near=tmp_path)
        return {fault.place.key: fault for fault in caught.value.faults}

    return find


def test_the_look_of_a_front_turret_in_radii(odd):
    motions = (
        ToolChange(3, "turning", 8),
        SurfaceSpeed(30.48, 900),
        Rapid((2.0, 10.0, 0)),
        Compensate("left"),
        LineFeed((0.0, 10.0, 0), 0.2),
        Compensate("off"),
        LineFeed((-5.0, 10.0, 0), 0.2),
        ArcFeed((-7.0, 12.0, 0), (-5.0, 12.0), False, 0.1),
        Spindle(500),
        ThreadCut((-20.0, 12.0, 0), 1.5),
        LineFeed((-20.0, 14.0, 0), 0.1),
        FeedPer("minute"),
        LineFeed((-20.0, 15.0, 0), 80),
        ThreadCut((-30.0, 15.0, 0), 2.0),
        LineFeed((-30.0, 16.0, 0), 80),
        End(),
    )
    text = write(motions, odd(FRONT_IN_RADII), units=Units.MM)
    assert text.splitlines() == [
        "G00X90.",
        "G00Z60.5",
        "(T03 TURNING)",
        "T0308",
        "G92S900",
        "G96S100M03",
        "G00X10.",
        "Z2.",
        "G95G01G42Z0.F0.2",
        "G40Z-5.",
        "G03X12.Z-7.I2.K0.F0.1",
        "G97S500M03",
        "G33Z-20.F1.5",
        "G01X14.F0.1",
        "G94X15.F80",
        "G95G33Z-30.F2.",
        "G94G01X16.F80",
        "M05",
        "G00X90.",
        "G00Z60.5",
        "M30",
        "%",
    ]


def test_the_head_says_what_x_is_and_where_tools_are_changed(odd):
    def head(dialect, units=Units.MM):
        text = write((Begin("nut", ("A nut",)), End()), dialect, units=units)
        lines = text.splitlines()
        at = lines.index("(A NUT)" if "(A NUT)" in lines else "(A nut)")
        return [line for line in lines[at + 1 :] if line.startswith("(")]

    assert head(odd(FRONT_IN_RADII)) == [
        "(X WORDS ARE RADII)",
        "(TOOLS ARE CHANGED AT X 90 Z 60.5, NOTHING MAY STAND IN THE WAY THERE)",
    ]
    shipped = load("iso6983-lathe")
    assert "AT X 8 Z 6," in head(shipped, Units.INCH)[1]
    # Others go to a point of the machine's own.
    assert head(load("rs274ngc-lathe")) == ["(X words are diameters)"]


@pytest.mark.parametrize("units", Units)
def test_a_front_turret_in_radii_is_read_as_it_was_planned(odd, units):
    dialect = odd(FRONT_IN_RADII | {"surface_unit": '{ mm = "m/min", inch = "ft/min" }'})
    program = read(write(EVERY_KIND, dialect, units=units), dialect.control)
    assert program.faults == ()
    arcs = [cut.turn > 0 for cut in program.cuts if cut.kind == "arc"]
    assert arcs == [motion.ccw for motion in EVERY_KIND if isinstance(motion, ArcFeed)]
    assert {cut.side for cut in program.cuts} == {"off", "right"}
    assert max(cut.end[0] for cut in program.cuts[2:]) == pytest.approx(
        dialect.tools.home.of(units)[0] * units.in_mm
    )


@pytest.mark.parametrize("units", Units)
def test_arcs_by_radius_all_at_once_and_nothing_modal(odd, units):
    dialect = odd(BY_RADIUS)
    text = write(EVERY_KIND, dialect, units=units)
    program = read(text, dialect.control)
    assert program.faults == ()
    assert not re.search(r"[IK]-?\d.*F", text)
    arcs = [cut for cut in program.cuts if cut.kind == "arc"]
    assert len(arcs) == sum(isinstance(motion, ArcFeed) for motion in EVERY_KIND)
    cutting = [line for line in text.splitlines() if re.search(r" G0[123] ", line)]
    assert all({"X", "Z", "F"} <= set(line) for line in cutting)


def test_every_key_is_needed(faults):
    keys = [line for line in SHIPPED.splitlines() if re.match(r"[a-z]\w* = ", line)]
    assert len(keys) > 65
    for line in keys:
        found = faults(SHIPPED.replace(f"\n{line}\n", "\n", 1))
        assert any("missing" in fault.what for fault in found.values()), line


def test_each_kind_has_its_own_keys(faults):
    mill = (folder("posts") / "iso6983-mill.toml").read_text(encoding="utf-8")
    found = faults(mill.replace('kind = "mill"', 'kind = "lathe"'))
    assert {"lathe", "feed", "thread", "spindle.clamp", "tools.home"} <= set(found)
    assert found["cycles"].what == found["stations"].what == "there is no such key"
    assert found["arcs.helices"].what == "there is no such key"
    assert found["moves.axes"].what == "this is 3 values"
    found = faults(SHIPPED.replace('kind = "lathe"', 'kind = "mill"'))
    assert {"cycles", "stations", "tools.length_on", "arcs.helix_chord"} <= set(found)
    assert found["lathe"].what == found["spindle.clamp"].what == "there is no such key"


def test_a_kind_that_there_is_none_of(faults):
    (fault,) = faults(SHIPPED.replace('kind = "lathe"', 'kind = "laser"')).values()
    assert (fault.place.key, "'laser'" in fault.what) == ("kind", True)
    (fault,) = faults(re.sub(r"(?m)^kind = .*\n", "", SHIPPED)).values()
    assert (fault.place.key, fault.what) == ("kind", "this key is missing")
    assert "'mill' or 'lathe'" in fault.mend


@pytest.mark.parametrize(
    ("key", "value", "where"),
    [
        ("clamp", '""', "spindle.clamp"),
        ("clamp", '"G92"', "spindle.clamp"),
        ("surface", '"G96 {direction}"', "spindle.surface"),
        ("run", '"G97 {direction}"', "spindle.run"),
        ("lead", '""', "thread.lead"),
        ("axes", '["X", "X"]', "moves.axes"),
        ("centre", '"absolute"', "arcs.centre"),
        ("left", '"G41 D{register}"', "compensation.left"),
        ("passes", '["cycles_to_moves"]', "passes[1]"),
        ("home", "{ mm = [1, 2, 3], inch = [1, 2] }", "tools.home.mm"),
        ("largest", "0", "spindle.largest"),
    ],
)
def test_what_is_wrong_is_named(faults, key, value, where):
    assert where in faults(text_with({key: value}))


CYCLE = {"form": '"cycle"', "cycle": '"G92"', "cycle_lead": '"F"', "cycle_taper": '"R"'}


@pytest.mark.parametrize(
    ("changes", "where", "part"),
    [
        ({"form": '"box"'}, "thread.form", "not known here"),
        ({"cycle": '""'}, "thread.cycle", "need its word"),
        ({"cycle_lead": '""'}, "thread.cycle_lead", "letter of its lead"),
        ({"cycle_lead": '"FF"'}, "thread.cycle_lead", "letter of its lead"),
        ({"cycle_lead": '"Z"'}, "thread.cycle_lead", "Z stands for something else"),
        ({"cycle_taper": '"RR"'}, "thread.cycle_taper", "letter of its taper"),
        ({"cycle_taper": '"X"'}, "thread.cycle_taper", "X stands for something else"),
        ({"cycle_taper": '"F"'}, "thread.cycle_taper", "F stands for something else"),
        ({"lead": '"Z"'}, "thread.lead", "Z stands for something else"),
    ],
)
def test_what_is_wrong_with_a_cycle_is_named(faults, changes, where, part):
    found = faults(text_with(CYCLE | changes))
    assert list(found) == [where]
    assert part in found[where].what
    assert found[where].place.line > 0
    assert found[where].mend


def test_a_cycle_of_any_words_is_data(odd):
    """No code asks for a word, and the form alone turns the cycle on."""
    thread = (
        Spindle(500),
        Rapid((4.0, 12.0, 0)),
        Rapid((4.0, 9.0, 0)),
        ThreadCut((-20.0, 9.5, 0), 1.5),
        Rapid((-20.0, 12.0, 0)),
        Rapid((4.0, 12.0, 0)),
        End(),
    )
    words = {"cycle": '"G78"', "cycle_lead": '"E"', "cycle_taper": '"I"'}
    text = write(thread, odd(CYCLE | words), units=Units.MM)
    assert "\nN40 G78 X19. Z-20. I-0.5 E1.5\n" in text
    text = write(thread, odd(CYCLE | words | {"form": '"written out"'}), units=Units.MM)
    assert "G78" not in text
