"""Parts and pockets to close the jaws on."""

from __future__ import annotations

import dataclasses

from jawcam.geometry.offset import grow
from jawcam.geometry.shapes import Region
from jawcam.geometry.sweep import slid_along_x
from jawcam.geometry.transform import turned
from jawcam.hold.closing import TOUCH, Wall, closing
from jawcam.job.model import Blanks
from jawcam.tolerance import Tolerance

TOLERANCE = Tolerance()
BLANKS = Blanks(width=130, height=38, thickness=60, gap=6)


def pocket(part, grip, side=0.0):
    (grown,) = grow([Region(part)], grip, TOLERANCE)
    (swept,) = slid_along_x(Region(grown.outer), side, TOLERANCE)
    return Region(swept.outer)


def level(part, cavity, top=0.0, floor=-8.0):
    return Wall((part,), (cavity,), top, floor)


def closed(part, cavity, **options):
    return closed_at([level(part, cavity)], **options)


def closed_at(walls, *, touch=TOUCH, **blanks):
    return closing(walls, dataclasses.replace(BLANKS, **blanks), TOLERANCE, touch=touch)


def half_turn(wall):
    parts = tuple(turned(part, 180) for part in wall.parts)
    pockets = []
    for pocket in wall.pockets:
        outer, *holes = (turned(path, 180) for path in pocket.paths)
        pockets.append(Region(outer, tuple(holes)))
    return dataclasses.replace(wall, parts=parts, pockets=tuple(pockets))
