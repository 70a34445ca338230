"""How the part lies in the jaws: flipped, turned, and its anchor put where it belongs."""

from __future__ import annotations

from dataclasses import dataclass

from jawcam.geometry.shapes import Path
from jawcam.geometry.transform import mirrored, moved, turned
from jawcam.job.model import Hold
from jawcam.part.outline import Outline

__all__ = ["Placed", "place"]


@dataclass(frozen=True)
class Placed:
    """The silhouette (counter-clockwise) and the inner loops (clockwise) in jaw coordinates, mm."""

    outer: Path
    holes: tuple[Path, ...]


def place(outline: Outline, hold: Hold) -> Placed:
    """A part's outline -> the same in jaw coordinates.

    The part is flipped about Y first, then turned counter-clockwise about its anchor, then the
    anchor (the drawing's origin, or the middle of the outline's box) lands on `hold.at`.
    """
    ax, ay = 0.0, 0.0
    if hold.anchor == "centre":
        x0, y0, x1, y1 = outline.outer.box
        ax, ay = (x0 + x1) / 2, (y0 + y1) / 2

    def placed(path: Path) -> Path:
        path = moved(path, -ax, -ay)
        path = mirrored(path) if hold.flip else path
        return moved(turned(path, hold.turn), *hold.at)

    return Placed(placed(outline.outer), tuple(placed(hole) for hole in outline.holes))
