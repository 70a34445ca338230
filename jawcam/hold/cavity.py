"""The pocket: the part's silhouette plus clearance, and whether the blanks can hold it."""

from __future__ import annotations

from jawcam.errors import FaultList, Place
from jawcam.geometry.offset import grow
from jawcam.geometry.shapes import Path, Region, polygon
from jawcam.geometry.sweep import slid_along_x
from jawcam.hold.target import Blanks
from jawcam.job.model import Fit
from jawcam.tolerance import Tolerance
from jawcam.units import Units

__all__ = ["blank_regions", "cavity_of", "check_blanks"]


def cavity_of(outline: Path, fit: Fit, tolerance: Tolerance) -> Region:
    """The silhouette grown by `fit.grip` all round, then swept `fit.side` either way along X, so
    that play along the jaws does not loosen the grip between them. Holes of the part are not
    holes of the pocket, and a hollow that the clearance closes off is cut away too."""
    grown = grow([Region(outline)], fit.grip, tolerance)
    swept = slid_along_x(Region(grown[0].outer), fit.side, tolerance)
    return Region(swept[0].outer)


def blank_regions(blanks: Blanks) -> tuple[Region, Region]:
    """The two blanks seen from above: the one at +Y, then the one at -Y."""
    near, far, half = blanks.gap / 2, blanks.gap / 2 + blanks.thickness, blanks.width / 2
    back = polygon([(-half, near), (half, near), (half, far), (-half, far)])
    front = polygon([(-half, -far), (half, -far), (half, -near), (-half, -near)])
    return Region(back), Region(front)


def check_blanks(cavity: Region, blanks: Blanks, depth: float, units: Units, place: Place) -> None:
    """Raise InputError when the pocket does not fit between the blanks' edges, leaves one of the
    jaws without a grip, or is deeper than the blanks are high."""
    faults = FaultList()
    x0, y0, x1, y1 = cavity.outer.box
    half, far, near = blanks.width / 2, blanks.gap / 2 + blanks.thickness, blanks.gap / 2
    if x0 <= -half or x1 >= half:
        faults.add(
            f"the part is larger than the blanks: its pocket runs from X {_n(units, x0)} to "
            f"X {_n(units, x1)}, the blanks end at X {_n(units, -half)} and X {_n(units, half)}",
            place,
            f"take blanks wider than {units.say(2 * max(-x0, x1))}, or turn or shift the part",
        )
    if y0 <= -far or y1 >= far:
        faults.add(
            f"the part is larger than the blanks: its pocket runs from Y {_n(units, y0)} to "
            f"Y {_n(units, y1)}, the blanks end at Y {_n(units, -far)} and Y {_n(units, far)}",
            place,
            f"take blanks thicker than {units.say(max(-y0, y1) - near)}, or turn or shift the part",
        )
    if y1 <= near or y0 >= -near:
        faults.add(
            f"the pocket (Y {_n(units, y0)} to Y {_n(units, y1)}) does not reach into both jaws, "
            f"which begin at Y {_n(units, -near)} and Y {_n(units, near)}",
            place,
            "make the gap smaller, or shift the part towards the middle of the gap",
        )
    if depth >= blanks.height:
        faults.add(
            f"the pocket is {units.say(depth)} deep, "
            f"the blanks only {units.say(blanks.height)} high",
            place,
            "take higher blanks, or hold the part less deep",
        )
    faults.raise_if_any()


def _n(units: Units, value: float) -> str:
    return units.number(value, 4 if units is Units.INCH else 3)
