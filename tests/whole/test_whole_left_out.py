"""Passes and rings left out of good programs: the proof finds what then stays standing."""

import math

import shapely
from whole_edit import (
    FLOOR,
    WALL,
    inserted,
    judged,
    ring_of,
    room_for_centre,
    stops,
    without,
)
from whole_words import section


def test_wall_pass_left_out_is_found(whole):
    """What lies between the lead-in and the lead-out: it begins and ends at one point, so that
    the program is as well formed without it."""
    ring = [b.line for b in ring_of(whole.text, whole.target.floor)]
    report = judged(whole, without(whole.text, ring))
    codes = {code for code, _ in stops(report)}
    assert "P301" in codes
    assert codes <= {"P301", "P601"}  # the corner reliefs now plunge into what the wall pass left
    left = max(f.amount for f in report.findings if f.code == "P301")
    assert left > 0.15  # the stock to leave of 0.2, somewhat less where roughing rounded a corner


def test_floor_pass_left_out_is_found(whole):
    """Its blocks with those that reach for it: the wall pass comes down by itself."""
    lines = whole.text.splitlines()
    first = 1 + lines.index(f"({FLOOR})")
    last = lines.index(f"({WALL})")
    down = next(b for b in section(whole.text, FLOOR))
    kept = without(whole.text, range(first + 1, last + 1))
    # the wall's first moves name only what changes: say all of it once
    at = kept.splitlines().index(f"({WALL})") + 1
    text = inserted(
        kept, at, f"G0 Z{whole.target.clearance:g}", f"X{down.start[0]:g} Y{down.start[1]:g}"
    )
    report = judged(whole, text)
    found = [f for f in report.findings if f.code in ("P301", "P403") and f.grade == "stop"]
    assert found
    assert all(room_for_centre(whole).contains(shapely.Point(f.x, f.y)) for f in found)


def test_corner_relief_left_out_is_found(lever):
    """The second of the two: from the first block at its corner on."""
    second = max(lever.target.reliefs, key=lambda relief: relief.start[0])
    reliefs = section(lever.text, "corner relief")
    x = round(second.start[0], 3)
    lines = [b.line for b in reliefs if b.end[0] >= x]
    report = judged(lever, without(lever.text, lines))
    assert {code for code, _ in stops(report)} == {"P301"}
    (found,) = [f for f in report.findings if f.code == "P301"]
    assert math.dist((found.x, found.y), second.corner) < 1.5


def test_outermost_rings_left_out_are_found(disc):
    """Roughing and finishing stop one ring early."""
    text = disc.text
    for name, level in (("roughing", -4.9), (FLOOR, -5.0)):
        rings = [b for b in section(text, name, level=level) if b.arc]
        outer = max(rings, key=lambda b: b.radii[0])
        text = without(text, [outer.line])
    text = without(text, [b.line for b in ring_of(text, -5.0)])
    assert "P301" in {code for code, _ in stops(judged(disc, text))}
