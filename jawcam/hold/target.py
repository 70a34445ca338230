"""What must go and what must stay: the one value that the planner cuts to and the judge proves by.

Plain data in mm and jaw coordinates: X along the jaws, Y the closing direction, Z up; X = 0 at
mid width, Y = 0 at mid gap, Z = 0 at the jaw top. Imports no geometry, so that the judge can
read it and grow the outline by means of its own.
"""

from __future__ import annotations

from dataclasses import dataclass

from jawcam.job.model import Blanks, Bolt
from jawcam.tools.cutter import Cutter
from jawcam.units import Units

__all__ = ["Blanks", "Bolt", "Loop", "Relief", "Target", "Unreached"]

Loop = tuple[tuple[float, float, float], ...]
"""A closed outline, counter-clockwise, as rows (x, y, bulge); bulge = tan(sweep / 4) of the piece
that begins at its row, positive counter-clockwise, 0 for a straight one (the DXF definition)."""


@dataclass(frozen=True)
class Relief:
    """A corner relief: what a round cutter of `radius` sweeps from `start` to `end`, from the jaw
    top to the floor. `corner` is the part's corner that it makes room for."""

    start: tuple[float, float]
    end: tuple[float, float]
    radius: float
    corner: tuple[float, float]


@dataclass(frozen=True)
class Unreached:
    """A place of the cavity that no cutter given can reach: its deepest point and its size (the
    diameter of the largest disc in it), why it stays, and whether the part seats all the same."""

    x: float
    y: float
    size: float
    why: str
    seats: bool


@dataclass(frozen=True)
class Target:
    """One setup's cavity.

    outline: the part's silhouette as it lies in the jaws; holes: its inner loops, never cut.
    grip: how far the silhouette is grown all round; side: how far that is then swept either way
    along X. floor: the Z of the seat. part_top: the Z of the part's top once seated.
    zero: the jaw coordinates of the program's origin.
    """

    name: str
    title: str
    units: Units
    outline: Loop
    holes: tuple[Loop, ...]
    grip: float
    side: float
    floor: float
    part_top: float
    blanks: Blanks
    zero: tuple[float, float, float]
    work_offset: int
    clearance: float
    cutters: tuple[Cutter, ...]
    bolts: tuple[Bolt, ...] = ()
    reliefs: tuple[Relief, ...] = ()
    unreached: tuple[Unreached, ...] = ()
    notes: tuple[str, ...] = ()
