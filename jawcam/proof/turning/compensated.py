"""Nose radius compensation left to the control: where its tool goes.

While it is on the text holds the profile itself, and the control leads the nose circle along it, a
radius off to the left or the right of the way: round outside corners, and up to where the paths
beside an inside corner cross. The first move with it on leads the nose to its place beside the
next one's start, the first with it off leads it back (NISTIR 6556, appendix B, for a radius that
is not given by the diameter of a mill).
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from jawcam.proof.turning.form import Form
from jawcam.proof.turning.path import Move, Point

__all__ = ["compensated"]

_NEAR = 1e-9


def compensated(moves: Sequence[Move], form: Form) -> tuple[list[Move], list[Move]]:
    """The moves of one tool as its set point really goes, and those whose inside arc is too tight
    for the nose."""
    radius, (nz, nx) = (form.discs[0][2] if form.discs else 0.0), form.nose
    done: list[Move] = []
    tight: list[Move] = []
    at: Point | None = None  # where the nose has been led to
    k = 0
    while k < len(moves):
        if moves[k].cut.side == "off":
            done.append(moves[k] if at is None else moves[k]._replace(start=at))
            at, k = None, k + 1
            continue
        end = k + 1
        while end < len(moves) and moves[end].cut.side == moves[k].cut.side:
            end += 1
        run = [m for m in moves[k + 1 : end] if m.length > _NEAR]
        side = 1.0 if moves[k].cut.side == "left" else -1.0
        beside = [_beside(m, side * radius) for m in run]
        tight += [m for m in run if m.kind == "arc" and _inner(m, side * radius) <= 0]
        led = _joined(run, beside, side * radius)
        shifted = [_shifted(m, -nz, -nx) for m in led]
        start = moves[k].start if at is None else at
        target = shifted[0].start if shifted else moves[k].end
        done.append(moves[k]._replace(start=start, end=target, kind=_straight(moves[k]), turn=0.0))
        done += shifted
        at, k = (shifted[-1].end if shifted else None), end
    return done, tight


def _straight(move: Move) -> str:
    return "line" if move.kind == "arc" else move.kind


def _way(move: Move, *, last: bool) -> Point:
    """The direction in which a move starts or ends."""
    if move.kind != "arc":
        length = math.dist(move.start, move.end)
        return (move.end[0] - move.start[0]) / length, (move.end[1] - move.start[1]) / length
    z, x = move.end if last else move.start
    dz, dx = z - move.centre[0], x - move.centre[1]
    size, sign = math.hypot(dz, dx), math.copysign(1.0, move.turn)
    return -sign * dx / size, sign * dz / size


def _off(point: Point, way: Point, by: float) -> Point:
    """A point to the left of a way, to its right if `by` is negative."""
    return point[0] - way[1] * by, point[1] + way[0] * by


def _inner(move: Move, by: float) -> float:
    return move.radius - by * math.copysign(1.0, move.turn)


def _beside(move: Move, by: float) -> Move:
    """A move on its own, led `by` to the left."""
    start = _off(move.start, _way(move, last=False), by)
    end = _off(move.end, _way(move, last=True), by)
    return move._replace(start=start, end=end)


def _joined(run: Sequence[Move], beside: Sequence[Move], by: float) -> list[Move]:
    """The led moves, their ends joined round outside corners and cut short at inside ones."""
    led: list[Move] = list(beside[:1])
    for k in range(1, len(run)):
        before, after = _way(run[k - 1], last=True), _way(run[k], last=False)
        cross = before[0] * after[1] - before[1] * after[0]
        dot = before[0] * after[0] + before[1] * after[1]
        turn = math.atan2(cross, dot)
        follows = beside[k]
        if abs(turn) > 1e-6 and turn * by < 0:
            led.append(
                run[k]._replace(
                    kind="arc",
                    start=led[-1].end,
                    end=follows.start,
                    centre=run[k].start,
                    turn=turn,
                )
            )
        elif abs(turn) > 1e-6:
            meet = _meeting(led[-1], follows)
            if meet is not None:
                led[-1], follows = _ended(led[-1], meet), _begun(follows, meet)
        led.append(follows)
    return led


def _ended(move: Move, at: Point) -> Move:
    return move._replace(end=at, turn=_turn(move, move.start, at))


def _begun(move: Move, at: Point) -> Move:
    return move._replace(start=at, turn=_turn(move, at, move.end))


def _turn(move: Move, start: Point, end: Point) -> float:
    """How far an arc turns between two points of its circle, in its own sense."""
    if move.kind != "arc":
        return 0.0
    (z, x), sign = move.centre, math.copysign(1.0, move.turn)
    a, b = (math.atan2(p[1] - x, p[0] - z) for p in (start, end))
    return sign * ((sign * (b - a)) % math.tau)


def _meeting(one: Move, other: Move) -> Point | None:
    """Where two led moves or what they lie on cross, nearest to their ends."""
    points = _crossings(one, other)
    near = ((one.end[0] + other.start[0]) / 2, (one.end[1] + other.start[1]) / 2)
    return min(points, key=lambda p: math.dist(p, near), default=None)


def _crossings(one: Move, other: Move) -> list[Point]:
    if one.kind != "arc" and other.kind != "arc":
        return _line_line(one, other)
    if one.kind == "arc" and other.kind == "arc":
        return _circle_circle(one, other)
    arc, line = (one, other) if one.kind == "arc" else (other, one)
    way, (cz, cx) = _way(line, last=False), arc.centre
    dz, dx = cz - line.start[0], cx - line.start[1]
    foot, off = dz * way[0] + dx * way[1], dx * way[0] - dz * way[1]
    square = arc.radius**2 - off**2
    if square < 0:
        return []
    return [
        (line.start[0] + s * way[0], line.start[1] + s * way[1])
        for s in (foot - math.sqrt(square), foot + math.sqrt(square))
    ]


def _line_line(one: Move, other: Move) -> list[Point]:
    a, b = _way(one, last=False), _way(other, last=False)
    cross = a[0] * b[1] - a[1] * b[0]
    dz, dx = other.start[0] - one.start[0], other.start[1] - one.start[1]
    s = (dz * b[1] - dx * b[0]) / cross
    return [(one.start[0] + s * a[0], one.start[1] + s * a[1])]


def _circle_circle(one: Move, other: Move) -> list[Point]:
    (az, ax), (bz, bx) = one.centre, other.centre
    apart = math.dist(one.centre, other.centre)
    if apart < _NEAR:
        return []
    along = (one.radius**2 - other.radius**2 + apart**2) / (2 * apart)
    square = one.radius**2 - along**2
    if square < 0:
        return []
    uz, ux, off = (bz - az) / apart, (bx - ax) / apart, math.sqrt(square)
    return [(az + along * uz - s * ux, ax + along * ux + s * uz) for s in (off, -off)]


def _shifted(move: Move, z: float, x: float) -> Move:
    def at(point: Point) -> Point:
        return point[0] + z, point[1] + x

    return move._replace(start=at(move.start), end=at(move.end), centre=at(move.centre))
