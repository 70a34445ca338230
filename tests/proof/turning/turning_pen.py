"""Lathe programs and targets made by hand: parts of a hand-cranked coffee grinder.

The axle is a bar of 40 mm in front of a chuck, finished to the Z and radii that each test gives.
Points are (Z, X) with X a radius; tools go where their set point goes.
"""

import math
from dataclasses import replace

from jawcam.hold.turn_target import TurnTarget
from jawcam.proof.turning.prove import prove_turning
from jawcam.reader.cuts import Change, Cut, Program
from jawcam.tools.turner import Insert, Turner
from jawcam.units import Units

NAN = math.nan
CNMG = Insert("CNMG 12 04 08", "C", 80.0, 0.0, 12.7, 0.8)
VNMG = Insert("VNMG 16 04 08", "V", 35.0, 0.0, 9.525, 0.8)
CCMT = Insert("CCMT 06 02 04", "C", 80.0, 7.0, 6.35, 0.4)
TURN = Turner(1, "turning", insert=CNMG, approach=95.0)
SLIM = Turner(2, "turning", insert=VNMG, approach=93.0)
GROOVE = Turner(3, "grooving", width=3.0, radius=0.2, reach=10.0)
PART = Turner(4, "parting", width=3.0, radius=0.2, reach=25.0)
THREAD = Turner(5, "threading", pitch_angle=60.0)
DRILL = Turner(6, "drill", dia=16.0, point_angle=118.0)
BORE = Turner(7, "boring", insert=CCMT, approach=95.0, inside=True, least_bore=14.0, shank=10.0)
TOOLS = (TURN, SLIM, GROOVE, PART, THREAD, DRILL, BORE)
STOCK_RADIUS, FRONT, REAR = 20.0, 1.0, -80.0


def box(z0, z1, x0, x1):
    return ((z0, x0, 0.0), (z1, x0, 0.0), (z1, x1, 0.0), (z0, x1, 0.0))


def target(*outline, limit=-50.0, **changes):
    """A target: `outline` is the profile from the free end's axis (or bore) to the limit, rows (Z,
    X) or (Z, X, bulge); behind the limit the part is as thick as the stock."""
    rows = [(row[0], row[1], row[2] if len(row) > 2 else 0.0) for row in outline]
    if rows[-1][0] > limit:
        rows.append((limit, rows[-1][1], 0.0))
    inner = changes.pop("inner", 0.0)
    finished = ((-70.0, inner, 0.0), *rows, (limit, STOCK_RADIUS, 0.0), (-70.0, STOCK_RADIUS, 0.0))
    whole = TurnTarget(
        name="axle",
        title="Crank axle",
        units=Units.MM,
        finished=_tidy(finished),
        stock=box(REAR, FRONT, 0.0, STOCK_RADIUS),
        limit=limit,
        threads=(),
        keep_off=(box(-90.0, -55.0, STOCK_RADIUS, 50.0), box(-200.0, -90.0, 0.0, 80.0)),
        tools=TOOLS,
        work_offset=1,
        clearance=2.0,
        clamp=2500.0,
    )
    return replace(whole, **changes)


def _tidy(rows):
    """The rows without those that repeat the one before."""
    kept = []
    for row in rows:
        if kept and kept[-1][:2] == row[:2]:
            kept[-1] = row
        else:
            kept.append(row)
    return tuple(kept)


class Pen:
    """Writes cuts one after the other, each on a line of its own, from where the last one ended."""

    def __init__(self, tool=1):
        self.cuts, self.at, self.line, self.tool = [], (NAN, NAN), 0, tool
        self.changes = [Change("tool", str(tool), 0, 1)]
        self.state = {"feed": 0.2, "rpm": 1000.0, "per_turn": True}
        self.side = "off"

    def with_state(self, **state):
        self.state = {**self.state, **state}
        return self

    def call(self, tool):
        """Another tool, which comes from where the program doesn't tell."""
        self.line += 1
        self.changes.append(Change("tool", str(tool), self.line, 1))
        self.tool, self.at = tool, (NAN, NAN)
        return self

    def _cut(self, kind, end, centre=None, turn=0.0, **more):
        end = tuple(old if new is None else new for old, new in zip(self.at, end, strict=True))
        self.line += 1
        state = {**self.state, **more}
        self.cuts.append(
            Cut(
                kind,
                (self.at[1], 0.0, self.at[0]),
                (end[1], 0.0, end[0]),
                centre,
                turn,
                "XZ",
                0.0 if kind == "rapid" else state["feed"],
                state["rpm"],
                state.get("spindle", "cw"),
                self.tool,
                self.tool,
                1,
                self.side,
                0,
                self.line,
                1,
                per_turn=state["per_turn"],
                surface=state.get("surface", 0.0),
                clamp=state.get("clamp", 0.0),
                lead=state.get("lead", 0.0),
            )
        )
        self.at = end
        return self

    def rapid(self, z=None, x=None):
        return self._cut("rapid", (z, x))

    def feed(self, z=None, x=None):
        return self._cut("line", (z, x))

    def arc(self, z, x, centre, *, ccw):
        a, b = (math.atan2(q[1] - centre[1], q[0] - centre[0]) for q in (self.at, (z, x)))
        turn = (b - a) % math.tau
        return self._cut("arc", (z, x), centre, turn if ccw else turn - math.tau)

    def thread(self, z, x, lead):
        return self._cut("line", (z, x), lead=lead)

    def home(self):
        """Clear of all, out and then away from the chuck."""
        return self.rapid(x=60.0).rapid(z=60.0)


def face(pen, z=0.0, *, nose=0.8):
    """Face the end, past the axis by the nose."""
    pen.rapid(z + 3.0, 23.0).rapid(z=z).feed(x=-nose)
    return pen.feed(z=z + 2.0).rapid(x=60.0).rapid(z=60.0)


def level_passes(pen, radius, end, *, depth=2.5):
    """Turn the bar down to a radius in level passes, as far as `end`."""
    count = math.ceil((STOCK_RADIUS - radius) / depth)
    for k in range(1, count + 1):
        x = STOCK_RADIUS + (radius - STOCK_RADIUS) * k / count
        pen.rapid(3.0, STOCK_RADIUS + 3.0).rapid(x=x).feed(z=end).feed(x=x + 3.0)
        pen.rapid(x=STOCK_RADIUS + 3.0).rapid(z=3.0)
    return pen.home()


def program(pen, **changes):
    """Cuts as a whole program that begins and ends as it should."""
    last = pen.line + 1
    whole = Program(
        "axle.nc",
        tuple(f"block {n}" for n in range(1, last + 1)),
        tuple(pen.cuts),
        (*pen.changes, Change("spindle", "off", last, 1), Change("end", "M30", last, 1)),
        ended=True,
    )
    return replace(whole, **changes)


def judged(pen, goal, **options):
    return prove_turning(program(pen), goal, **options)


def found(report):
    """Codes and lines, notes left out."""
    return [(f.code, f.line) for f in report.findings if f.grade != "note"]


def codes(report):
    return sorted({f.code for f in report.findings if f.grade != "note"})
