"""Programs and a target made by hand: the pocket for the adjusting ring of a hand-cranked coffee
grinder, a disc of 30 mm grown by 0.05 mm, 6 mm deep, cut with an end mill of 8 mm."""

import math
from dataclasses import replace

from jawcam.hold.target import Blanks, Level, Section, Target
from jawcam.proof.move import Move
from jawcam.proof.prove import prove
from jawcam.reader.cuts import Change, Cut, Program
from jawcam.tools.cutter import Cutter
from jawcam.units import Units

NAN = math.nan
MILL = Cutter(3, "end mill", 8.0, flutes=3, flute_len=22.0, stickout=40.0)
DISC = ((15.0, 0.0, 1.0), (-15.0, 0.0, 1.0))
TARGET = Target(
    name="ring-side-two",
    title="Adjusting ring, jaws for side two",
    units=Units.MM,
    levels=(Level(0.0, -6.0, (DISC,)),),
    silhouette=(DISC,),
    body=(Section(-6.0, (DISC,)), Section(4.0, (DISC,))),
    holes=(),
    grip=0.05,
    side=0.0,
    part_top=4.0,
    blanks=Blanks(width=80.0, height=30.0, thickness=30.0, gap=6.0),
    zero=(0.0, 0.0, 0.0),
    work_offset=1,
    clearance=10.0,
    cutters=(MILL,),
)


class Pen:
    """Writes cuts one after the other, each on a line of its own, from where the last one ended."""

    def __init__(self, at=(NAN, NAN, NAN)):
        self.cuts, self.at, self.line, self.tool = [], at, 0, 3

    def call(self, tool):
        """Another tool, which comes from where the program doesn't tell."""
        self.tool, self.at = tool, (NAN, NAN, NAN)
        return self

    def _cut(self, kind, to, centre=None, turn=0.0, feed=600.0):
        end = tuple(old if new is None else new for old, new in zip(self.at, to, strict=True))
        self.line += 1
        self.cuts.append(
            Cut(
                kind,
                self.at,
                end,
                centre,
                turn,
                "XY",
                feed,
                6000.0,
                "cw",
                self.tool,
                self.tool,
                1,
                "off",
                0,
                self.line,
                1,
            )
        )
        self.at = end
        return self

    def rapid(self, x=None, y=None, z=None):
        return self._cut("rapid", (x, y, z), feed=0.0)

    def feed(self, x=None, y=None, z=None, rate=600.0):
        return self._cut("line", (x, y, z), feed=rate)

    def circle(self, z=None, turns=1, centre=(0.0, 0.0)):
        return self._cut("arc", (None, None, z), centre, math.tau * turns)

    def arc(self, x, y, centre, *, ccw=True, z=None):
        a, b = (math.atan2(q - centre[1], p - centre[0]) for p, q in (self.at[:2], (x, y)))
        turn = (b - a) % math.tau or math.tau
        return self._cut("arc", (x, y, z), centre, turn if ccw else turn - math.tau)


def disc_pocket(wall=11.05, floor=-6.0, rings=(3.0, 6.0, 9.0, 10.85), pen=None):
    """A correct way to cut the pocket: at two levels a helix and rings, then round the wall."""
    pen = pen or Pen()
    pen.rapid(3.0, 0.0).rapid(z=10.0).rapid(z=0.5)
    top = 0.0
    for level in (floor / 2, floor):
        pen.feed(z=top)
        pen.circle(level, turns=math.ceil(top - level))
        for radius in rings:
            pen.feed(x=radius).circle()
        pen.feed(x=3.0)
        top = level
    pen.feed(wall - 3.0, -3.0).arc(wall, 0.0, (wall - 3.0, 0.0))
    pen.circle().arc(wall - 3.0, 3.0, (wall - 3.0, 0.0))
    return pen.rapid(z=10.0)


def program(pen_or_cuts, **changes):
    """Cuts as a whole program that begins and ends as it should."""
    cuts = tuple(getattr(pen_or_cuts, "cuts", pen_or_cuts))
    last = max((cut.line for cut in cuts), default=1) + 1
    whole = Program(
        "ring.nc",
        tuple(f"block {n}" for n in range(1, last + 1)),
        cuts,
        (
            Change("machine", "Z0", 0, 1),
            Change("spindle", "off", last, 1),
            Change("end", "M30", last, 1),
        ),
        ended=True,
    )
    return replace(whole, **changes)


def at_line(cuts, line, **changes):
    """The cuts, one of them changed."""
    return [cut._replace(**changes) if cut.line == line else cut for cut in cuts]


def found(report):
    """Codes and lines."""
    return [(finding.code, finding.line) for finding in report.findings]


def move(kind, start, end, *, dia=10.0, centre=(0.0, 0.0), turn=0.0):
    """A move on its own."""
    return Move(kind, start, end, centre, turn, Cutter(1, "end mill", dia), 0, 1, 1)


GOOD = disc_pocket()
WALL = next(cut.line for cut in GOOD.cuts if cut.turn == math.tau and cut.end[0] == 11.05)
"""A correct program, and the line of its last cut round the wall."""


def ring_out(pen, radius, z, *, start=3.0, wide=3.0):
    """Circles at the height `z`, from the radius `start` on, at most `wide` apart, to `radius`."""
    pen.feed(start, 0.0).feed(z=z).circle()
    count = math.ceil((radius - start) / wide)
    for k in range(1, count + 1):
        pen.feed(x=start + (radius - start) * k / count).circle()
    return pen


def judged(pen_or_cuts, target=TARGET, **options):
    return prove(program(pen_or_cuts), target, **options)
