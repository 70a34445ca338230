"""Outlines by their closed forms, as dense points (n, 2), counter-clockwise, the first one not
repeated; and the drawings in the samples folder the same way, read with nothing but ezdxf."""

import math

import ezdxf
import numpy as np

FINE = 1e-4
"""The sagitta of all chords here, mm."""
INCH = 25.4


def arc_points(centre, radius, first, last, sagitta=FINE):
    """Points from the angle `first` to `last` (radians), both ends included."""
    count = math.ceil(max(2, abs(last - first) / (2 * math.acos(1 - min(0.5, sagitta / radius)))))
    angles = np.linspace(first, last, count + 1)
    return np.column_stack(
        (centre[0] + radius * np.cos(angles), centre[1] + radius * np.sin(angles))
    )


def disc(radius, centre=(0.0, 0.0)):
    return arc_points(centre, radius, 0, math.tau)[:-1]


def bulged(rows, sagitta=FINE):
    """Rows of x, y, bulge; bulge = tan(sweep / 4) of the piece that begins there (DXF reference,
    LWPOLYLINE): centre on the bisector of the chord c, c (1 - b^2) / (4 b) to its left."""
    pieces = []
    for (x0, y0, b), (x1, y1, _) in zip(rows, [*rows[1:], rows[0]], strict=True):
        if b == 0:
            pieces.append(np.array([(x0, y0)]))
            continue
        off = (1 - b * b) / (4 * b)
        cx, cy = (x0 + x1) / 2 - (y1 - y0) * off, (y0 + y1) / 2 + (x1 - x0) * off
        first = math.atan2(y0 - cy, x0 - cx)
        last = first + 4 * math.atan(b)
        pieces.append(arc_points((cx, cy), math.hypot(x0 - cx, y0 - cy), first, last, sagitta)[:-1])
    return np.concatenate(pieces)


def belt(left, big, right, small):
    """Two discs on a line along X and their outer tangents: (x, radius) each. The tangents touch
    both at the angle acos((R - r) / d) off the line."""
    lean = math.acos((big - small) / (right - left))
    return np.concatenate(
        (
            arc_points((left, 0), big, lean, math.tau - lean),
            arc_points((right, 0), small, -lean, lean),
        )
    )


def ellipse(a, b, turn=0.0, count=1200):
    """Half axes a and b, turned by radians."""
    t = np.arange(count) * (math.tau / count)
    x, y, c, s = a * np.cos(t), b * np.sin(t), math.cos(turn), math.sin(turn)
    return np.column_stack((c * x - s * y, s * x + c * y))


def uniform_spline(control, per_span=150):
    """A closed uniform cubic B-spline: each span from four control points by the basis
    ((1-t)^3, 3t^3-6t^2+4, -3t^3+3t^2+3t+1, t^3) / 6 (any textbook)."""
    control = np.asarray(control, dtype=float)
    t = (np.arange(per_span) / per_span)[:, None]
    basis = [(1 - t) ** 3, 3 * t**3 - 6 * t**2 + 4, -3 * t**3 + 3 * t**2 + 3 * t + 1, t**3]
    return np.concatenate(
        [
            sum(b * control[(k + j) % len(control)] for j, b in enumerate(basis)) / 6
            for k in range(len(control))
        ]
    )


def b_spline(knots, control, degree, count=2000):
    """Points of any B-spline over its whole domain, by the recursion of Cox and de Boor."""
    knots, control = np.asarray(knots, dtype=float), np.asarray(control, dtype=float)
    u = np.linspace(knots[degree], knots[len(control)], count)
    span = np.clip(np.searchsorted(knots, u, side="right") - 1, degree, len(control) - 1)
    d = [control[span - degree + j] for j in range(degree + 1)]
    for r in range(1, degree + 1):
        for j in range(degree, r - 1, -1):
            low, high = knots[span - degree + j], knots[span + 1 + j - r]
            share = ((u - low) / (high - low))[:, None]
            d[j] = (1 - share) * d[j - 1] + share * d[j]
    return d[degree]


def mapped(points, *, scale=(1.0, 1.0), turn=0.0, shift=(0.0, 0.0)):
    """Scaled along the axes, turned counter-clockwise by degrees, shifted (in this order, as a
    block reference does it); counter-clockwise again if it was mirrored."""
    c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    out = np.asarray(points) * scale @ np.array([[c, s], [-s, c]]) + shift
    return out if scale[0] * scale[1] > 0 else out[::-1]


def centred(points):
    """With the middle of its box at the origin."""
    return points - (points.min(axis=0) + points.max(axis=0)) / 2


# --- the samples -----------------------------------------------------------------------------


def sample_outline(path):
    """The largest loop of a sample's drawing, in mm."""
    document = ezdxf.readfile(path)
    unit = {1: INCH, 4: 1.0}[document.header["$INSUNITS"]]
    fine = FINE / unit
    runs = [_run(entity, fine) for entity in document.modelspace() if entity.dxf.layer == "PROFILE"]
    return max(_loops(runs), key=lambda loop: np.ptp(loop[:, 0])) * unit


def _run(entity, fine):
    """Points from one end of an entity to the other, in the drawing's units."""
    kind, dxf = entity.dxftype(), entity.dxf
    if kind == "LINE":
        return np.array([dxf.start.vec2, dxf.end.vec2])
    if kind == "LWPOLYLINE":
        loop = bulged([tuple(row) for row in entity.get_points("xyb")], fine)
        return np.concatenate((loop, loop[:1]))
    if kind == "SPLINE":
        return b_spline(entity.knots, np.array(entity.control_points)[:, :2], dxf.degree)
    if kind == "CIRCLE":
        return arc_points(dxf.center, dxf.radius, 0, math.tau, fine)
    first, last = math.radians(dxf.start_angle), math.radians(dxf.end_angle)
    return arc_points(dxf.center, dxf.radius, first, last + math.tau * (last <= first), fine)


def _loops(runs):
    """Runs chained at ends that agree to 1e-6, counter-clockwise."""
    runs = list(runs)
    while runs:
        loop = runs.pop(0)
        while math.dist(loop[0], loop[-1]) > 1e-6:
            near = [
                (k, way)
                for k, run in enumerate(runs)
                for way, end in ((1, run[0]), (-1, run[-1]))
                if math.dist(end, loop[-1]) < 1e-6
            ]
            (k, way), *_ = near
            loop = np.concatenate((loop, runs.pop(k)[::way][1:]))
        x, y = loop[:-1].T
        area = np.sum(x * np.roll(y, -1) - np.roll(x, -1) * y)
        yield loop[:-1] if area > 0 else loop[:-1][::-1]
