"""The geometry of an arc: where its centre is and how far it sweeps."""

from __future__ import annotations

from math import atan2, copysign, hypot, pi, sqrt
from typing import NamedTuple

from jawcam.reader.faults import BlockError
from jawcam.units import Units

__all__ = [
    "AXES",
    "CENTRE_LETTERS",
    "Arc",
    "Rule",
    "about",
    "in_quadrant",
    "of_radius",
    "path_length",
]

AXES = {"XY": (0, 1, 2), "XZ": (2, 0, 1), "YZ": (1, 2, 0)}
"""The first and second axis of a plane and the one that stands on it, right-handed (NISTIR 6556
section 4.3.6.1)."""

CENTRE_LETTERS = {"XY": "IJ", "XZ": "KI", "YZ": "JK"}
"""The letters of an arc's centre, in the order of `AXES`."""

_FULL = 2 * pi
_SAME = 1e-9
_NOISE = 1e-9

Point2 = tuple[float, float]


class Rule(NamedTuple):
    """How much the radii at the ends of an arc may differ, mm, and the units to say it in."""

    limit: float
    units: Units


class Arc(NamedTuple):
    """Centre in the plane's two axes, mm; turn: the signed sweep, radians, positive counter-
    clockwise; radius: at the start, mm."""

    centre: Point2
    turn: float
    radius: float


def about(start: Point2, end: Point2, centre: Point2, rule: Rule, *, ccw: bool) -> Arc:
    """The arc round a centre; its end at its start is a full turn. All in mm; nan goes through.

    Raises `BlockError` if the radii at its ends differ too much (NISTIR 6556 section 3.5.3.2) or
    are nothing.
    """
    from_x, from_y = start[0] - centre[0], start[1] - centre[1]
    to_x, to_y = end[0] - centre[0], end[1] - centre[1]
    radius, end_radius = hypot(from_x, from_y), hypot(to_x, to_y)
    if abs(radius - end_radius) > rule.limit + _NOISE:
        raise _mismatch(radius, end_radius, rule)
    if radius <= _SAME:
        what = "an arc whose centre is its start, so that it has no radius"
        raise BlockError("R205", what, "mend the centre words", ("I", "J", "K"))
    if abs(start[0] - end[0]) <= _SAME and abs(start[1] - end[1]) <= _SAME:
        return Arc(centre, _FULL if ccw else -_FULL, radius)
    turn = atan2(to_y, to_x) - atan2(from_y, from_x)
    if ccw and turn <= 0:
        turn += _FULL
    elif not ccw and turn >= 0:
        turn -= _FULL
    return Arc(centre, turn, radius)


def of_radius(start: Point2, end: Point2, radius: float, rule: Rule, *, ccw: bool) -> Arc:
    """The arc of a radius: the one up to a half turn, the greater one if `radius` is negative.

    Raises `BlockError` if its end is its start or half its chord is too much longer than the
    radius (NISTIR 6556 section 3.5.3.1). All in mm; nan goes through.
    """
    chord_x, chord_y = end[0] - start[0], end[1] - start[1]
    chord, reach = hypot(chord_x, chord_y), abs(radius)
    if chord <= _SAME:
        what = "an arc by its radius that ends where it starts"
        raise BlockError("R205", what, "write the centre words in place of R", "R")
    if chord / 2 > reach + rule.limit + _NOISE:
        say = rule.units.say
        what = f"radius {say(reach)} doesn't reach the arc's end, which is {say(chord)} away"
        raise BlockError("R206", what, f"write a radius of {say(chord / 2)} or more", "R")
    rise = sqrt(max(reach * reach - chord * chord / 4, 0.0))
    turn = 2 * atan2(chord / 2, rise)
    if radius < 0:
        turn = _FULL - turn
    if ccw != (radius > 0):
        rise = -rise
    middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
    centre = (middle[0] - rise * chord_y / chord, middle[1] + rise * chord_x / chord)
    return Arc(centre, turn if ccw else -turn, reach)


def in_quadrant(start: Point2, end: Point2, away: Point2, rule: Rule, *, ccw: bool) -> Arc:
    """The arc that stays in one quadrant about its centre, which lies `away` from the start along
    both axes: which way follows from the direction and from where the end lies. All in mm; nan goes
    through. Common practice of controls that read tapes, no source.

    Raises `BlockError` as `about` does, and if the arc leaves its quadrant.
    """
    way = 1.0 if ccw else -1.0
    along = (end[0] - start[0], end[1] - start[1])
    if abs(along[0]) <= _SAME or abs(along[1]) <= _SAME:
        what = "an arc that doesn't go along both axes, so that its quadrant isn't known"
        raise BlockError("R213", what, "write it as a line, or one arc a quadrant", ("I", "J"))
    # Counter-clockwise the tip goes at right angles, to the left, from where it lies.
    side = (copysign(1.0, along[1] * way), copysign(1.0, -along[0] * way))
    centre = (start[0] - side[0] * away[0], start[1] - side[1] * away[1])
    arc = about(start, end, centre, rule, ccw=ccw)
    last = (end[0] - centre[0], end[1] - centre[1])
    if last[0] * side[0] < -_SAME or last[1] * side[1] < -_SAME:
        what = "the arc goes beyond its quadrant"
        mend = "end it where it crosses an axis through its centre, and begin another there"
        raise BlockError("R213", what, mend, ("I", "J"))
    return arc


def path_length(arc: Arc, rise: float) -> float:
    """The length of an arc, or of the helix that it is with a `rise` along the third axis, mm."""
    return hypot(arc.radius * arc.turn, rise)


def _mismatch(radius: float, end_radius: float, rule: Rule) -> BlockError:
    say, places = rule.units.number, 5 if rule.units is Units.INCH else 4
    at_start, at_end = say(radius, places), say(end_radius, places)
    what = f"the arc's radius is {at_start} at its start and {at_end} at its end"
    allowed = say(rule.limit, places)
    mend = f"mend the end point or the centre words; they may differ by {allowed} at most"
    return BlockError("R204", what, mend, ("I", "J", "K"))
