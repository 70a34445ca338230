"""Pockets with levels, holes and more, and programs for them: parts of the same coffee grinder."""

import math
from dataclasses import replace

import show_demos as demo

from jawcam.hold.target import Blanks, Groove, Hole, Level, Section
from jawcam.tools.cutter import Cutter

DRILL = Cutter(7, "drill", 5.0, flute_len=40.0, stickout=50.0, angle=118.0)
CHAMFER = Cutter(8, "chamfer mill", 6.0, flute_len=3.0, stickout=20.0, angle=90.0, tip_dia=1.0)
FACER = Cutter(9, "end mill", 20.0, flutes=4, flute_len=30.0, stickout=40.0)


def box_outline(x0, y0, x1, y1):
    return ((x0, y0, 0.0), (x1, y0, 0.0), (x1, y1, 0.0), (x0, y1, 0.0))


def disc_levels(steps):
    """(top, floor, radius) of each -> levels."""
    return tuple(Level(a, b, (demo.circle_outline(0.0, 0.0, r),)) for a, b, r in steps)


def disc_body(rows):
    """(z, radius) of each -> sections."""
    return tuple(Section(z, (demo.circle_outline(0.0, 0.0, r),)) for z, r in rows)


HUB_STEPS = ((0.0, -3.0, 19.0), (-3.0, -8.0, 14.0), (-8.0, -13.0, 13.5), (-13.0, -22.0, 10.0))
HUB_ROWS = (
    *((-22.0, 10.0), (-13.0, 10.0), (-13.0, 13.0), (-3.0, 14.0)),
    *((-3.0, 19.0), (3.0, 19.0), (3.0, 12.0), (11.0, 12.0)),
)


def hub_target(**changes):
    """A turned part that stands: a shoulder, a taper, a flange, a collar above the jaws."""
    changes = {
        "title": "Drive hub, end B down",
        "name": "end-b-down",
        "levels": disc_levels(HUB_STEPS),
        "silhouette": (demo.circle_outline(0.0, 0.0, 19.0),),
        "body": disc_body(HUB_ROWS),
        "holes": (demo.circle_outline(0.0, 0.0, 4.0),),
        "grip": 0.02,
        "part_top": 11.0,
        "clearance": 15.0,
        "blanks": Blanks(100.0, 45.0, 40.0, 8.0),
        "bolts": (),
        **changes,
    }
    return demo.lever_target(**changes)


def round_pocket(pen, steps, cutter=4.0, high=20.0):
    """Helix and rings, from the top down."""
    above = 1.0
    pen.rapid(0.0, 0.0, high)
    for _, floor, radius in steps:
        pen.rapid(0.0, 0.0, above + 0.5)
        demo.helix(pen, 0.0, 0.0, 3.0, floor, above)
        r = 3.0
        while r < radius - cutter:
            r = min(r + 4.0, radius - cutter)
            pen.line(r, 0.0, floor)
            pen.arc((r, 0.0, floor), (0.0, 0.0), 2 * math.pi)
        pen.line(0.0, 0.0, floor)
        above = floor
    pen.rapid(0.0, 0.0, high)


def hub_program():
    pen = demo.Pen()
    round_pocket(pen, HUB_STEPS)
    return demo.program(pen.cuts, "end-b-down.nc")


STAIRS = tuple((-1.5 * k, -1.5 * (k + 1), 40.0 - 2.5 * k, 24.0 - 1.2 * k) for k in range(12))


def stairs_target():
    """Twelve levels; the part is a block with as many steps."""
    outlines = [box_outline(-x, -y, x, y) for _, _, x, y in STAIRS]
    levels = [Level(a, b, (o,)) for (a, b, _, _), o in zip(STAIRS, outlines, strict=True)]
    body = []
    for level in reversed(levels):
        top = 6.0 if level is levels[0] else level.top
        body += [Section(level.floor, level.outlines), Section(top, level.outlines)]
    return demo.lever_target(
        title="Stepped bearing block",
        levels=tuple(levels),
        silhouette=(outlines[0],),
        body=tuple(body),
        holes=(),
        part_top=6.0,
        clearance=10.0,
        blanks=Blanks(130.0, 38.0, 40.0, 6.0),
        bolts=(),
    )


def stairs_program():
    pen = demo.Pen()
    pen.rapid(0.0, 0.0, 15.0)
    pen.rapid(0.0, 0.0, 1.0)
    for top, floor, x, y in STAIRS:
        demo.helix(pen, 0.0, 0.0, 3.0, floor, top)
        for inset in (8.5, 4.0):
            a, b = x - inset, y - inset
            pen.line(a, b, floor)
            for corner in ((-a, b), (-a, -b), (a, -b), (a, b)):
                pen.line(*corner, floor)
        pen.line(3.0, 0.0, floor)
    pen.rapid(0.0, 0.0, 15.0)
    return demo.program(pen.cuts, "stairs.nc")


def bosses_target(**changes):
    """The lever with its two bosses standing deeper than the web."""
    bosses = (demo.circle_outline(-29.0, 0.0, 13.0), demo.circle_outline(29.0, 0.0, 7.0))
    web = demo.lever_outline()
    changes = {
        "title": "Crank lever with bosses",
        "levels": (Level(0.0, -4.0, (web,)), Level(-4.0, -9.0, bosses)),
        "body": (
            Section(-9.0, bosses),
            Section(-4.0, bosses),
            Section(-4.0, (web,)),
            Section(4.0, (web,)),
        ),
        **changes,
    }
    return demo.lever_target(**changes)


def bosses_program():
    cuts = list(demo.pocket_cuts(levels=(-2.0, -4.0), compensate=False))
    cuts = [cut for cut in cuts if cut.end[2] != -8.0 and cut.start[2] != -8.0]
    pen = demo.Pen()
    pen.cuts, pen.at = cuts, cuts[-1].end
    for x, r in ((-29.0, 13.0), (29.0, 7.0)):
        pen.rapid(x + 2.5, 0.0, 25.0)
        pen.rapid(x + 2.5, 0.0, -3.0)
        demo.helix(pen, x, 0.0, 2.5, -9.0, -3.0)
        pen.line(x + r - 4.0, 0.0, -9.0)
        pen.arc((x + r - 4.0, 0.0, -9.0), (x, 0.0), 2 * math.pi)
        pen.rapid(x + r - 4.0, 0.0, 25.0)
    return demo.program(pen.cuts, "bosses.nc")


SHAFT = ((-36.0, -14.0, 8.0), (-14.0, -6.0, 15.0), (-6.0, 36.0, 10.0))
"""(x from, x to, radius) of a shaft's cylinders."""


def shaft_outline(off=0.0):
    """What a level plane cuts out of the shaft `off` its axis: a polygon."""
    right, left = [], []
    for a, b, r in SHAFT:
        if r > off:
            half = math.sqrt(r * r - off * off)
            right += [(a, -half, 0.0), (b, -half, 0.0)]
            left = [(b, half, 0.0), (a, half, 0.0), *left]
    return tuple(right + left)


def shaft_target(**changes):
    """A turned part that lies along the jaws, sunk to its axis."""
    flat = [r for _, _, r in SHAFT]
    offs = {round(15.0 * math.cos(math.pi / 2 * k / 24), 6) for k in range(25)} | set(flat)
    below = []
    for off in sorted(offs, reverse=True):
        if off in flat and off < 15.0:
            below.append(Section(-off, (shaft_outline(off),)))
        below.append(Section(-off, (shaft_outline(max(off - 1e-6, 0.0)),)))
    body = (*below, *(replace(one, z=-one.z) for one in reversed(below[:-1])))
    changes = {
        "title": "Crank shaft, lying",
        "levels": (Level(0.0, -15.0, (shaft_outline(),)),),
        "silhouette": (shaft_outline(),),
        "body": body,
        "holes": (),
        "part_top": 15.0,
        "clearance": 20.0,
        "bolts": (),
        **changes,
    }
    return demo.lever_target(**changes)


def shaft_program():
    pen = demo.Pen()
    pen.rapid(-33.0, 0.0, 25.0)
    pen.rapid(-33.0, 0.0, 1.0)
    for k in range(1, 6):
        z = -3.0 * k
        pen.line(-31.0 if k % 2 else -33.0, 0.0, z, feed=200.0)
        for x, y in ((31.0, 5.0), (31.0, -5.0), (-32.0, -3.5), (-32.0, 3.5), (-33.0, 0.0)):
            pen.line(x, y, z)
    pen.rapid(-33.0, 0.0, 25.0)
    return demo.program(pen.cuts, "shaft.nc")


HOLES = (
    Hole(52.0, 10.0, 5.0, -16.0, -17.5, 7, "stop"),
    Hole(52.0, -10.0, 5.0, -16.0, -17.5, 7, "stop"),
    Hole(-46.5, 0.0, 3.0, -8.0, -8.9, 6, "relief"),
)


def dressed_target(**changes):
    """The lever's pocket with all that may be done beside it."""
    changes = {
        "title": "Crank lever, faced, drilled, edges broken",
        "drilled": HOLES,
        "groove": Groove(2.0, 0.6),
        "facing": 0.8,
        "edge": 0.7,
        "edge_tool": 8,
        "cutters": (demo.MILL, DRILL, CHAMFER, FACER),
        **changes,
    }
    return demo.lever_target(**changes)


def drill(pen, x, y, tip):
    pen.rapid(x, y, 20.0)
    pen.rapid(x, y, 1.0)
    for share in (0.4, 0.75, 1.0):
        pen.line(x, y, tip * share, feed=150.0)
        pen.rapid(x, y, 1.0)
    pen.rapid(x, y, 20.0)


def dressed_program():
    pen = demo.Pen(tool=9)
    pen.rapid(-80.0, -40.0, 20.0)
    pen.rapid(-80.0, -40.0, 0.0)
    for k in range(6):
        way = 1 if k % 2 == 0 else -1
        pen.line(-80.0 * way, -40.0 + 16.0 * k, 0.0)
        pen.line(80.0 * way, -40.0 + 16.0 * k, 0.0)
    pen.rapid(-80.0, 40.0, 20.0)
    pen.tool = 7
    for hole in HOLES[:2]:
        drill(pen, hole.x, hole.y, hole.tip)
    cuts = (*pen.cuts, *demo.pocket_cuts())
    pen = demo.Pen(tool=8)
    pen.cuts, pen.at = list(cuts), cuts[-1].end
    ring = demo.lever_ring(1.0)
    pen.rapid(*ring[0][0], 5.0)
    pen.line(*ring[0][0], -1.2)
    demo.run_ring(pen, ring, -1.2)
    pen.rapid(*ring[0][0], 20.0)
    return demo.program(pen.cuts, "dressed.nc")


def stations_program():
    """The hub at work offset 1, the lever at 2, each tool at both."""
    first, second = hub_program().cuts, demo.pocket_cuts()
    half = len(first) // 2
    unknown = (demo.NAN,) * 3
    parts = (first[:half], second[:60], first[half:], second[60:])
    cuts = []
    for number, part in enumerate(parts):
        moved = [cut._replace(work_offset=1 + number % 2) for cut in part]
        cuts += [moved[0]._replace(kind="rapid", centre=None, turn=0.0, start=unknown), *moved[1:]]
    return demo.program(cuts, "both-stations.nc")


def lever_at_second_station():
    return replace(demo.lever_target(), work_offset=2)
