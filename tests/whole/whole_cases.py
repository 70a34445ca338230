"""The drawings of `test_whole_drawings`: how each is drawn, and its outline by closed form."""

import itertools
import math
import random

import numpy as np
from whole_jobs import INCH, disc_drawing, drawing, rounded_drawing, rounded_points
from whole_outlines import (
    belt,
    bulged,
    centred,
    disc,
    ellipse,
    mapped,
    sample_outline,
    uniform_spline,
)

GAP = 0.002
"""mm; what the loose pieces are apart from each other."""


def loose_belt():
    """Two discs of 12 and 7 mm radius, 32 mm apart, and their tangents: lines and arcs in pieces,
    in any order and direction, each `GAP` short of the next."""
    chance = random.Random(20)  # noqa: S311 (a drawing, no secret)
    lean = math.acos(5 / 32)
    document, space = drawing()
    rows = []
    for x, radius, first, last in ((-16, 12, lean, math.tau - lean), (16, 7, -lean, lean)):
        cuts = np.linspace(first, last, 4)
        half = GAP / 2 / radius
        for a, b in zip(cuts[:-1] + half, cuts[1:] - half, strict=True):
            rows.append(("arc", x, radius, math.degrees(a), math.degrees(b)))
    c, s = math.cos(lean), math.sin(lean)
    for side in (1, -1):
        ends = np.array([(-16 + 12 * c, 12 * s * side), (16 + 7 * c, 7 * s * side)])
        way = (ends[1] - ends[0]) / math.dist(*ends) * GAP / 2
        middle = ends.mean(axis=0)
        rows.append(("line", ends[0] + way, middle - way))
        rows.append(("line", middle + way, ends[1] - way))
    chance.shuffle(rows)
    for kind, *row in rows:
        if kind == "line":
            space.add_line(*(row if chance.random() < 0.5 else row[::-1]))
        elif chance.random() < 0.5:
            x, radius, first, last = row
            space.add_arc((x, 0), radius, first, last)
        else:  # seen from below, X the other way: it runs clockwise
            x, radius, first, last = row
            space.add_arc(
                (-x, 0), radius, 180 - last, 180 - first, dxfattribs={"extrusion": (0, 0, -1)}
            )
    return document


def inch_disc():
    document, space = drawing(INCH)
    space.add_circle((0, 0), 0.75)
    return document


CAM = [(18, 0), (13, 11), (0, 14), (-12, 12), (-16, 1), (-12, -10), (1, -13), (13, -10)]


def cam_drawing():
    document, space = drawing()
    space.add_spline().set_closed([(x, y, 0) for x, y in CAM], degree=3)
    return document


def ellipse_drawing():
    document, space = drawing()
    turn = math.radians(20)
    axis = (21 * math.cos(turn), 21 * math.sin(turn))
    space.add_ellipse((0, 0), major_axis=axis, ratio=2 / 3)
    return document


PAW = [(10, -8, 0), (10, 0, 0.3), (4, 8, 0), (-6, 8, math.sqrt(2) - 1), (-10, 4, 0), (-10, -8, 0)]
"""Rounded on one side only, so that its mirror image is another shape."""


def block_drawing():
    """A block, mirrored, half as large again and turned."""
    document, space = drawing()
    block = document.blocks.new("PAW", base_point=(2, 1))
    block.add_lwpolyline(PAW, format="xyb", close=True)
    space.add_blockref("PAW", (3, -2), dxfattribs={"xscale": -1.5, "yscale": 1.5, "rotation": 35})
    return document


def paw():
    moved = bulged(PAW) - (2, 1)
    return mapped(moved, scale=(-1.5, 1.5), turn=35, shift=(3, -2))


HEXAGON = [(19 * math.cos(math.pi * k / 3), 19 * math.sin(math.pi * k / 3)) for k in range(6)]


def hexagon_drawing():
    document, space = drawing()
    space.add_lwpolyline(HEXAGON, close=True)
    return document


def hexagon():
    corners = np.array([*HEXAGON, HEXAGON[0]])
    return np.concatenate(
        [np.linspace(a, b, 40, endpoint=False) for a, b in itertools.pairwise(corners)]
    )


DRAWN = {
    "rounded rectangle": (rounded_drawing, lambda: bulged(rounded_points(20, 13, 6))),
    "loose belt": (loose_belt, lambda: belt(-16, 12, 16, 7)),
    "disc in inches": (inch_disc, lambda: disc(0.75 * 25.4)),
    "spline cam": (cam_drawing, lambda: uniform_spline(CAM)),
    "ellipse": (ellipse_drawing, lambda: ellipse(21, 14, math.radians(20))),
    "mirrored block": (block_drawing, paw),
    "washer": (lambda: disc_drawing(16, hole=6), lambda: disc(16)),
    "hexagon": (hexagon_drawing, hexagon),
}
"""Name -> how to draw it, and its outline."""

SAMPLED = {
    ("crank-lever", "side-one"): (1.0, 1.0),
    ("crank-lever-both-sides", "side-two"): (-1.0, 1.0),
    ("burr-cam", "cam-jaws"): (1.0, 1.0),
    ("hopper-flange", "flange-jaws"): (1.0, 1.0),
}
"""Each sample job's setups, and whether the part lies in them mirrored about Y."""


def sampled_outline(folder, name, setup):
    """A sample's outline in the jaws: its box in the middle, turned over if the job says so."""
    outline = centred(sample_outline(folder / f"{name.removesuffix('-both-sides')}.dxf"))
    return mapped(outline, scale=SAMPLED[name, setup])
