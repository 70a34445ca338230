"""Programs and targets made by hand: parts of a hand-cranked coffee grinder."""

import math
from dataclasses import replace

from jawcam.hold.target import Blanks, Bolt, Level, Section, Target
from jawcam.proof.report import Figures, Finding
from jawcam.reader.cuts import Cut, Program
from jawcam.tools.cutter import Cutter
from jawcam.units import Units

NAN = math.nan
MILL = Cutter(3, "end mill", 8.0, flutes=3, flute_len=22.0, stickout=30.0)
SMALL_MILL = Cutter(5, "end mill", 6.0, flutes=3, flute_len=16.0, stickout=25.0)


class Pen:
    """Writes cuts one after the other, each from where the last one ended."""

    def __init__(self, tool=3, scale=1.0):
        self.cuts, self.at = [], (NAN, NAN, NAN)
        self.tool, self.scale, self.side = tool, scale, "off"

    def _cut(self, kind, to, centre, turn, feed):
        to = tuple(v * self.scale for v in to)
        if centre is not None:
            centre = tuple(v * self.scale for v in centre)
        self.cuts.append(
            Cut(
                kind,
                self.at,
                to,
                centre,
                turn,
                "XY",
                feed,
                6000.0,
                "cw",
                self.tool,
                self.tool,
                1,
                self.side,
                0,
                len(self.cuts) + 8,
                1,
            )
        )
        self.at = to

    def rapid(self, *to):
        self._cut("rapid", to, None, 0.0, 0.0)

    def line(self, *to, feed=800.0):
        self._cut("line", to, None, 0.0, feed)

    def arc(self, to, centre, turn, feed=800.0):
        self._cut("arc", to, centre, turn, feed)


def lever_ring(inset, left=(-29.0, 17.0), right=(29.0, 9.0)):
    """The corners of a crank lever's outline moved inward: (from, to, centre or None, turn)."""
    (xl, rl), (xr, rr) = left, right
    phi = math.acos((rl - rr) / (xr - xl))
    rl, rr = rl - inset, rr - inset
    c, s = math.cos(phi), math.sin(phi)
    low_r, high_r = (xr + rr * c, -rr * s), (xr + rr * c, rr * s)
    high_l, low_l = (xl + rl * c, rl * s), (xl + rl * c, -rl * s)
    return [
        (low_r, high_r, (xr, 0.0), 2 * phi),
        (high_r, high_l, None, 0.0),
        (high_l, low_l, (xl, 0.0), 2 * (math.pi - phi)),
        (low_l, low_r, None, 0.0),
    ]


def lever_outline():
    return tuple((*start, math.tan(turn / 4)) for start, _, _, turn in lever_ring(0))


def upright(outline, floor, top=4.0):
    """What a target says of a part with upright walls."""
    return {
        "levels": (Level(0.0, floor, (outline,)),),
        "silhouette": (outline,),
        "body": (Section(floor, (outline,)), Section(top, (outline,))),
    }


def circle_outline(x, y, r):
    return ((x + r, y, 1.0), (x - r, y, 1.0))


def run_ring(pen, ring, z):
    for _, end, centre, turn in ring:
        if centre is None:
            pen.line(*end, z)
        else:
            pen.arc((*end, z), centre, turn)


def helix(pen, x, y, r, low, high, turns=3):
    pen.line(x + r, y, high)
    for k in range(turns):
        z = high + (low - high) * (k + 1) / turns
        pen.arc((x + r, y, z), (x, y), 2 * math.pi, 300.0)


def pocket_cuts(scale=1.0, levels=(-8 / 3, -16 / 3, -8.0), *, compensate=True):
    pen = Pen(scale=scale)
    pen.rapid(-26.0, 0.0, NAN)
    pen.rapid(-26.0, 0.0, 25.0)
    pen.rapid(-26.0, 0.0, 1.0)
    above = 1.0
    for z in levels:
        helix(pen, -29.0, 0.0, 3.0, z, above)
        for inset in (8.6, 6.4, 4.2):
            ring = lever_ring(inset)
            pen.line(*ring[0][0], z)
            run_ring(pen, ring, z)
        pen.line(-26.0, 0.0, z)
        above = z
    pen.rapid(-26.0, 0.0, 5.0)
    finish(pen, -8.0, compensate=compensate)
    pen.rapid(pen.at[0] / scale, pen.at[1] / scale, 25.0)
    return tuple(pen.cuts)


def finish(pen, z, compensate):
    ring = lever_ring(4.0)
    (x0, y0), (x1, y1) = ring[1][0], ring[1][1]
    xm, ym = (x0 + x1) / 2, (y0 + y1) / 2
    long = math.hypot(x1 - x0, y1 - y0)
    ux, uy = (x1 - x0) / long, (y1 - y0) / long
    cx, cy = xm - uy * 2.5, ym + ux * 2.5  # the left side of the run is inside
    start, leave = (cx - ux * 2.5, cy - uy * 2.5), (cx + ux * 2.5, cy + uy * 2.5)
    pen.rapid(*start, 5.0)
    pen.line(*start, z, feed=200.0)
    pen.side = "left" if compensate else "off"
    pen.arc((xm, ym, z), (cx, cy), math.pi / 2)
    pen.line(x1, y1, z)
    run_ring(pen, [ring[2], ring[3], ring[0]], z)
    pen.line(xm, ym, z)
    pen.arc((*leave, z), (cx, cy), math.pi / 2)
    pen.side = "off"


def program(cuts, name="side-two.nc", units="mm"):
    lines = tuple(f"N{i}" for i in range(len(cuts) + 9))
    return Program(name, lines, tuple(cuts), units=units, ended=True)


def lever_target(**changes):
    target = Target(
        name="side-two",
        title="Crank lever, jaws for side two",
        units=Units.MM,
        **upright(lever_outline(), -8.0),
        holes=(circle_outline(-29.0, 0.0, 6.0), circle_outline(29.0, 0.0, 3.0)),
        grip=0.0,
        side=0.15,
        part_top=4.0,
        blanks=Blanks(130.0, 38.0, 40.0, 6.0),
        zero=(0.0, 0.0, 0.0),
        work_offset=1,
        clearance=5.0,
        cutters=(MILL,),
        bolts=tuple(Bolt(x, y, 14.0, -20.0) for x in (-50.0, 50.0) for y in (-24.0, 24.0)),
    )
    return replace(target, **changes)


def rod_program():
    pen = Pen(tool=5)
    pen.rapid(-150.0, 0.0, 20.0)
    pen.rapid(-150.0, 0.0, 1.0)
    for z in (-1.0, -2.0, -3.0):
        way = 1.0 if z % 2 else -1.0
        pen.line(-150.0 * way, 0.0, z, feed=100.0)
        pen.line(150.0 * way, 0.0, z)
    pen.line(-150.0, -3.0, -3.0)
    pen.line(150.0, -3.0, -3.0)
    pen.arc((150.0, 3.0, -3.0), (150.0, 0.0), math.pi)
    pen.line(-150.0, 3.0, -3.0)
    pen.arc((-150.0, -3.0, -3.0), (-150.0, 0.0), math.pi)
    pen.rapid(-150.0, -3.0, 20.0)
    return program(pen.cuts, "rod.nc")


def rod_target():
    return lever_target(
        title="Rod of the crank",
        **upright(
            ((-150.0, -6.0, 0.0), (150.0, -6.0, 1.0), (150.0, 6.0, 0.0), (-150.0, 6.0, 1.0)),
            -3.0,
            3.0,
        ),
        holes=(),
        part_top=3.0,
        blanks=Blanks(400.0, 25.0, 20.0, 3.0),
        bolts=tuple(Bolt(x, y, 8.0, -8.0) for x in (-180.0, 180.0) for y in (-12.0, 12.0)),
        cutters=(SMALL_MILL,),
        clearance=10.0,
    )


def rings(radii, cutter, x=0.0, y=0.0, z=-6.0, tool=3):
    """A helix and then rings, for a round cavity."""
    pen = Pen(tool)
    pen.rapid(x, y, 20.0)
    pen.rapid(x, y, 1.0)
    helix(pen, x, y, radii[0] / 2, z, 1.0, 4)
    for r in radii:
        pen.line(x + r - cutter, y, z)
        pen.arc((x + r - cutter, y, z), (x, y), 2 * math.pi)
    pen.rapid(x + radii[-1] - cutter, y, 20.0)
    return program(pen.cuts, "round.nc")


def pin_program():
    return rings((0.5, 0.8, 1.0), 0.2, z=-0.4, tool=1)


def pin_target():
    return lever_target(
        title="Pin head",
        **upright(circle_outline(0.0, 0.0, 1.0), -0.4, 0.3),
        holes=(),
        part_top=0.3,
        side=0.05,
        blanks=Blanks(5.0, 3.0, 2.0, 0.3),
        bolts=(),
        cutters=(Cutter(1, "ball end mill", 0.4, flute_len=1.0, stickout=3.0),),
        clearance=1.0,
    )


def ring_target():
    return lever_target(
        title="Burr ring",
        **upright(circle_outline(0.0, 0.0, 20.0), -6.0, 9.0),
        holes=(circle_outline(0.0, 0.0, 9.0),),
        part_top=9.0,
        grip=0.5,
        side=0.0,
        blanks=Blanks(100.0, 50.0, 25.0, 4.0),
        bolts=(),
    )


def only_rapid():
    pen = Pen()
    pen.rapid(0.0, 0.0, 50.0)
    pen.rapid(30.0, 20.0, 50.0)
    pen.rapid(30.0, 20.0, 2.0)
    return program(pen.cuts, "air.nc")


def one_point():
    pen = Pen()
    pen.line(3.0, 4.0, -1.0, feed=0.0)
    return program(pen.cuts, "point.nc")


def in_xz():
    """Never tells Y; an arc in the XZ plane, whose first axis is Z."""
    pen = Pen()
    pen.rapid(-10.0, NAN, 5.0)
    pen.line(-10.0, NAN, 0.0)
    pen.arc((10.0, NAN, 0.0), (0.0, 0.0), math.pi)
    cuts = [*pen.cuts[:-1], pen.cuts[-1]._replace(plane="XZ")]
    return program(cuts, "groove.nc")


FIGURES = Figures(
    gouge=0.0,
    left_over=0.8,
    floor_error=0.0,
    deepest=-8.0,
    bolt_clearance=6.25,
    wall_left=26.0,
    floor_left=30.0,
    feed_length=2140.0,
    rapid_length=100.0,
    feed_minutes=3.06,
    rapid_minutes=0.01,
    area=1900.0,
    volume=15200.0,
)


def many_findings(count):
    return tuple(
        Finding(
            f"P{100 + i}",
            ("stop", "warn", "note")[i % 3],
            "the cutter goes past the wall of the cavity by more than the limit " * (1 + i % 2),
            line=i * 7,
            x=60 * math.sin(i) if i % 4 else None,
            y=30 * math.cos(2 * i) if i % 4 else None,
        )
        for i in range(count)
    )
