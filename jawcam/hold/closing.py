"""How the jaws close on the part: how far they travel, where they touch, what gap is left.

The pocket is cut with the jaws held `gap` apart; holding the part, each jaw comes on along Y
until it meets the part. The jaws are taken to stay parallel and the part not to turn.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from jawcam.errors import FaultList, Place
from jawcam.geometry.shapes import Path, Point, Region
from jawcam.geometry.transform import mirrored, turned
from jawcam.hold.contact import Edges, Span, meet, part_edges, wall_edges
from jawcam.job.model import Blanks
from jawcam.tolerance import Tolerance
from jawcam.units import Units

__all__ = [
    "MARGIN",
    "TOUCH",
    "Closing",
    "Contact",
    "JawContact",
    "check_closing",
    "closing",
    "words",
]

MARGIN = 0.5
"""mm of gap that should be left once the part is held (common practice, no source)."""

TOUCH = 0.005
"""mm; where a jaw would touch with so much more travel it is said to touch (common practice, no
source): clamping presses soft jaws on by more."""

_SHORT = 1.0  # mm; a place shorter than this is no seat
_POINT = 0.1  # mm; a place shorter than this is told as a point
_ASIDE = 0.5  # mm; nearer than this to the part's middle is in the middle
_NAMED = 4  # places of contact that are told one by one


@dataclass(frozen=True)
class Contact:
    """A stretch of the part's outline that a jaw touches, as the part lies when the pocket is cut
    (jaw coordinates, mm). It runs from `start` to `end` with X rising; `at` is where the two meet
    first (a middle, where they meet all along). length: along the outline. normal: the direction
    from the part into the wall at `at`, in degrees from +X."""

    start: Point
    end: Point
    at: Point
    length: float
    normal: float


@dataclass(frozen=True)
class JawContact:
    """One jaw. travel: its own, in mm; approach: how much nearer it comes to the part, the part's
    own shift included; places: where it touches, X rising. Infinite and empty if it never does."""

    travel: float
    approach: float
    places: tuple[Contact, ...]


@dataclass(frozen=True)
class Closing:
    """A pair of jaws closed on the part, in mm. travel: both jaws' together; gap_left: between
    their faces then; shift: how far they push the part along Y; middle: the X of its middle."""

    back: JawContact
    front: JawContact
    travel: float
    gap_left: float
    shift: float
    middle: float


def closing(
    part: Path, cavity: Region, blanks: Blanks, tolerance: Tolerance, *, touch: float = TOUCH
) -> Closing:
    """Close the jaws on the part: its silhouette, closed and counter-clockwise, lying in the
    cavity. Exact: the cavity's lines and arcs decide, nothing is flattened. Given the cavity as
    it is cut (what a round cutter leaves in corners, what reliefs take away), this is what the
    part will meet; given the plain one, corners are as sharp as drawn.

    A moving jaw takes all the travel and pushes the part against the fixed one; two that move
    share it evenly, as one screw drives them, and the part is free to find its place between.
    """
    flat = Region(_over(cavity.outer), tuple(_over(hole) for hole in cavity.holes))
    back, above = _approach(part, cavity, blanks, tolerance, touch)
    front, below = _approach(_over(part), flat, blanks, tolerance, touch)
    travel = back + front
    shares = {"both": (travel / 2, travel / 2), "back": (travel, 0.0), "front": (0.0, travel)}
    back_own, front_own = shares[blanks.moving]
    shift = back - back_own if math.isfinite(travel) else 0.0
    return Closing(
        JawContact(back_own, back, above),
        JawContact(front_own, front, tuple(_back_over(place) for place in below)),
        travel,
        blanks.gap - travel,
        shift,
        (part.box[0] + part.box[2]) / 2,
    )


def check_closing(closed: Closing, units: Units, place: Place) -> None:
    """Raise InputError when a jaw never meets the part, or when the jaws meet each other first."""
    faults = FaultList()
    for name, jaw in _jaws(closed):
        if not jaw.places:
            faults.add(
                f"the {name} jaw never meets the part, however far it closes",
                place,
                "shift the part so that it lies between the blanks",
            )
    if not faults.faults and closed.gap_left <= 0:
        gap = closed.gap_left + closed.travel
        faults.add(
            f"the jaws meet each other before they grip the part: they must close by "
            f"{units.say(closed.travel)}, and the gap they are cut at is {units.say(gap)}",
            place,
            f"cut them at a gap of {units.say(closed.travel + MARGIN)} or more",
        )
    faults.raise_if_any()


def words(closed: Closing, units: Units) -> tuple[str, ...]:
    """What the operator should know of it, a line each: travel and gap, where each jaw touches,
    and a warning for each jaw that the part may turn on."""
    say = units.say
    first = (
        f"jaws close by {say(closed.travel)} onto the part, leaving {say(closed.gap_left)} of gap"
    )
    shift = say(abs(closed.shift))
    if shift != say(0.0):
        first += f"; the part is pushed {shift} to the {'back' if closed.shift > 0 else 'front'}"
    jaws = _jaws(closed)
    touching = [f"{name} jaw touches at {_places(jaw, units)}" for name, jaw in jaws]
    cautions = [
        f"caution: the {name} jaw touches at one short place only, at "
        f"X {_number(units, jaw.places[0].at[0])}, off the part's middle at "
        f"X {_number(units, closed.middle)}: the part may turn"
        for (name, jaw), (_, other) in zip(jaws, reversed(jaws), strict=True)
        if _may_turn(jaw, other, closed.middle)
    ]
    return (first, *touching, *cautions)


def _jaws(closed: Closing) -> tuple[tuple[str, JawContact], tuple[str, JawContact]]:
    return (("back", closed.back), ("front", closed.front))


def _may_turn(jaw: JawContact, other: JawContact, middle: float) -> bool:
    """Whether a jaw pushes at one short place aside of the middle, and not between places where
    the other one bears."""
    if len(jaw.places) != 1 or jaw.places[0].length >= _SHORT:
        return False
    x = jaw.places[0].at[0]
    ends = [end[0] for contact in other.places for end in (contact.start, contact.end)]
    braced = bool(ends) and min(ends) <= x <= max(ends) and max(ends) - min(ends) >= _SHORT
    return abs(x - middle) > _ASIDE and not braced


def _places(jaw: JawContact, units: Units) -> str:
    told = [_stretch(contact, units) for contact in jaw.places[:_NAMED]]
    if len(jaw.places) > _NAMED:
        told.append(f"{len(jaw.places) - _NAMED} more places")
    return ", ".join(told) or "no place"


def _stretch(contact: Contact, units: Units) -> str:
    if contact.length < _POINT:
        return f"X {_number(units, contact.at[0])}"
    left, right = _number(units, contact.start[0]), _number(units, contact.end[0])
    mark = "in" if units is Units.INCH else "mm"
    return f"X {left} to X {right} ({_number(units, contact.length)} {mark})"


def _number(units: Units, value: float) -> str:
    return units.number(value, 3 if units is Units.INCH else 2)


def _approach(
    part: Path, cavity: Region, blanks: Blanks, tolerance: Tolerance, touch: float
) -> tuple[float, tuple[Contact, ...]]:
    """How near the back jaw comes and where it touches."""
    edges = part_edges(part)
    travel, spans = meet(wall_edges(cavity, blanks), edges, touch, tolerance)
    return travel, _merged(spans, edges, tolerance.join)


def _merged(spans: list[Span], part: Edges, join: float) -> tuple[Contact, ...]:
    """Stretches that follow each other within `join` mm are one contact."""
    groups: list[list[Span]] = []
    for span in sorted(spans, key=lambda s: (s.start, s.end)):
        for group in groups:
            last = max(group, key=lambda s: s.end[0])
            overlaps = last.edge == span.edge and span.start[0] <= last.end[0]
            if overlaps or math.dist(last.end, span.start) <= join:
                group.append(span)
                break
        else:
            groups.append([span])
    return tuple(_contact(group, part) for group in groups)


def _contact(group: list[Span], part: Edges) -> Contact:
    first, last = group[0], max(group, key=lambda s: s.end[0])
    best = min(group, key=lambda s: (round(s.air, 6), s.start[0] - s.end[0], s.start))
    length = 0.0
    for edge in sorted({span.edge for span in group}):
        own = [span for span in group if span.edge == edge]
        left, right = min(s.start[0] for s in own), max(s.end[0] for s in own)
        length += part.length(edge, left, right)
    return Contact(first.start, last.end, best.at, length, best.normal)


def _over(path: Path) -> Path:
    """The path turned over about X: y becomes -y, exactly; it keeps its sense of rotation."""
    return turned(mirrored(path), 180)


def _back_over(contact: Contact) -> Contact:
    (x0, y0), (x1, y1), (x, y) = contact.start, contact.end, contact.at
    return Contact((x0, -y0), (x1, -y1), (x, -y), contact.length, -contact.normal)
