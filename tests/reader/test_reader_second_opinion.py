"""The same programs followed by pygcode, a library that shares nothing with the reader.

It knows modes and positions; it doesn't check arcs. Motion words stand before axis words here: it
goes by the order of words in a block, which means nothing by NISTIR 6556 section 3.3.6.
"""

from __future__ import annotations

import warnings

import pytest
from reader_help import NIST

from jawcam.reader.read import read

with warnings.catch_warnings():
    warnings.simplefilter("ignore")  # it is from 2017
    import pygcode

PROGRAMS = {
    "lines": ["G21 G90 G17", "G0 X0 Y0 Z5", "G1 Z-1 F100", "X10", "Y10. X5 F200", "G0 Z5"],
    "increments": ["G21 G90", "G0 X1 Y2 Z3", "G91 G1 X1 F50", "X1 Y-1", "G90 X0", "G91 Z-.5"],
    "arcs": ["G90 G0 X0 Y0 Z0", "G2 X10 Y0 I5 J0 F9", "X20 I5", "G3 X0 Y0 R10", "G1 X1"],
    "helix": ["G90 G0 X10 Y0 Z0", "G3 X10 Y0 Z-1 I-10 J0 F9", "Z-2 X10 Y0 I-10 J0"],
    "inch": ["G20 G90", "G0 X1 Y1 Z1", "G1 X2.5 F10", "G91 Y.25", "Y.25"],
    "order": ["F100 G1 Y5 X3", "N20 Z1 (remark) X4", "g0x0y0"],
    "spindle": ["S1200 M3", "G0 X1", "M8 G1 X2 F30", "M5 M9", "S900 M4 X3"],
}
AXES = ("X", "Y", "Z")


def other_reading(lines):
    """After each block: the position in mm, and the words of the modes in force."""
    machine = pygcode.Machine()
    for line in lines:
        machine.process_block(pygcode.Line(line).block)
        scale = 25.4 if "G20" in str(machine.mode).split() else 1
        position = machine.pos.values
        yield tuple(position[axis] * scale for axis in AXES), str(machine.mode).split()


def after_each(lines):
    """The reader's last cut after each block; None before the first."""
    for count in range(1, len(lines) + 1):
        program = read("\n".join([*lines[:count], "M2"]), NIST, start=(0, 0, 0))
        assert program.faults == ()
        yield program.cuts[-1] if program.cuts else None


@pytest.mark.parametrize("name", PROGRAMS)
def test_positions_agree(name):
    for cut, (position, _) in zip(
        after_each(PROGRAMS[name]), other_reading(PROGRAMS[name]), strict=True
    ):
        assert (cut.end if cut else (0, 0, 0)) == pytest.approx(position, abs=1e-9)


@pytest.mark.parametrize("name", PROGRAMS)
def test_modes_agree(name):
    lines = PROGRAMS[name]
    spindles = {"off": "M05", "cw": "M03", "ccw": "M04"}
    for cut, (_, modes) in zip(after_each(lines), other_reading(lines), strict=True):
        if cut is None:
            continue
        motions = {"rapid": ["G00"], "line": ["G01"], "arc": ["G02" if cut.turn < 0 else "G03"]}
        assert set(motions[cut.kind]) <= set(modes)
        feed = next(float(word[1:]) for word in modes if word.startswith("F"))
        scale = 25.4 if "G20" in modes else 1
        assert cut.feed == (0 if cut.kind == "rapid" else pytest.approx(feed * scale))
        if name != "spindle":
            assert spindles[cut.spindle] in modes


def test_the_spindle_agrees_at_each_move():
    found = [(cut.spindle, cut.rpm) for cut in after_each(PROGRAMS["spindle"]) if cut]
    other = [modes for _, modes in other_reading(PROGRAMS["spindle"])]
    assert found[0] == ("cw", 1200)
    assert {"M03", "S1200"} <= set(other[1])
    assert found[-1] == ("ccw", 900)
    assert {"M04", "S900"} <= set(other[-1])


@pytest.mark.parametrize("line", ["G0 G1 X1", "G1 X1 X2", "G1 X--1"])
def test_both_refuse(line):
    with pytest.raises(Exception):  # noqa: B017, PT011 - whichever it has
        pygcode.Machine().process_block(pygcode.Line(line).block)
    assert read(f"{line}\nM2", NIST).faults
