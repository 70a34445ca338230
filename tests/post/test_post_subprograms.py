"""Cuts that are made more than once, written once behind the program's end and called. M98 P, M99
and O before a number: common practice, no source."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from post_cases import MILLS, text_of

from jawcam.errors import InputError
from jawcam.motion.moves import ArcFeed, Begin, End, LineFeed, Rapid, Remark, Spindle, ToolChange
from jawcam.motion.repeats import LEAST
from jawcam.post.dialect import load
from jawcam.post.fields import PerUnit
from jawcam.reader.controls import CONTROLS
from jawcam.reader.read import read
from jawcam.resources import folder
from jawcam.units import Units

CALLING = tuple(name for name in MILLS if "repeats_to_calls" in load(name).passes)
POST = load("iso6983-mill-subprograms")
ZERO = (0.0, 0.0, 0.0)
FILE = (folder("posts") / "iso6983-mill-subprograms.toml").read_text(encoding="utf-8")


def ring(z, *, moves=LEAST + 2, size=10.0, feed=300.0):
    """Level cuts from (size, 0, z), a few lines and an arc back."""
    lines = [LineFeed((size + n % 3, float(n), z), feed) for n in range(1, moves)]
    x, y, _ = lines[-1].to
    return (*lines, ArcFeed((size, 0.0, z), ((size + x) / 2, y / 2), False, feed / 2))


def levels(*heights, body=ring, tool=3):
    """The same at each height, entered by a ramp."""
    out = [ToolChange(tool, "end mill"), Spindle(5000), Rapid((10.0, 0.0, 5.0))]
    for z in heights:
        start = body(z)[-1].to
        out += [Remark(f"Level {z:g}"), Rapid((start[0], start[1], z + 1)), LineFeed(start, 120)]
        out += body(z)
    return (*out, Rapid((10.0, 0.0, 5.0)))


def program(*parts):
    return (Begin("jaws"), *(motion for part in parts for motion in part), End())


def written_out(dialect):
    return replace(dialect, passes=tuple(p for p in dialect.passes if p != "repeats_to_calls"))


def told(text, dialect=POST):
    """All that the cuts are but their places in the text."""
    got = read(text, dialect.control)
    assert got.faults == ()
    assert got.ended
    return [str(cut._replace(line=0, column=0, step=0, calls=())) for cut in got.cuts]


def both(motions, dialect=POST, units=Units.MM):
    return tuple(text_of(motions, d, units, ZERO) for d in (dialect, written_out(dialect)))


def test_a_post_with_subprograms_ships_and_its_kind_of_control_reads_them():
    assert CALLING == ("iso6983-mill-subprograms",)
    assert all(CONTROLS[load(name).control].subprograms for name in CALLING)


def test_the_look_of_it():
    rings = tuple(LineFeed((float(n % 2), float(n), -1.0), 200) for n in range(1, LEAST + 1))
    back = Rapid((0.0, 0.0, -1.0))
    text = text_of(
        program((ToolChange(2, "a"), Rapid((0, 0, -1.0))), rings, [back], rings),
        POST,
        Units.MM,
        ZERO,
    )
    assert text.splitlines() == [
        "%",
        "O0001",
        "(JAWS)",
        "(BRINGS SUBPROGRAMS 8001 TO 8001 ALONG: THEY REPLACE OTHERS SO NUMBERED)",
        "N10 G71 G17 G40 G80 G90 G94",
        "(T02 A)",
        "N20 T02 M06",
        "N30 G00 X0. Y0.",
        "N40 G43 H02 Z-1.",
        "N50 M98 P8001",
        "N60 G00 Y0.",
        "N70 M98 P8001",
        "N80 M30",
        "O8001",
        "(CALLED 2 TIMES, EACH TIME LEVEL AT THE HEIGHT IT IS CALLED AT)",
        "N90 G01 X1. Y1. F200",
        *(f"N{90 + 10 * (n - 1)} X{n % 2}. Y{n}." for n in range(2, LEAST + 1)),
        f"N{90 + 10 * LEAST} M99",
        "%",
    ]


@pytest.mark.parametrize("units", Units)
def test_called_cuts_are_the_cuts_written_out(units):
    motions = program(levels(-1.0, -2.5, -4.0), levels(-2.0, -3.0, tool=4))
    short, long = both(motions, units=units)
    assert told(short) == told(long)
    assert short.count("M98 P8001") == 5
    assert short.count("O8001") == short.count("M99") == 1
    assert len(short) < 0.7 * len(long)


def test_what_is_called_never_tells_a_height():
    text = text_of(program(levels(-1.0, -2.0)), POST, Units.MM, ZERO)
    body = text[text.index("O8001") :]
    assert "Z" not in re.sub(r"\(.*\)", "", body)
    # all else anew, whatever was in force where it is called
    first = next(line for line in body.splitlines() if line.startswith("N"))
    assert re.fullmatch(r"N\d+ G01 X\S+ Y\S+ F300", first)


def test_every_level_keeps_its_line_of_comment():
    text = text_of(program(levels(-1.0, -2.0, -3.0)), POST, Units.MM, ZERO)
    assert all(f"(LEVEL -{z})" in text for z in (1, 2, 3))


def test_what_follows_a_call_knows_what_the_call_left_in_force():
    """The feed and the word of motion at its end, not those before it."""
    parts = []
    for z, x in ((-1.0, 20.0), (-2.0, 30.0)):
        parts += [Rapid((10.0, 0.0, z)), *ring(z), LineFeed((x, 0.0, z), 150), Rapid((x, 0.0, 9.0))]
    motions = program((ToolChange(1, "a"), Spindle(900), Rapid((10.0, 0.0, 9.0))), parts)
    short, long = both(motions)
    assert told(short) == told(long)
    calls = [n for n, line in enumerate(short.splitlines()) if "M98" in line]
    assert len(calls) == 2
    # 150 is the feed of the arc that ends the ring: it is in force, G01 is not
    assert all(re.fullmatch(r"N\d+ G01 X[23]0\.", short.splitlines()[n + 1]) for n in calls)


def test_two_shapes_are_two_subprograms_in_the_order_of_their_calls():
    small = levels(-1.0, -2.0, body=lambda z: ring(z, size=4.0))
    text = text_of(program(levels(-1.0, -2.0), small, levels(-3.0)), POST, Units.MM, ZERO)
    assert re.findall(r"P(\d+)", text) == ["8001"] * 2 + ["8002"] * 2 + ["8001"]
    assert re.findall(r"(?m)^O(\d+)", text) == ["0001", "8001", "8002"]
    assert "(BRINGS SUBPROGRAMS 8001 TO 8002 ALONG" in text
    assert "(CALLED 3 TIMES" in text


def test_nothing_is_called_that_is_cut_once():
    text = text_of(program(levels(-1.0)), POST, Units.MM, ZERO)
    assert not re.search(r"M98|M99|O8|BRINGS", text)


def test_beyond_the_largest_number_cuts_are_written_out():
    few = replace(POST, subprograms=replace(POST.subprograms, largest=8001))
    small = levels(-1.0, -2.0, body=lambda z: ring(z, size=4.0))
    motions = program(levels(-1.0, -2.0), small)
    text = text_of(motions, few, Units.MM, ZERO)
    assert re.findall(r"P(\d+)", text) == ["8001"] * 2
    assert told(text) == told(both(motions)[1])


def test_a_coordinate_in_what_is_called_is_judged_too():
    far = levels(-1.0, -2.0, body=lambda z: ring(z, size=10000.0))
    with pytest.raises(InputError, match="beyond the largest"):
        text_of(program(far), POST, Units.MM, ZERO)


def test_short_cuts_are_merged_in_what_is_called():
    moves = replace(POST.moves, shortest=PerUnit(0.01, 0.0004), merge_chord=PerUnit(0.002, 1e-4))
    fine = replace(POST, moves=moves)

    def body(z):
        return (*ring(z)[:-1], LineFeed((10.0, 0.004, z), 300), LineFeed((10.0, 0.0, z), 300))

    motions = program(levels(-1.0, -2.0, body=body))
    short, long = both(motions, fine)
    assert told(short) == told(long)
    assert len(told(short)) < len(told(both(motions)[0]))


@settings(max_examples=25, deadline=None)
@given(
    st.lists(
        st.tuples(
            st.lists(st.tuples(st.floats(-50, 50), st.floats(-50, 50)), min_size=8, max_size=11),
            st.lists(st.sampled_from([-1.0, -1.75, -2.5]), min_size=1, max_size=3, unique=True),
            st.sampled_from([100.0, 250.0]),
        ),
        min_size=1,
        max_size=3,
    ),
    st.sampled_from(Units),
)
def test_any_repeated_cuts_are_read_back_as_if_written_out(shapes, units):
    parts = []
    for number, (places, heights, feed) in enumerate(shapes, 1):

        def body(z, places=places, feed=feed):
            return tuple(LineFeed((x, y, z), feed) for x, y in places)

        parts += [levels(*heights, body=body, tool=number)]
    short, long = both(program(*parts), units=units)
    assert told(short) == told(long)


@pytest.mark.parametrize(
    ("old", "new", "key"),
    [
        ('"large_arcs_to_lines", "repeats_to_calls"', '"repeats_to_calls", "split_arcs"', "passes"),
        ('"arcs", "coordinates"', '"arcs"', "blocks.modal"),
        ("M98 P{subprogram}", "M98", "subprograms.call"),
        ('["O{subprogram:4}"]', "[]", "subprograms.head"),
        ('end = ["M99"]', "end = []", "subprograms.end"),
        ("first = 8001", "first = 9001", "subprograms.first"),
        ("first = 8001", "first = 7999", "subprograms.first"),
        ("number = 1 ", "number = 8001 ", "subprograms.first"),
    ],
)
def test_a_post_that_could_not_call_is_told_so(tmp_path, old, new, key):
    assert FILE.count(old) == 1
    (tmp_path / "mine.toml").write_text(FILE.replace(old, new), encoding="utf-8")
    with pytest.raises(InputError) as caught:
        load("mine.toml", near=tmp_path)
    (fault,) = caught.value.faults
    assert (fault.place.key, fault.place.line > 0, bool(fault.mend)) == (key, True, True)
