"""The shape of a lathe tool's cutting part, worked out from its own numbers.

All relative to the set point, with Z to the right and X, a radius, upwards. An indexable insert is
the nose circle and the wedge of its two edges, as far as the edges are long (ISO 1832: shape
letter, angle, inscribed circle or edge, nose radius). The main edge of a right-hand outside tool
leans by the approach angle from the feed direction, so it runs up at 180 - approach degrees
counter-clockwise from +Z, the trailing edge at that less the angle of the insert.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from jawcam.proof.curve import Floats, steps
from jawcam.proof.turning.path import Point
from jawcam.tools.turner import Insert, Turner

__all__ = ["NOSE_CHORD", "Disc", "Form", "edge_length", "flipped", "form_of", "wedge"]

NOSE_CHORD = 1e-5
"""mm that the chords of a nose lie inside it at most."""

V_HEIGHT = 3.0
"""mm; how high the V of a threading insert is taken to be at least, and 1.5 times the deepest
thread; in a bore no higher than it stands out of its bar (common practice, no source)."""

BLADE = 20.0
"""mm; how deep a grooving blade is taken to reach when nobody tells."""

DRILL_LENGTH = 200.0
"""mm; how long a drill is taken to be when nobody tells."""

REGULAR = {"T": 3, "S": 4, "P": 5, "H": 6, "O": 8}
"""Corners of the equilateral shapes with equal angles, by their letter (ISO 1832)."""

TRIGON = 0.6845
"""Edge of a trigon (W) over its inscribed circle: 8.69 mm for 12.70 (ISO 1832 size 08)."""

BY_EDGE = "ABKL"
"""Shapes whose size is that of their edge (ISO 1832)."""

Disc = tuple[float, float, float]
"""A round of the edge: Z, X and radius."""


@dataclass(frozen=True)
class Form:
    """The cutting part of a tool, convex.

    outline: its corners, counter-clockwise; discs: the rounds of its edge; core: the corners of
    what it is without the rest of the discs; main, trail: the ends of an insert's two edges, else
    of its cutting part; nose: from the set point to the middle of the nose circle.
    """

    outline: Floats
    discs: tuple[Disc, ...]
    core: Floats
    main: Point
    trail: Point
    nose: Point = (0.0, 0.0)


def form_of(tool: Turner, deepest: float = 0.0) -> Form | None:
    """The cutting part of a tool, None if its numbers don't tell one. deepest: of the threads, on
    radius, mm."""
    if tool.kind in ("drill", "centre drill"):
        return _drill(tool)
    if tool.kind in ("turning", "boring"):
        form = _insert(tool)
    elif tool.kind == "threading":
        form = _vee(tool, _height(tool, deepest))
    else:
        form = _blade(tool)
    return flipped(form, x=True) if form and tool.inside else form


def edge_length(insert: Insert) -> float:
    """How long an insert's edge is, mm, up to its sharp corners (ISO 1832 shapes; of a rhombus
    with the inscribed circle d and the angle e: d / sin e; of n equal sides: d tan(180 / n))."""
    if insert.shape in REGULAR:
        return insert.size * math.tan(math.pi / REGULAR[insert.shape])
    if insert.shape == "W":
        return insert.size * TRIGON
    if insert.shape in BY_EDGE:
        return insert.size
    return insert.size / math.sin(math.radians(insert.angle))


def wedge(tool: Turner) -> tuple[float, float]:
    """The directions of the main and of the trailing edge of a right-hand outside tool, radians
    counter-clockwise from +Z."""
    assert tool.insert is not None
    main = math.pi - math.radians(tool.approach)
    return main, main - math.radians(tool.insert.angle)


def flipped(form: Form, *, z: bool = False, x: bool = False) -> Form:
    """A form in the mirror: of Z for a left-hand tool, of X for one that works in a bore."""
    sign_z, sign_x = (-1.0 if z else 1.0), (-1.0 if x else 1.0)
    back = -1 if z != x else 1

    def point(at: Point) -> Point:
        return sign_z * at[0], sign_x * at[1]

    sign = np.array([sign_z, sign_x])
    return Form(
        (form.outline * sign)[::back],
        tuple((sign_z * a, sign_x * b, r) for a, b, r in form.discs),
        (form.core * sign)[::back],
        point(form.main),
        point(form.trail),
        point(form.nose),
    )


def _insert(tool: Turner) -> Form | None:
    insert = tool.insert
    if insert is None:
        return None
    if insert.shape == "R":
        form = _round(max(insert.radius, insert.size / 2))
    else:
        pointed = _pointed(insert, *wedge(tool))
        if pointed is None:
            return None
        form = pointed
    r = form.discs[0][2]
    # from the nose's centre to the set point: the corner of the nose's box, or below its middle
    aside = 0.0 if tool.hand == "neutral" else r
    moved = _moved(form, aside, r)
    return flipped(moved, z=True) if tool.hand == "left" else moved


def _pointed(insert: Insert, main: float, trail: float) -> Form | None:
    """Nose circle about the origin and wedge."""
    r, half, length = insert.radius, math.radians(insert.angle) / 2, edge_length(insert)
    if not 0 < half < math.pi / 2 or length * math.tan(half) <= r or trail < 0 or main > math.pi:
        return None
    middle = (main + trail) / 2
    corner = np.array([math.cos(middle), math.sin(middle)]) * (-r / math.sin(half))
    ends = [corner + length * np.array([math.cos(a), math.sin(a)]) for a in (main, trail)]
    nose = _round_points((0.0, 0.0), r, main + math.pi / 2, math.pi - 2 * half)
    outline = np.vstack((nose, ends[1], ends[0]))
    core = np.vstack(((nose[0], nose[-1]) if r else nose[:1], ends[1], ends[0]))
    (main_end, trail_end) = ((float(e[0]), float(e[1])) for e in ends)
    return Form(outline, ((0.0, 0.0, r),), core, main_end, trail_end)


def _round(r: float) -> Form:
    """A round insert about the origin: its lower half, and as wide upwards as the insert."""
    lower = _round_points((0.0, 0.0), r, math.pi, math.pi)
    core = np.array([(-r, 0.0), (r, 0.0), (r, r), (-r, r)])
    outline = np.vstack((lower, core[2:]))
    return Form(outline, ((0.0, 0.0, r),), core, (-r, r), (r, r))


def _blade(tool: Turner) -> Form | None:
    w, r = tool.width, tool.radius
    if not w or w < 2 * r:
        return None
    top = _depth(tool)
    left = _round_points((r, r), r, math.pi, math.pi / 2)
    right = _round_points((w - r, r), r, 1.5 * math.pi, math.pi / 2)
    upper = [(w, top), (0.0, top)]
    outline = np.vstack((left, right, upper))
    core = np.vstack((left[[0, -1]], right[[0, -1]], upper)) if r else outline
    discs = ((r, r, r), (w - r, r, r)) if r else ()
    return Form(outline, discs, core, (0.0, top), (w, top), (r, r))


def _depth(tool: Turner) -> float:
    return tool.reach or tool.overhang or BLADE


def _height(tool: Turner, deepest: float) -> float:
    """How high the V of a threading insert is: no higher than it stands out of a bar that runs in
    the middle of the least bore that it goes into."""
    height = max(V_HEIGHT, 1.5 * deepest)
    out = (tool.least_bore - tool.shank) / 2 if tool.inside and tool.least_bore else height
    return min(height, out) if out > 0 else height


def _vee(tool: Turner, height: float) -> Form:
    wide = height * math.tan(math.radians(tool.pitch_angle) / 2)
    outline = np.array([(0.0, 0.0), (wide, height), (-wide, height)])
    return Form(outline, (), outline, (-wide, height), (wide, height))


def _drill(tool: Turner) -> Form | None:
    if not tool.dia:
        return None
    r, length = tool.dia / 2, tool.reach or tool.overhang or DRILL_LENGTH
    point = r / math.tan(math.radians(tool.point_angle) / 2)
    length = max(length, point + r)
    corners: Sequence[Point] = [(0.0, 0.0), (point, -r), (length, -r), (length, r), (point, r)]
    outline = np.array(corners)
    return Form(outline, (), outline, (length, r), (length, -r))


def _moved(form: Form, z: float, x: float) -> Form:
    shift = np.array([z, x])
    return Form(
        form.outline + shift,
        tuple((a + z, b + x, r) for a, b, r in form.discs),
        form.core + shift,
        (form.main[0] + z, form.main[1] + x),
        (form.trail[0] + z, form.trail[1] + x),
        (z, x),
    )


def _round_points(centre: Point, r: float, angle: float, turn: float) -> Floats:
    """Points (n, 2) on an arc, counter-clockwise; the centre itself if it has no radius."""
    if r <= 0:
        return np.array([centre])
    angles = angle + turn * np.linspace(0.0, 1.0, steps(r, turn, NOSE_CHORD) + 1)
    return np.array(centre) + r * np.column_stack((np.cos(angles), np.sin(angles)))
