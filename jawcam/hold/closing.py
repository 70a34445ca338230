"""How the jaws close on the part: how far they travel, where they touch, what gap is left.

The pocket is cut with the jaws held `gap` apart; holding the part, each jaw comes on along Y
until the first of its walls, at whatever height, meets the part. The jaws are taken to stay
parallel and the part not to turn.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from jawcam.errors import FaultList, Place
from jawcam.geometry.shapes import Path, Point, Region
from jawcam.geometry.transform import mirrored, turned
from jawcam.hold.contact import Contact, Wall, approach
from jawcam.job.model import Blanks
from jawcam.tolerance import Tolerance
from jawcam.units import Units

__all__ = [
    "MARGIN",
    "TOUCH",
    "Closing",
    "Contact",
    "JawContact",
    "Wall",
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
class JawContact:
    """One jaw. travel: its own, in mm; approach: how much nearer it comes to the part, the part's
    own shift included; places: where it touches, X rising. Infinite and empty if it never does."""

    travel: float
    approach: float
    places: tuple[Contact, ...]


@dataclass(frozen=True)
class Closing:
    """A pair of jaws closed on the part, in mm. travel: both jaws' together; gap_left: between
    their faces then; shift: how far they push the part along Y; middle: the X of its middle;
    stepped: whether it was closed on several levels."""

    back: JawContact
    front: JawContact
    travel: float
    gap_left: float
    shift: float
    middle: float
    stepped: bool


def closing(
    walls: Sequence[Wall], blanks: Blanks, tolerance: Tolerance, *, touch: float = TOUCH
) -> Closing:
    """Close the jaws on the part, given level by level. Exact: the pockets' lines and arcs
    decide, nothing is flattened. Given the pockets as they are cut (what a round cutter leaves in
    corners, what reliefs take away), this is what the part will meet; given the plain ones,
    corners are as sharp as drawn. What would touch with `touch` mm more travel is said to touch.

    A moving jaw takes all the travel and pushes the part against the fixed one; two that move
    share it evenly, as one screw drives them, and the part is free to find its place between.
    """
    back, above = approach(walls, blanks, touch, tolerance)
    front, below = approach([_turned_over(wall) for wall in walls], blanks, touch, tolerance)
    travel = back + front
    shares = {"both": (travel / 2, travel / 2), "back": (travel, 0.0), "front": (0.0, travel)}
    back_own, front_own = shares[blanks.moving]
    shift = back - back_own if math.isfinite(travel) else 0.0
    boxes = [path.box for wall in walls for path in wall.parts]
    return Closing(
        JawContact(back_own, back, above),
        JawContact(front_own, front, tuple(_back_over(place) for place in below)),
        travel,
        blanks.gap - travel,
        shift,
        (min(box[0] for box in boxes) + max(box[2] for box in boxes)) / 2,
        len(walls) > 1,
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
    touching = [
        f"{name} jaw touches at {_places(jaw, units, stepped=closed.stepped)}" for name, jaw in jaws
    ]
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
    """Whether a jaw pushes at one short place aside of the middle (at whatever heights), and not
    between places where the other one bears."""
    ends, braces = _ends(jaw), _ends(other)
    if not ends or max(place.length for place in jaw.places) >= _SHORT:
        return False
    if max(ends) - min(ends) >= _SHORT:
        return False
    x = jaw.places[0].at[0]
    braced = bool(braces) and min(braces) <= x <= max(braces)
    braced = braced and max(braces) - min(braces) >= _SHORT
    return abs(x - middle) > _ASIDE and not braced


def _ends(jaw: JawContact) -> list[float]:
    return [end[0] for contact in jaw.places for end in (contact.start, contact.end)]


def _places(jaw: JawContact, units: Units, *, stepped: bool) -> str:
    told = [_stretch(contact, units, stepped=stepped) for contact in jaw.places[:_NAMED]]
    if len(jaw.places) > _NAMED:
        told.append(f"{len(jaw.places) - _NAMED} more places")
    return ", ".join(told) or "no place"


def _stretch(contact: Contact, units: Units, *, stepped: bool) -> str:
    """Such as ``X -3 to X 3 (6 mm, Z 0 to -8)``; on a circle also where on it, as an angle."""
    more: list[str] = []
    if contact.length < _POINT:
        words = f"X {_number(units, contact.at[0])}"
        if contact.centre:
            more.append(f"{_angle(contact.centre, contact.at)} deg")
    else:
        words = f"X {_number(units, contact.start[0])} to X {_number(units, contact.end[0])}"
        mark = "in" if units is Units.INCH else "mm"
        more.append(f"{_number(units, contact.length)} {mark}")
        if contact.centre and stepped:
            first, last = (_angle(contact.centre, end) for end in (contact.start, contact.end))
            more.append(f"{first} to {last} deg")
    if stepped:
        more.append(f"Z {_number(units, contact.top)} to {_number(units, contact.floor)}")
    return f"{words} ({', '.join(more)})" if more else words


def _angle(centre: Point, point: Point) -> str:
    """Where on a circle a point lies, in degrees from +X."""
    turn = math.degrees(math.atan2(point[1] - centre[1], point[0] - centre[0]))
    return f"{round(turn, 1) + 0.0:g}"


def _number(units: Units, value: float) -> str:
    return units.number(value, 3 if units is Units.INCH else 2)


def _turned_over(wall: Wall) -> Wall:
    """A level turned over about X: what is in front comes to lie at the back."""
    pockets = tuple(
        Region(_over(pocket.outer), tuple(_over(hole) for hole in pocket.holes))
        for pocket in wall.pockets
    )
    return replace(wall, parts=tuple(_over(part) for part in wall.parts), pockets=pockets)


def _over(path: Path) -> Path:
    """The path turned over about X: y becomes -y, exactly; it keeps its sense of rotation."""
    return turned(mirrored(path), 180)


def _back_over(contact: Contact) -> Contact:
    return replace(
        contact,
        start=_mirror(contact.start),
        end=_mirror(contact.end),
        at=_mirror(contact.at),
        normal=-contact.normal,
        centre=contact.centre and _mirror(contact.centre),
    )


def _mirror(point: Point) -> Point:
    return (point[0], -point[1])
