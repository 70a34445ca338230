"""A part as a solid: what it fills at each height, as exact lines and arcs."""

from __future__ import annotations

from dataclasses import dataclass

from jawcam.geometry.shapes import Path

__all__ = ["Remark", "Slab", "Slice", "Solid"]


@dataclass(frozen=True)
class Slab:
    """What the part fills at most from the height `bottom` to `top` above its underside, in mm:
    closed outlines, counter-clockwise, which may overlap."""

    bottom: float
    top: float
    outlines: tuple[Path, ...]


@dataclass(frozen=True)
class Slice:
    """What the part fills at one height above its underside, for drawings of it."""

    height: float
    outlines: tuple[Path, ...]


@dataclass(frozen=True)
class Remark:
    """What a person should know of the part between two heights above its underside. stepped:
    only where the cavity has steps there."""

    bottom: float
    top: float
    text: str
    stepped: bool = False


@dataclass(frozen=True)
class Solid:
    """A part as it is drawn, seen from above: millimetres, in the drawing's own coordinates; of a
    turned part, its axis through the origin.

    slabs: from its underside up, each beginning where the one below ends; nothing of the part
    lies outside them. silhouette: its outlines from above; holes: loops inside it, clockwise,
    drawn but never cut. slices: from the underside up; between two neighbours the shape changes
    evenly, and where it jumps two have the same height. broken_below, broken_above: by how much
    the edges of its underside and of its top are broken. least_depth: how deep it must sit at
    least so that upright walls meet it where it is widest. lying: where it lies on its side, the
    stretch (X from, X to) of its largest diameter, on which it rests; None if it stands. notes:
    what was done to it that a person should know; remarks: the same of some heights only.
    """

    slabs: tuple[Slab, ...]
    silhouette: tuple[Path, ...]
    holes: tuple[Path, ...]
    slices: tuple[Slice, ...]
    broken_below: float = 0.0
    broken_above: float = 0.0
    least_depth: float = 0.0
    lying: tuple[float, float] | None = None
    notes: tuple[str, ...] = ()
    remarks: tuple[Remark, ...] = ()

    @property
    def height(self) -> float:
        """From its underside to its top."""
        return self.slabs[-1].top
