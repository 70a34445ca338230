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
]

MARGIN = 0.5
"""mm of gap that should be left once the part is held (common practice, no source)."""

TOUCH = 0.005
"""mm; where a jaw would touch with so much more travel it is said to touch (common practice, no
source): clamping presses soft jaws on by more."""


@dataclass(frozen=True)
class JawContact:
    """One jaw. travel: its own, in mm; approach: how much nearer it comes to the part, the part's
    own shift included; places: where it touches, slab by slab from the top down, X rising in each.
    Infinite and empty if it never does. reach: how far the pocket's mouth goes into it."""

    travel: float
    approach: float
    places: tuple[Contact, ...]
    reach: float


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
    top: float
    floor: float
    stepped: bool

    @property
    def jaws(self) -> tuple[tuple[str, JawContact], tuple[str, JawContact]]:
        """Both jaws by name."""
        return (("back", self.back), ("front", self.front))


def closing(
    walls: Sequence[Wall],
    blanks: Blanks,
    tolerance: Tolerance,
    *,
    mouth: Sequence[Region] = (),
    touch: float = TOUCH,
) -> Closing:
    """Close the jaws on the part, given slab by slab from the top down. Exact: the pockets' lines
    and arcs decide, nothing is flattened. Given the pockets as they are cut (what a round cutter
    leaves in corners, what reliefs take away), this is what the part will meet; given the plain
    ones, corners are as sharp as drawn. What would touch with `touch` mm more travel is said to
    touch. mouth: the pockets at the jaw top without their reliefs, the topmost ones if not given.

    A moving jaw takes all the travel and pushes the part against the fixed one; two that move
    share it evenly, as one screw drives them, and the part is free to find its place between.
    """
    back, above = approach(walls, blanks, touch, tolerance)
    front, below = approach(_turned_over(walls), blanks, touch, tolerance)
    travel = back + front
    shares = {"both": (travel / 2, travel / 2), "back": (travel, 0.0), "front": (0.0, travel)}
    back_own, front_own = shares[blanks.moving]
    shift = back - back_own if math.isfinite(travel) else 0.0
    boxes = [path.box for wall in walls for path in wall.parts]
    mouths = [pocket.outer.box for pocket in mouth or walls[0].pockets]
    ahead = max(box[3] for box in mouths) - blanks.gap / 2
    astern = -min(box[1] for box in mouths) - blanks.gap / 2
    return Closing(
        JawContact(back_own, back, above, ahead),
        JawContact(front_own, front, tuple(_back_over(place) for place in below), astern),
        travel,
        blanks.gap - travel,
        shift,
        (min(box[0] for box in boxes) + max(box[2] for box in boxes)) / 2,
        max(wall.top for wall in walls),
        min(wall.floor for wall in walls),
        len(walls) > 1,
    )


def check_closing(closed: Closing, units: Units, place: Place) -> None:
    """Raise InputError when a jaw never meets the part, or when the jaws meet each other first."""
    faults = FaultList()
    for name, jaw in closed.jaws:
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


def _turned_over(walls: Sequence[Wall]) -> list[Wall]:
    """Slabs and their walls turned over about X: what is in front comes to lie at the back."""
    pockets = {id(wall.pockets): wall.pockets for wall in walls}
    turned_over = {
        key: tuple(
            Region(_over(pocket.outer), tuple(_over(hole) for hole in pocket.holes))
            for pocket in regions
        )
        for key, regions in pockets.items()
    }
    return [
        replace(
            wall,
            parts=tuple(_over(part) for part in wall.parts),
            pockets=turned_over[id(wall.pockets)],
        )
        for wall in walls
    ]


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
