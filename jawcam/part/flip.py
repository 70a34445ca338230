"""A part turned upside down."""

from __future__ import annotations

from dataclasses import replace

from jawcam.geometry.transform import mirrored
from jawcam.part.solid import Slab, Slice, Solid

__all__ = ["flipped"]


def flipped(solid: Solid) -> Solid:
    """The part turned upside down about Y: x becomes -x, and its top is its underside."""
    height = solid.height
    return replace(
        solid,
        slabs=tuple(
            Slab(height - slab.top, height - slab.bottom, tuple(map(mirrored, slab.outlines)))
            for slab in reversed(solid.slabs)
        ),
        silhouette=tuple(map(mirrored, solid.silhouette)),
        holes=tuple(map(mirrored, solid.holes)),
        slices=tuple(
            Slice(height - one.height, tuple(map(mirrored, one.outlines)))
            for one in reversed(solid.slices)
        ),
        remarks=tuple(
            replace(one, bottom=height - one.top, top=height - one.bottom) for one in solid.remarks
        ),
        broken_below=solid.broken_above,
        broken_above=solid.broken_below,
    )
