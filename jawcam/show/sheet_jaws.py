"""The drawings of a mill's setup sheet: the jaws from above and cut through, true to scale."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from functools import partial
from typing import Any, NamedTuple

import shapely
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from shapely.geometry.base import BaseGeometry

from jawcam.errors import InternalError
from jawcam.show.cutaway import body_cut, pocket_cut, section_at
from jawcam.show.jaws import draw_jaws
from jawcam.show.lettering import width
from jawcam.show.page import Box, Pads
from jawcam.show.picture import Picture
from jawcam.show.plan import draw_origin, draw_section_marks
from jawcam.show.scene import Scene
from jawcam.show.shapes import datum, fill
from jawcam.show.sheet_dims import APART, across, heights, upright
from jawcam.show.sheet_given import number
from jawcam.show.sheet_page import COLUMN, FRAME, TEXT
from jawcam.show.sheet_scale import (
    TITLED,
    Views,
    draw_title,
    is_small,
    scales,
    true_view,
)
from jawcam.show.side import draw_cut_jaws
from jawcam.show.style import NARROW, PART, PART_LINE

__all__ = ["jaw_views"]

PLAN = Pads(left=5, bottom=13, right=5, top=9)
"""mm of paper around the jaws from above: the width under them, the ends of the section."""

LANE = 10.5
"""mm of paper from the jaws to their width; the section's end lies between."""

SECTION = Pads(left=13, bottom=13, right=8, top=4)
"""Around the section: the height at its left, lengths beneath; at its right the heights, whose
words come on top of that."""

UNDER = 3.0
"""mm of paper that the words of heights may stand under the jaws."""

BEYOND = 1e6
"""More than anything is large."""

HIGHEST = 122.0
"""mm that the plan takes at most."""


class _Drawn(NamedTuple):
    """What both views show, in the job's units: the X at which the jaws are cut, the contents of
    plan and section, the heights told at the right of that."""

    shown: Picture
    scene: Scene
    section: float
    plan: Box
    cut: Box
    named: Sequence[tuple[float, float, str]]


def jaw_views(shown: Picture) -> list[Views]:
    """The arrangements to choose from, the one with the largest plan first: the section stands
    under the plan, in the left column; where the plan is no wider than that, the right one is free
    beside both."""
    scene, section = shown.scene, section_at(shown)
    if scene is None or section is None:
        raise InternalError("there are no jaws to draw")
    plan, cut = _plan_content(scene), _section_content(scene)
    drawn = _Drawn(shown, scene, section, plan, cut, _heights(shown, scene, section))
    pads = _section_pads(drawn)
    in_column = scales(_size(shown, cut), _room(COLUMN, HIGHEST, pads))[0]
    return [
        _arranged(drawn, pads, scale, min(scale, in_column))
        for scale in scales(_size(shown, plan), _room(FRAME.w, HIGHEST, PLAN))
    ]


def _arranged(drawn: _Drawn, pads: Pads, scale: float, beneath: float) -> Views:
    per = drawn.shown.units.in_mm
    wide = drawn.plan.w * scale * per + PLAN.left + PLAN.right
    high = drawn.plan.h * scale * per + PLAN.bottom + PLAN.top + TITLED
    tall = drawn.cut.h * beneath * per
    pads = pads._replace(top=max(pads.top, len(drawn.named) * APART - UNDER - tall))
    low = tall + pads.bottom + pads.top + TITLED
    beside = wide <= COLUMN
    boxes = Box(0, low, COLUMN if beside else FRAME.w, high), Box(0, 0, COLUMN, low)
    draw = partial(_draw, drawn=drawn, pads=pads, boxes=boxes, at=(scale, beneath))
    small = is_small(_size(drawn.shown, drawn.plan), scale)
    return Views(high + low, (COLUMN, high + low if beside else low), small, draw)


def _draw(
    figure: Figure,
    page: Axes,
    corner: tuple[float, float],
    *,
    drawn: _Drawn,
    pads: Pads,
    boxes: tuple[Box, Box],
    at: tuple[float, float],
) -> None:
    """Draw both, the lower left corner of all of it at `corner` on the page."""
    x, y = corner
    over, under = (box._replace(x=box.x + x, y=box.y + y) for box in boxes)
    draw_title(page, over, "FROM ABOVE", at[0], "")
    _plan(figure, _untitled(over), drawn, at[0])
    where = _told(drawn.shown, drawn.section)
    draw_title(page, under, "SECTION A-A", at[1], f"at X {where}, seen from the right")
    _section(figure, _untitled(under), drawn, pads, at[1])


def _untitled(box: Box) -> Box:
    return box._replace(h=box.h - TITLED)


def _plan(figure: Figure, box: Box, drawn: _Drawn, scale: float) -> None:
    shown, content = drawn.shown, drawn.plan
    plan = true_view(figure, box, content, PLAN, scale, shown.units, name="plan")
    draw_jaws(plan, shown, drawn.scene)
    taken = draw_origin(plan)
    draw_section_marks(plan, drawn.section, (content.y, content.top), taken)
    x0, y0, x1, _ = shapely.union_all(drawn.scene.blanks).bounds
    words = _told(shown, x1 - x0)
    across(plan, (x0, x1), content.y - plan.units(LANE), words, (y0, y0))


def _section(figure: Figure, box: Box, drawn: _Drawn, pads: Pads, scale: float) -> None:
    shown, scene, content = drawn.shown, drawn.scene, drawn.cut
    view = true_view(figure, box, content, pads, scale, shown.units, name="section")
    draw_cut_jaws(view, shown, scene, drawn.section)
    hidden = _elsewhere(scene, drawn.section)
    look: dict[str, Any] = {"ec": PART, "lw": NARROW, "ls": PART_LINE, "zorder": 3}
    fill(view.axes, hidden, facecolor="none", gid="part elsewhere", **look)
    unit, low = view.units(1), scene.bottom
    if content.x <= 0 <= content.right and content.y <= 0 <= content.top:
        datum(view.axes, 0, 0, unit, zorder=9.2)
    (_, near, _, front), (_, back, _, _) = (blank.bounds for blank in scene.blanks)
    tall = _told(shown, scene.top - low)
    upright(view, (low, scene.top), content.x - 4 * unit, tall, (near, near))
    thick = _told(shown, front - near)
    across(view, (near, front), low - 5 * unit, thick, (low, low), beside=False)
    gap = f"gap {_told(shown, back - front)}"
    across(view, (front, back), low - 10 * unit, gap, (low, low))
    heights(view, drawn.named, content.right + 2 * unit, low - UNDER * unit)


def _heights(shown: Picture, scene: Scene, section: float) -> list[tuple[float, float, str]]:
    """Rows (Z, Y of the edge there, words): part, jaw top, seat, underside."""
    part = shapely.union_all([body_cut(scene, section), _elsewhere(scene, section)])
    pocket = pocket_cut(scene, section)
    far = scene.blanks[1].bounds[3]
    out, deep = scene.part_top - scene.top, scene.top - scene.floor
    stands, seat = "", ""
    if abs(scene.top) > shown.units.from_mm(1e-6):  # else Z tells it
        stands = f", {_told(shown, abs(out))} {'proud' if out >= 0 else 'under'}"
        seat = f", {_told(shown, deep)} deep"
    named = [
        (scene.part_top, _edge(part, scene.part_top, far), f"part top Z {{z}}{stands}"),
        (scene.top, far, "jaw top Z {z}"),
        (scene.floor, _edge(pocket, scene.floor, far), f"seat Z {{z}}{seat}"),
        (scene.bottom, far, "underside Z {z}"),
    ]
    if scene.facing:
        named.append((scene.top + scene.facing, far, "raw top Z {z}"))
    return [(z, edge, words.format(z=_told(shown, z))) for z, edge, words in named]


def _elsewhere(scene: Scene, x: float) -> BaseGeometry:
    """What of the part stands higher than where it is cut at `x`, seen along X."""
    top = shapely.bounds(body_cut(scene, x))[3]
    spans = [(z, shapely.bounds(shape)[[1, 3]].tolist()) for z, shape in scene.body]
    pieces = [
        shapely.Polygon([(a, low), (b, low), (d, high), (c, high)])
        for (low, (a, b)), (high, (c, d)) in itertools.pairwise(spans)
        if high > max(low, top)
    ]
    return shapely.union_all(pieces).intersection(shapely.box(-BEYOND, top, BEYOND, BEYOND))


def _edge(shape: BaseGeometry, z: float, other: float) -> float:
    """The Y of a shape's last corner at a height, `other` if it has none."""
    corners = shapely.get_coordinates(shape)
    at = [float(y) for y, height in corners.tolist() if abs(height - z) < 1e-4]
    return max(at, default=other)


def _section_pads(drawn: _Drawn) -> Pads:
    words = max(width(words, TEXT, "bold") for _, _, words in drawn.named)
    return SECTION._replace(right=SECTION.right + words)


def _plan_content(scene: Scene) -> Box:
    x0, y0, x1, y1 = shapely.union_all([*scene.blanks, scene.part, scene.cavity]).bounds
    return Box(x0, y0, x1 - x0, y1 - y0)


def _section_content(scene: Scene) -> Box:
    _, y0, _, y1 = shapely.union_all([*scene.blanks, scene.part]).bounds
    top = max(scene.top + scene.facing, scene.part_top)
    return Box(y0, scene.bottom, y1 - y0, top - scene.bottom)


def _told(shown: Picture, value: float) -> str:
    return number(shown.units, shown.units.to_mm(value))


def _size(shown: Picture, content: Box) -> tuple[float, float]:
    return shown.units.to_mm(content.w), shown.units.to_mm(content.h)


def _room(wide: float, high: float, pads: Pads) -> tuple[float, float]:
    return wide - pads.left - pads.right, high - pads.bottom - pads.top - TITLED
