"""A turned part as a table of what follows along its axis: cylinders, tapers, threads."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["Piece"]


@dataclass(frozen=True)
class Piece:
    """One stretch along the axis, in mm; the table begins at end A.

    start, end: its diameters, the same for a cylinder; chamfer, rounding: how its outer corners
    are broken, at 45 degrees or by a radius; limits: upper and lower deviation of a cylinder's
    diameter, cut to their middle; thread: its designation, "" for none.
    """

    start: float
    end: float
    length: float
    chamfer: float = 0.0
    rounding: float = 0.0
    limits: tuple[float, float] | None = None
    thread: str = ""
