"""The closing in words, for the person at the machine."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from jawcam.geometry.shapes import Point
from jawcam.hold.closing import Closing, JawContact
from jawcam.hold.contact import Contact
from jawcam.units import Units

__all__ = ["LEAST_DEPTH", "LEAST_REACH", "words"]

LEAST_REACH = 1.0
"""mm; a pocket that goes less far into a jaw hardly holds (common practice, no source)."""

LEAST_DEPTH = 4.0
"""mm; of a part that sits less deep in the jaws it is no matter where they touch it (common
practice, no source)."""

_SHORT = 1.0  # mm; a place shorter than this is no seat
_POINT = 0.1  # mm; a place shorter than this is told as a point
_ASIDE = 0.5  # mm; nearer than this to the part's middle is in the middle
_NAMED = 4  # places of contact that are told one by one
_TAPER = 0.5  # mm; a step whose corner stands off less than this from a taper is one of it
_SAME = 0.005  # mm; what differs by less is told alike
_HAIR = 1e-6  # mm; of rounding


def words(closed: Closing, units: Units) -> tuple[str, ...]:
    """What the operator should know of it, a line each: travel and gap, where each jaw touches,
    and a warning where the part may turn or tip, or where a pocket hardly reaches into its jaw."""
    say = units.say
    first = (
        f"jaws close by {say(closed.travel)} onto the part, leaving {say(closed.gap_left)} of gap"
    )
    shift = say(abs(closed.shift))
    if shift != say(0.0):
        first += f"; the part is pushed {shift} to the {'back' if closed.shift > 0 else 'front'}"
    touching = [
        f"{name} jaw touches at {_places(jaw, units, stepped=closed.stepped)}"
        for name, jaw in closed.jaws
    ]
    return (first, *touching, *_turning(closed, units), *_tipping(closed, units))


def _turning(closed: Closing, units: Units) -> list[str]:
    return [
        f"caution: the {name} jaw touches at one short place only, at "
        f"X {_number(units, jaw.places[0].at[0])}, off the part's middle at "
        f"X {_number(units, closed.middle)}: the part may turn"
        for (name, jaw), (_, other) in zip(closed.jaws, reversed(closed.jaws), strict=True)
        if _may_turn(jaw, other, closed.middle)
    ]


def _tipping(closed: Closing, units: Units) -> list[str]:
    told = []
    highest = max((one.top for _, jaw in closed.jaws for one in jaw.places), default=closed.top)
    if closed.top - closed.floor >= LEAST_DEPTH and highest < (closed.top + closed.floor) / 2:
        told.append(
            f"caution: the jaws touch the part only from Z {_number(units, highest)} down, by its "
            "foot: it may tip"
        )
    told += [
        f"caution: the pocket reaches only {units.say(jaw.reach)} into the {name} jaw"
        for name, jaw in closed.jaws
        if jaw.reach < LEAST_REACH - _HAIR
    ]
    return told


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


@dataclass(frozen=True)
class _Entry:
    """Contacts of neighbouring slabs that are told as one. widest: the longest of them; last: the
    lowest; top: of the first; steps: how many of them have a width of their own."""

    widest: Contact
    last: Contact
    top: float
    steps: int = 1

    def below(self, contact: Contact) -> _Entry | None:
        """The entry with a contact of the slab below it, None if that is not to be told with it."""
        last = self.last
        if abs(last.floor - contact.top) > _HAIR:
            return None
        if _alike(last, contact):
            return replace(self, last=contact)
        if not _taper(last, contact):
            return None
        widest = max(self.widest, contact, key=lambda one: one.length)
        return _Entry(widest, contact, self.top, self.steps + 1)


def _entries(places: Sequence[Contact]) -> list[_Entry]:
    entries: list[_Entry] = []
    for contact in places:
        for number, entry in enumerate(entries):
            longer = entry.below(contact)
            if longer is not None:
                entries[number] = longer
                break
        else:
            entries.append(_Entry(contact, contact, contact.top))
    return entries


def _alike(one: Contact, other: Contact) -> bool:
    """Whether two contacts lie at the same place in plan."""
    ends = ((one.start, other.start), (one.end, other.end))
    same = max(math.dist(*pair) for pair in ends) < _SAME
    return (
        same and abs(one.length - other.length) < _SAME and bool(one.centre) == bool(other.centre)
    )


def _taper(one: Contact, other: Contact) -> bool:
    """Whether two contacts are steps of one taper: round about the same centre, and the straight
    line from the outer edge of the one to that of the other not far off the corner between."""
    if one.centre is None or other.centre is None or math.dist(one.centre, other.centre) > _SAME:
        return False
    if max(one.start[0], other.start[0]) > min(one.end[0], other.end[0]) + _SHORT:
        return False
    across = abs(math.dist(one.centre, one.at) - math.dist(other.centre, other.at))
    high = min(one.top - one.floor, other.top - other.floor)
    return across * high < _TAPER * math.hypot(across, high)


def _places(jaw: JawContact, units: Units, *, stepped: bool) -> str:
    entries = _entries(jaw.places)
    told = [_stretch(entry, units, stepped=stepped) for entry in entries[:_NAMED]]
    if len(entries) > _NAMED:
        told.append(f"{len(entries) - _NAMED} more places")
    return ", ".join(told) or "no place"


def _stretch(entry: _Entry, units: Units, *, stepped: bool) -> str:
    """Such as ``X -3 to X 3 (6 mm, Z 0 to -8)``; on a circle also where on it, as an angle."""
    more: list[str] = []
    contact = entry.widest
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
        more.append(f"Z {_number(units, entry.top)} to {_number(units, entry.last.floor)}")
    if entry.steps > 1:
        more.append(f"in {entry.steps} steps")
    return f"{words} ({', '.join(more)})" if more else words


def _angle(centre: Point, point: Point) -> str:
    """Where on a circle a point lies, in degrees from +X."""
    turn = math.degrees(math.atan2(point[1] - centre[1], point[0] - centre[0]))
    return f"{round(turn, 1) + 0.0:g}"


def _number(units: Units, value: float) -> str:
    return units.number(value, 3 if units is Units.INCH else 2)
