"""A turned part's half profile, whether a table or a drawing told it, and what goes with it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from jawcam.errors import Place
from jawcam.geometry.shapes import Segment
from jawcam.part.half_bore import check_bore
from jawcam.part.half_breaks import unbroken
from jawcam.part.half_drawing import HalfDrawing
from jawcam.part.piece import Piece
from jawcam.part.profile import check_turned, half_profile, idle_breaks
from jawcam.part.table import stretches, thread_remarks
from jawcam.tolerance import Tolerance
from jawcam.units import Units

__all__ = ["AS_DRAWN", "BREAK", "HalfProfile", "of_drawing", "of_table"]

BREAK = 1.0
"""mm; chamfers and rounds up to this size are edge breaks that a wall goes straight past (common
practice, no source)."""

AS_DRAWN = "the drawing says no limits and no threads: every diameter is taken as drawn"
"""What a person should know of any half profile that was drawn."""


@dataclass(frozen=True)
class HalfProfile:
    """exact: from the rim of end A to that of end B as points (along, radius) in mm, along = 0 at
    end A, without the end faces; plain: the same without the edge breaks of up to `BREAK`, its
    corners sharp; bore: the largest diameter of the bore in mm, 0 for none; remarks: what a person
    who grips the part should know, with where along the axis it begins and ends; notes: what was
    left out, approximated or assumed."""

    exact: tuple[Segment, ...]
    plain: tuple[Segment, ...]
    bore: float = 0.0
    remarks: tuple[tuple[float, float, str], ...] = ()
    notes: tuple[str, ...] = ()

    @property
    def length(self) -> float:
        """From end A to end B, in mm."""
        return self.exact[-1].end[0]


def of_table(
    pieces: Sequence[Piece],
    bore: Sequence[Piece],
    *,
    units: Units,
    place: Callable[[str], Place],
) -> HalfProfile:
    """The half profile that a table of diameters tells.

    place: makes the place of a piece from its key, such as ``turned[2]`` or ``bore[1]``. Raises
    InputError with every break that has no room and every place where the bore breaks out.
    """
    check_turned(pieces, bore, units=units, place=place)
    return HalfProfile(
        exact=half_profile(pieces, units=units, place=place),
        plain=half_profile(pieces, units=units, place=place, beyond=BREAK),
        bore=_widest(bore),
        remarks=thread_remarks(pieces),
        notes=idle_breaks(pieces),
    )


def of_drawing(
    found: HalfDrawing,
    bore: Sequence[Piece],
    *,
    units: Units,
    place: Callable[[str], Place],
    tolerance: Tolerance,
) -> HalfProfile:
    """The half profile that a drawing tells; its edge breaks are known by their form.

    place: as for `of_table`. Raises InputError where the bore breaks out.
    """
    check_bore(found.profile, bore, units=units, place=place, tolerance=tolerance)
    return HalfProfile(
        exact=found.profile,
        plain=unbroken(found.profile, BREAK),
        bore=_widest(bore),
        notes=(*found.notes, AS_DRAWN),
    )


def _widest(bore: Sequence[Piece]) -> float:
    return max((2 * max(row.first, row.last) for row in stretches(bore)), default=0.0)
