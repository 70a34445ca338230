"""The drawing formats: a file's ending says who reads it."""

from __future__ import annotations

import pathlib
from typing import Protocol

from jawcam.errors import Fault, InputError, Place
from jawcam.part.dxf import read_dxf
from jawcam.part.loops import outline_of, outlines_of
from jawcam.part.outline import Drawing, Outline
from jawcam.tolerance import Tolerance
from jawcam.units import Units

__all__ = ["FORMATS", "Reader", "read_drawing", "read_outlines"]


class Reader(Protocol):
    """What reads one format: a file in, its loose pieces in mm out. Raises InputError."""

    def __call__(
        self,
        path: pathlib.Path,
        *,
        shown: str,
        layer: str | None,
        units: Units | None,
        tolerance: Tolerance,
    ) -> Drawing:
        """Read a file."""
        ...


FORMATS: dict[str, Reader] = {
    ".dxf": read_dxf,
}
"""File ending, in lower case -> its reader."""


def read_drawing(
    path: pathlib.Path,
    *,
    shown: str,
    layer: str | None,
    units: Units | None,
    tolerance: Tolerance,
) -> Outline:
    """The outline of the part in a drawing.

    shown: the file's name as the person typed it; layer: the drawing layer to take, None for all
    visible ones; units: what it is drawn in, for a drawing that doesn't say. Raises InputError
    with every fault of the drawing.
    """
    return outline_of(_read(path, shown, layer, units, tolerance), tolerance)


def read_outlines(
    path: pathlib.Path,
    *,
    shown: str,
    layer: str | None,
    units: Units | None,
    tolerance: Tolerance,
) -> tuple[Outline, ...]:
    """All the outlines side by side in a drawing, as for `read_drawing`, the largest first."""
    return outlines_of(_read(path, shown, layer, units, tolerance), tolerance)


def _read(
    path: pathlib.Path, shown: str, layer: str | None, units: Units | None, tolerance: Tolerance
) -> Drawing:
    reader = FORMATS.get(path.suffix.lower())
    if reader is None:
        known = ", ".join(sorted(FORMATS))
        ending = path.suffix or "no ending"
        raise InputError(
            Fault(
                f"drawings with {ending} can't be read",
                Place(shown),
                f"save the drawing in one of the known formats ({known})",
            )
        )
    return reader(path, shown=shown, layer=layer, units=units, tolerance=tolerance)
