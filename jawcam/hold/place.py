"""How the part lies in the jaws: flipped, turned, and its anchor put where it belongs."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from jawcam.geometry.shapes import Path
from jawcam.geometry.transform import moved, turned
from jawcam.job.model import Hold
from jawcam.part.flip import flipped
from jawcam.part.solid import Slab, Slice, Solid

__all__ = ["place"]


def place(solid: Solid, hold: Hold) -> Solid:
    """A part as it is drawn -> the same in jaw coordinates, in mm; heights still count from its
    underside.

    The part is flipped about Y first, then turned counter-clockwise about its anchor, then the
    anchor (the drawing's origin, or the middle of the silhouette's box) lands on `hold.at`.
    """
    ax, ay = _middle(solid.silhouette) if hold.anchor == "centre" else (0.0, 0.0)
    solid = _mapped(solid, lambda path: moved(path, -ax, -ay))
    solid = flipped(solid) if hold.flip else solid
    return _mapped(solid, lambda path: moved(turned(path, hold.turn), *hold.at))


def _middle(paths: tuple[Path, ...]) -> tuple[float, float]:
    boxes = [path.box for path in paths]
    x0, y0 = min(box[0] for box in boxes), min(box[1] for box in boxes)
    x1, y1 = max(box[2] for box in boxes), max(box[3] for box in boxes)
    return (x0 + x1) / 2, (y0 + y1) / 2


def _mapped(solid: Solid, move: Callable[[Path], Path]) -> Solid:
    def paths(some: tuple[Path, ...]) -> tuple[Path, ...]:
        return tuple(move(path) for path in some)

    return replace(
        solid,
        slabs=tuple(Slab(s.bottom, s.top, paths(s.outlines)) for s in solid.slabs),
        silhouette=paths(solid.silhouette),
        holes=paths(solid.holes),
        slices=tuple(Slice(s.height, paths(s.outlines)) for s in solid.slices),
    )
