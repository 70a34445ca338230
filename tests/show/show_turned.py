"""Lathe programs and targets made by hand: parts of a hand-cranked coffee grinder."""

import math
from dataclasses import replace
from itertools import pairwise

from jawcam.hold.turn_target import Thread, TurnLeft, TurnTarget
from jawcam.proof.report import Finding
from jawcam.reader.cuts import Cut, Program
from jawcam.tools.turner import Insert, Turner
from jawcam.units import Units

NAN = math.nan
CNMG = Insert("CNMG 12 04 08", "C", 80.0, 0.0, 12.7, 0.8)
VNMG = Insert("VNMG 16 04 04", "V", 35.0, 0.0, 9.525, 0.4)
CCMT = Insert("CCMT 06 02 04", "C", 80.0, 7.0, 6.35, 0.4)
ROUGH = Turner(1, "turning", insert=CNMG, approach=95.0)
FINISH = Turner(2, "turning", insert=VNMG, approach=93.0)
GROOVE = Turner(3, "grooving", width=3.0, radius=0.2, reach=10.0)
THREAD = Turner(4, "threading", pitch_angle=60.0)
PART = Turner(5, "parting", width=3.0, radius=0.2, reach=25.0)
CENTRE = Turner(6, "centre drill", dia=4.0, point_angle=60.0)
DRILL = Turner(7, "drill", dia=16.0, point_angle=118.0)
BORE = Turner(8, "boring", insert=CCMT, approach=95.0, inside=True, least_bore=14.0, shank=10.0)
FACE_BACK = Turner(9, "turning", hand="left", insert=VNMG, approach=93.0)
TOOLS = (ROUGH, FINISH, GROOVE, THREAD, PART, CENTRE, DRILL, BORE, FACE_BACK)
CHANGE_Z, CHANGE_X = 60.0, 50.0


def box(z0, z1, x0, x1):
    return ((z0, x0, 0.0), (z1, x0, 0.0), (z1, x1, 0.0), (z0, x1, 0.0))


class Pen:
    """Writes cuts one after the other, each from where the last one ended; points (z, x), x a
    radius."""

    def __init__(self):
        self.cuts, self.at, self.tool, self.state, self.side = [], (NAN, NAN), 0, {}, "off"

    def call(self, tool, feed=0.2, **state):
        if self.cuts:
            self.rapid(CHANGE_Z, CHANGE_X)
        self.tool, self.at = tool, (NAN, NAN)
        self.state = {"feed": feed, "rpm": 1200.0, "surface": 180.0, "clamp": 2500.0, **state}
        return self.rapid(CHANGE_Z, CHANGE_X)

    def _cut(self, kind, end, centre=None, turn=0.0, lead=0.0):
        end = tuple(old if new is None else new for old, new in zip(self.at, end, strict=True))
        (z0, x0), (z1, x1) = self.at, end
        cut = Cut(
            kind,
            (x0, 0.0, z0),
            (x1, 0.0, z1),
            centre,
            turn,
            "XZ",
            0.0 if kind == "rapid" else self.state["feed"],
            self.state["rpm"],
            "cw",
            self.tool,
            self.tool,
            1,
            self.side,
            0,
            len(self.cuts) + 8,
            1,
            per_turn=self.state.get("per_turn", True),
            surface=0.0 if lead else self.state["surface"],
            clamp=self.state["clamp"],
            lead=lead,
        )
        self.cuts.append(cut)
        self.at = end
        return self

    def rapid(self, z=None, x=None):
        return self._cut("rapid", (z, x))

    def feed(self, z=None, x=None):
        return self._cut("line", (z, x))

    def thread(self, z, x, lead):
        return self._cut("line", (z, x), lead=lead)

    def arc(self, z, x, centre, *, ccw):
        first, last = (math.atan2(p[1] - centre[1], p[0] - centre[0]) for p in (self.at, (z, x)))
        turn = (last - first) % math.tau
        return self._cut("arc", (z, x), centre, turn if ccw else turn - math.tau)


def program(pen, name="spindle.nc", units="mm"):
    pen.rapid(CHANGE_Z, CHANGE_X)
    lines = tuple(f"N{i}" for i in range(len(pen.cuts) + 9))
    return Program(name, lines, tuple(pen.cuts), units=units, ended=True)


def finished(outside, rear, bore=()):
    """The loop of a part: `outside` from the free end on, rows (z, x) or (z, x, bulge); `bore` from
    its bottom to the free end."""
    rows = [(*row, 0.0)[:3] for row in outside]
    inner = [(*row, 0.0)[:3] for row in bore] or [(rear, 0.0, 0.0), (0.0, 0.0, 0.0)]
    return (*inner, *rows, (rear, rows[-1][1], 0.0))


def rough(pen, outside, stock, end, depth=2.0):
    """Level passes down to the profile, 0.3 off it."""
    x = stock - depth
    lowest = min(row[1] for row in outside) + 0.3
    pen.rapid(2.0, stock + 2.0)
    while x > lowest:
        stop = next((row[0] for row in outside if row[1] + 0.3 > x), end) + 0.1
        pen.rapid(x=x).feed(z=max(stop, end)).feed(max(stop, end) + 1.0, x + 1.0).rapid(z=2.0)
        x -= depth
    pen.rapid(x=stock + 2.0)


def follow(pen, rows):
    """Along the profile, the nose left out of account."""
    (z, x, *_), *_ = rows
    pen.rapid(z + 2.0, x)
    for (z0, x0, *bulge), (z1, x1, *_) in pairwise(rows):
        pen.feed(z0, x0)
        if bulge and bulge[0]:
            b = bulge[0]
            away = (1 - b * b) / (4 * b)
            centre = ((z0 + z1) / 2 - (x1 - x0) * away, (x0 + x1) / 2 + (z1 - z0) * away)
            pen.arc(z1, x1, centre, ccw=b > 0)
    pen.feed(*rows[-1][:2]).feed(x=rows[-1][1] + 2.0)


def face(pen, stock):
    pen.rapid(2.0, stock + 2.0).rapid(z=0.0).feed(x=-0.8).feed(z=2.0).rapid(x=stock + 2.0)


def passes(pen, thread, count=6):
    pen.rapid(thread.start + 2 * thread.pitch, thread.first + 2.0)
    for k in range(1, count + 1):
        x = thread.first - thread.depth * math.sqrt(k / count)
        pen.rapid(x=x).thread(thread.end - thread.pitch / 2, x, thread.pitch)
        pen.rapid(x=thread.first + 2.0).rapid(z=thread.start + 2 * thread.pitch)


ROUND = math.tan(math.pi / 8)
PIN = (
    (0.0, 8.5),
    (-1.5, 10.0),
    (-18.0, 10.0),
    (-19.5, 8.5),
    (-22.0, 8.5),
    (-22.0, 10.0, ROUND),
    (-23.0, 11.0),
    (-28.0, 11.0),
    (-28.0, 9.0),
    (-31.0, 9.0),
    (-31.0, 11.0),
    (-36.0, 11.0),
    (-48.0, 13.0),
    (-48.0, 14.0),
    (-49.0, 15.0),
    (-60.0, 15.0),
)
PIN_THREAD = Thread(0.0, -18.0, 10.0, 10.0, 1.534, 2.5, designation="M20x2.5 6g")


def pin_target(**changes):
    whole = TurnTarget(
        name="end-a",
        title="Spindle of the grinder, thread end",
        units=Units.MM,
        finished=finished(PIN, -95.0),
        stock=box(-95.0, 1.0, 0.0, 16.0),
        limit=-62.0,
        threads=(PIN_THREAD,),
        keep_off=(box(-105.0, -65.0, 16.0, 46.0), box(-265.0, -105.0, 0.0, 80.0)),
        tools=TOOLS,
        work_offset=1,
        clearance=2.0,
        clamp=2500.0,
        finished_to=-60.0,
        notes=(
            "the chuck holds 30 mm, the work stands 66 mm out of its jaws",
            "caution: more than 3 times its diameter without a tailstock: the work bends",
        ),
    )
    return replace(whole, **changes)


def pin_pen(*, compensate=False):
    pen = Pen().call(1, 0.25)
    face(pen, 16.0)
    rough(pen, PIN, 16.0, -60.0)
    pen.call(2, 0.1, surface=220.0)
    pen.side = "right" if compensate else "off"
    follow(pen, [row for row in PIN if row[:2] not in {(-28.0, 9.0), (-31.0, 9.0)}])
    pen.side = "off"
    pen.call(3, 0.08, surface=120.0)
    pen.rapid(-31.0, 18.0).feed(x=9.0).rapid(x=18.0)
    pen.rapid(-22.0, 18.0).rapid(x=12.0).feed(x=8.5).rapid(x=18.0)
    pen.call(4, 2.5, rpm=900.0, surface=0.0)
    passes(pen, PIN_THREAD)
    return pen


def pin_program():
    return program(pin_pen())


SHAFT = (
    (0.0, 5.5),
    (-0.5, 6.0),
    (-40.0, 6.0),
    (-40.0, 7.5),
    (-150.0, 7.5),
    (-150.0, 9.0),
    (-151.0, 10.0),
    (-230.0, 10.0),
)


def shaft_target(**changes):
    whole = pin_target(
        name="shaft",
        title="Crank shaft",
        finished=finished(SHAFT, -270.0),
        stock=box(-270.0, 0.5, 0.0, 11.0),
        limit=-232.0,
        finished_to=-230.0,
        threads=(),
        keep_off=(
            box(-280.0, -240.0, 11.0, 41.0),
            box(-440.0, -280.0, 0.0, 80.0),
            box(0.5, 100.5, 0.0, 10.0),
        ),
        notes=(),
    )
    return replace(whole, **changes)


def shaft_program():
    pen = Pen().call(1, 0.25)
    rough(pen, SHAFT, 11.0, -230.0, 1.5)
    pen.call(2, 0.1)
    follow(pen, SHAFT)
    return program(pen, "shaft.nc")


FLANGE = ((0.0, 24.0), (-1.0, 25.0), (-10.0, 25.0), (-10.0, 59.5), (-10.5, 60.0), (-18.0, 60.0))
FLANGE_BORE = ((-18.0, 10.0), (-8.0, 10.0), (-8.0, 16.0), (0.0, 16.0))


def flange_target(**changes):
    whole = pin_target(
        name="flange",
        title="Hopper flange",
        finished=finished(FLANGE, -18.0, FLANGE_BORE),
        stock=box(-32.0, 1.5, 0.0, 62.0),
        limit=-19.0,
        finished_to=-18.0,
        threads=(),
        keep_off=(box(-62.0, -22.0, 62.0, 92.0), box(-222.0, -62.0, 0.0, 92.0)),
        notes=(),
    )
    return replace(whole, **changes)


def flange_program():
    pen = Pen().call(1, 0.3)
    face(pen, 62.0)
    rough(pen, FLANGE, 62.0, -18.0, 3.0)
    pen.call(7, 0.15, surface=0.0, rpm=600.0)
    pen.rapid(3.0, 0.0).feed(z=-24.0).rapid(z=3.0)
    pen.call(8, 0.12)
    pen.rapid(2.0, 10.0).feed(z=-18.0).feed(x=9.0).rapid(z=2.0)
    for x in (12.0, 14.0, 16.0):
        pen.rapid(x=x).feed(z=-8.0).feed(x=x - 1.0).rapid(z=2.0)
    pen.call(2, 0.1)
    follow(pen, FLANGE)
    return program(pen, "flange.nc")


KNOB = (
    (0.0, 9.0),
    (-1.0, 10.0),
    (-14.0, 10.0),
    (-14.0, 16.0),
    (-20.0, 16.0),
    (-20.0, 13.0),
    (-24.0, 13.0),
    (-24.0, 18.0),
    (-40.0, 18.0),
)
KNOB_BORE = ((-30.0, 0.0), (-26.0, 8.0), (-12.0, 8.0), (-12.0, 8.4), (0.0, 8.4))


def knob_target(**changes):
    """Everything: a bore with a thread, parted off."""
    whole = pin_target(
        name="knob",
        title="Knob socket, all in one setup",
        finished=finished(KNOB, -40.0, ((-40.0, 0.0), *KNOB_BORE)),
        stock=box(-80.0, 1.0, 0.0, 20.0),
        limit=-44.0,
        finished_to=None,
        parted=-40.0,
        threads=(
            Thread(0.0, -12.0, 10.0, 10.0, 0.92, 1.5, designation="M20x1.5"),
            Thread(0.0, -12.0, 8.4, 8.4, 0.6, 1.0, inside=True, designation="M18x1"),
        ),
        keep_off=(box(-90.0, -48.0, 20.0, 50.0), box(-250.0, -90.0, 0.0, 80.0)),
        left=(TurnLeft(-20.4, 15.0, 1.4, "the insert's trailing edge doesn't reach it"),),
        notes=(),
    )
    return replace(whole, **changes)


def knob_program():
    pen = Pen().call(1, 0.25)
    face(pen, 20.0)
    rough(pen, KNOB, 20.0, -43.0)
    pen.call(6, 0.05, surface=0.0, rpm=2000.0)
    pen.rapid(3.0, 0.0).feed(z=-4.0).rapid(z=3.0)
    pen.call(7, 0.15, surface=0.0, rpm=900.0)
    pen.rapid(3.0, 0.0).feed(z=-30.0).rapid(z=3.0)
    pen.call(8, 0.1)
    pen.rapid(2.0, 8.4).feed(z=-12.0).feed(x=7.6).rapid(z=2.0)
    pen.call(2, 0.1)
    follow(pen, KNOB)
    pen.call(9, 0.1)
    pen.rapid(-40.0, 22.0).feed(x=18.0).feed(z=-24.0).rapid(x=22.0)
    pen.call(3, 0.08, surface=120.0)
    pen.rapid(-23.0, 22.0).feed(x=13.0).rapid(x=22.0)
    pen.rapid(-24.0).feed(x=13.0).feed(z=-23.0).rapid(x=22.0)
    pen.call(4, 1.5, rpm=900.0, surface=0.0)
    passes(pen, Thread(0.0, -12.0, 10.0, 10.0, 0.92, 1.5))
    pen.call(5, 0.05, surface=90.0)
    pen.rapid(-43.0, 22.0).feed(x=-0.2).rapid(x=22.0)
    return program(pen, "knob.nc")


def findings(count, places=((-20.0, 22.0), (-48.0, 30.0), (-28.0, 18.0), (-5.0, 20.0))):
    """Their x are diameters."""
    return tuple(
        Finding(
            f"T{201 + i}",
            ("stop", "warn", "note")[i % 3],
            "the tool reaches farther into what must stay than the limit allows " * (1 + i % 2),
            line=10 + 7 * i,
            x=places[i % len(places)][1] if i % 5 != 4 else None,
            y=0.0 if i % 5 != 4 else None,
            z=places[i % len(places)][0] if i % 5 != 4 else None,
        )
        for i in range(count)
    )
