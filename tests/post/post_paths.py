"""Whether a program that was read back moves as it was planned: leg by leg, in order, each within
what the post can write. The plane geometry here is worked out anew."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from jawcam.motion.moves import (
    ArcFeed,
    Compensate,
    Drill,
    LineFeed,
    Rapid,
    Spindle,
    ToolChange,
    WorkOffset,
)


@dataclass(frozen=True)
class State:
    """What is in force: the tool, its direction and speed, the work offset, compensation."""

    tool: int = 0
    spindle: str = "off"
    rpm: float = 0.0
    offset: int = 1
    side: str = "off"
    register: int = 0


@dataclass(frozen=True)
class Leg:
    """One move as planned; start None: from a place not told. turn: signed, of an arc."""

    kind: str
    start: tuple | None
    end: tuple
    state: State
    feed: float = 0.0
    centre: tuple = ()
    turn: float = 0.0

    @property
    def whole_helix(self):
        return bool(self.turn) and self.start[:2] == self.end[:2] and self.start[2] != self.end[2]

    @property
    def length(self):
        if not self.turn:
            return math.dist(self.start, self.end)
        size = math.dist(self.start[:2], self.centre)
        return math.hypot(size * self.turn, self.end[2] - self.start[2])

    def off(self, point):
        """How far a point lies off this leg."""
        if not self.turn:
            return _off_line(self.start, self.end, point)
        away = [complex(p[0] - self.centre[0], p[1] - self.centre[1]) for p in (self.start, point)]
        size = abs(away[0])
        way = math.copysign(1.0, self.turn)
        angle = math.atan2(away[1].imag, away[1].real) - math.atan2(away[0].imag, away[0].real)
        share = (angle * way) % math.tau / abs(self.turn)
        ends = min(math.dist(point, self.start), math.dist(point, self.end))
        if share > 1:
            return ends
        z = self.start[2] + (self.end[2] - self.start[2]) * share
        return min(ends, math.hypot(abs(away[1]) - size, point[2] - z))


def _off_line(start, end, point):
    along = [b - a for a, b in zip(start, end, strict=True)]
    away = [b - a for a, b in zip(start, point, strict=True)]
    length = sum(a * a for a in along)
    share = sum(a * b for a, b in zip(along, away, strict=True)) / length if length else 0.0
    share = min(1.0, max(0.0, share))
    return math.dist(point, [a + share * b for a, b in zip(start, along, strict=True)])


def legs_of(motions):
    """The moves of motions, holes written out, each with what is in force."""
    here, state = None, State()
    for motion in motions:
        if isinstance(motion, ToolChange) or (
            isinstance(motion, WorkOffset) and motion.number != state.offset
        ):
            here = None
        state = _state_after(motion, state)
        for leg in _legs(motion, here, state):
            yield leg
            here = leg.end


def _state_after(motion, state):
    match motion:
        case ToolChange(number):
            return replace(state, tool=number, spindle="off")
        case WorkOffset(number):
            return replace(state, offset=number)
        case Spindle(rpm, clockwise):
            way = ("cw" if clockwise else "ccw") if rpm > 0 else "off"
            return replace(state, spindle=way, rpm=rpm or state.rpm)
        case Compensate(side, register):
            return replace(state, side=side, register=register if side != "off" else 0)
    return state


def _legs(motion, here, state):
    match motion:
        case Rapid(to):
            yield Leg("rapid", here, to, state)
        case LineFeed(to, feed):
            yield Leg("line", here, to, state, feed)
        case ArcFeed(to, centre, ccw, feed):
            yield Leg("arc", here, to, state, feed, centre, _turn(here, to, centre, ccw=ccw))
        case Drill():
            for kind, to in _hole(motion):
                yield Leg(kind, here, to, state, motion.feed if kind == "line" else 0.0)
                here = to


def _turn(start, end, centre, *, ccw):
    if start[:2] == end[:2]:
        return math.tau if ccw else -math.tau
    a, b = (math.atan2(p[1] - centre[1], p[0] - centre[0]) for p in (start, end))
    return (b - a) % math.tau if ccw else -((a - b) % math.tau)


def _hole(hole):
    """NISTIR 6556 section 3.5.16.1; a hole in one go."""
    x, y = hole.at
    yield "rapid", (x, y, hole.clear)
    yield "rapid", (x, y, hole.start)
    yield "line", (x, y, hole.bottom)
    yield "rapid", (x, y, hole.clear)


def length_of(cut):
    """The length of a cut that was read, mm."""
    rise = cut.end[2] - cut.start[2]
    if cut.kind == "arc":
        return math.hypot(math.dist(cut.start[:2], cut.centre) * cut.turn, rise)
    return math.dist(cut.start, cut.end)


def points_of(cut, count=8):
    """Points along a cut that was read, its start not among them."""
    for n in range(1, count + 1):
        share = n / count
        if cut.kind != "arc":
            yield tuple(a + (b - a) * share for a, b in zip(cut.start, cut.end, strict=True))
            continue
        away = complex(cut.start[0] - cut.centre[0], cut.start[1] - cut.centre[1])
        to = away * complex(math.cos(cut.turn * share), math.sin(cut.turn * share))
        z = cut.start[2] + (cut.end[2] - cut.start[2]) * share
        yield (cut.centre[0] + to.real, cut.centre[1] + to.imag, z)


def assert_same(program, motions, dialect, units):
    """Each leg of the motions in its order among the cuts of the program, and nothing besides but
    rises straight up, which the post itself writes; the farthest that any lies off its leg, mm."""
    worst = 0.0
    step = units.in_mm * 10.0 ** -dialect.numbers.decimals.of(units)
    cuts = list(program.cuts)
    here = None
    for leg in legs_of(motions):
        if leg.start is None:
            _drop_rises(cuts, leg)
        if here is not None and leg.start is not None and _cell(leg.end, step) == _cell(here, step):
            here = leg.end
            if not (leg.turn and leg.start[:2] == leg.end[:2]):
                continue
        part = []
        while not part or not _is_at(part[-1].end, leg.end, step):
            assert cuts, f"{leg} is not in the text"
            assert _matches(cuts[0], leg), f"{cuts[0]} is not of {leg}"
            part.append(cuts.pop(0))
        worst = max(worst, _judge(part, leg, dialect, units, step))
        here = leg.end
    assert all(_is_rise(cut) for cut in cuts), cuts
    return worst


def _cell(point, step):
    return tuple(round(value / step) for value in point)


def _is_at(point, end, step):
    return all(abs(a - b) <= 0.5001 * step + 1e-9 for a, b in zip(point, end, strict=True))


def _is_rise(cut):
    """Straight up; nan where the text hasn't told an axis, or at the machine's own zero."""
    level = all(a == b or math.isnan(a) for a, b in zip(cut.start[:2], cut.end[:2], strict=True))
    return cut.kind == "rapid" and level and not cut.end[2] < cut.start[2]


def _drop_rises(cuts, leg):
    """Before another tool or station the post may rise."""
    state = leg.state
    while cuts and (
        (cuts[0].tool, cuts[0].work_offset) != (state.tool, state.offset)
        or (cuts[0].spindle == "off" != state.spindle)  # the same tool once more
    ):
        assert _is_rise(cuts[0]), cuts[0]
        cuts.pop(0)


def _matches(cut, leg):
    """Whether what is in force at a cut is what was planned."""
    state = leg.state
    assert (cut.kind == "rapid") == (leg.kind == "rapid")
    assert (cut.tool, cut.length_offset, cut.work_offset) == (
        state.tool,
        state.tool,
        state.offset,
    ) or (cut.kind == "rapid" and leg.start is None)
    assert (cut.spindle, cut.side, cut.register) == (state.spindle, state.side, state.register)
    assert state.spindle == "off" or abs(cut.rpm - state.rpm) <= 0.5
    return True


def _judge(part, leg, dialect, units, step):
    if leg.start is None:
        return 0.0
    if leg.kind != "rapid":
        feed = units.in_mm * 10.0 ** -dialect.numbers.feed_decimals.of(units)
        assert all(abs(cut.feed - leg.feed) <= feed / 2 + 1e-9 for cut in part)
    arcs = dialect.arcs
    chord = (arcs.helix_chord if leg.whole_helix else arcs.chord).of(units) * units.in_mm
    worst = max(leg.off(point) for cut in part for point in points_of(cut))
    # The ends lie up to 0.71 steps off in plan and half a step in height; rounding promises no more
    # than a step and three quarters for an arc.
    assert worst <= 1.8 * step + chord, (worst / step, leg, part)
    total = sum(length_of(cut) for cut in part)
    slack = 2 * step * (len(part) + 1) + (2e-3 * leg.length if len(part) > 2 else 0.0)
    assert abs(total - leg.length) <= slack + 2e-6 * leg.length, (total, leg)
    return worst
