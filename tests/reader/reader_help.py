"""Short ways to read a few blocks."""

from __future__ import annotations

from jawcam.reader.read import read

NIST, ISO = "rs274ngc-mill", "iso6983-mill"
ZERO = (0.0, 0.0, 0.0)


def blocks(*lines, control=NIST, start=ZERO, **more):
    """Read lines and the end that a program must have."""
    return read("\n".join([*lines, "M2"]), control, start=start, **more)


def clean(*lines, **more):
    """The same, of lines that hold no fault."""
    program = blocks(*lines, **more)
    assert program.faults == ()
    return program


def faults(*lines, **more):
    """The codes and places of what is wrong with the lines."""
    return [(fault.code, f"{fault.line}:{fault.column}") for fault in blocks(*lines, **more).faults]


def codes(*lines, **more):
    """The codes alone."""
    return [code for code, _ in faults(*lines, **more)]


def x_of(*lines, **more):
    """The X at which the last move ends."""
    return clean(*lines, **more).cuts[-1].end[0]


def path(program):
    """Each move as its letter (T traverse, F feed) and its end, rounded to 1e-9 mm."""
    return [
        ("T" if cut.kind == "rapid" else "F", *(round(value, 9) for value in cut.end))
        for cut in program.cuts
    ]
