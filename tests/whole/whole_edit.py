"""Programs with faults planted in them, and what the proof says of them."""

import re

import numpy as np
import shapely
from whole_judged import found
from whole_words import section

WALL, FLOOR = "wall", "floor"


def judged(whole, text, target=None):
    """The report on another text, without figures."""
    return found(whole.read_again(text), target or whole.target)


def stops(report):
    """The codes and lines of what stops a program."""
    assert not report.ok
    return {(f.code, f.line) for f in report.findings if f.grade == "stop"}


def changed(text, line, pattern, new):
    """The text with one thing changed in one line."""
    lines = text.splitlines()
    lines[line - 1], count = re.subn(pattern, new, lines[line - 1])
    assert count == 1
    return "\n".join(lines) + "\n"


def without(text, numbers):
    kept = [line for n, line in enumerate(text.splitlines(), 1) if n not in numbers]
    return "\n".join(kept) + "\n"


def inserted(text, after, *new):
    lines = text.splitlines()
    return "\n".join([*lines[:after], *new, *lines[after:]]) + "\n"


def ring_of(text, level):
    """The blocks of the wall pass between its lead-in and its lead-out."""
    cuts = section(text, WALL, level=level)
    arcs = [b.line for b in cuts if b.arc]
    return [b for b in cuts if arcs[0] < b.line < arcs[-1]]


def room_for_centre(whole):
    """Where the cutter's centre may be: inside the first round of the wall pass."""
    ring = ring_of(whole.text, whole.target.floor)
    ring = ring[: len(ring) // (1 + whole.made.setup.finish.spring)]
    return shapely.Polygon(np.concatenate([b.points(1e-5)[:, :2] for b in ring]))
