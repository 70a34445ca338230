"""The view from above."""

from __future__ import annotations

from collections.abc import Sequence

from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patches import Circle

from jawcam.show.amiss_marks import draw_amiss
from jawcam.show.flags import Flag, draw_flags
from jawcam.show.jaws import draw_jaws
from jawcam.show.labels import place
from jawcam.show.lettering import haloed, line_height, width
from jawcam.show.page import Box, Pads, View, heading, view
from jawcam.show.path import compensated, draw_ends, draw_path, plunges
from jawcam.show.picture import Picture
from jawcam.show.shapes import arrow, crossed_circle, datum, scale_bar
from jawcam.show.style import HEAD, INK, NARROW, WIDE

__all__ = ["draw_origin", "draw_plan", "draw_section_marks", "plan_aspect"]

ROOM = Pads(left=14, bottom=11, right=21, top=9)
"""Around the axes: numbers and names of the axes, the depth bar, the heading."""

INNER = Pads(left=5, bottom=12, right=5, top=9)
"""Inside the axes, around what is drawn: scale bar, section marks."""

FLAG_ROOM = 7.0


def plan_aspect(shown: Picture) -> float:
    """Width over height of what the plan holds."""
    return (shown.high[0] - shown.low[0]) / max(shown.high[1] - shown.low[1], 1e-9)


def draw_plan(
    figure: Figure,
    page: Axes,
    box: Box,
    shown: Picture,
    *,
    flags: Sequence[Flag],
    section: float | None,
) -> View:
    """Draw the plan in `box`; `section`: the X at which the side view cuts the jaws."""
    inside = Box(
        box.x + ROOM.left,
        box.y + ROOM.bottom,
        box.w - ROOM.left - ROOM.right,
        box.h - ROOM.bottom - ROOM.top,
    )
    (x0, y0, _), (x1, y1, _) = shown.low, shown.high
    pads = INNER._replace(top=INNER.top + (FLAG_ROOM if flags else 0))
    mark = shown.units.value
    names = (f"X from program zero, {mark}", f"Y from program zero, {mark}")
    plan = view(figure, inside, Box(x0, y0, x1 - x0, y1 - y0), pads, name="plan", marks=names)
    heading(page, box, "PLAN", f"from above, {plan.scale / shown.units.in_mm:.3g} : 1 on A4 paper")
    if shown.scene:
        draw_jaws(plan, shown, shown.scene)
    draw_path(plan, shown.path, shown.depths, (0, 1))
    compensated(plan, shown.trace, shown.moves)
    taken = _marks(plan, shown)
    if section is not None:
        draw_section_marks(plan, section, (shown.low[1], shown.high[1]), taken)
    ground = Box(plan.axes.get_xlim()[0], plan.axes.get_ylim()[0], inside.w / plan.scale, 0)
    scale_bar(plan, ground, mark, right=section is not None and section < (x0 + x1) / 2)
    draw_amiss(plan.axes, shown.amiss)
    draw_flags(plan, flags)
    return plan


def _marks(plan: View, shown: Picture) -> list[Box]:
    """Start, end, plunges, the cutter at its first cut, and the origin; the boxes they take."""
    axes, scale = plan.axes, shown.units.in_mm
    first = shown.measures.first
    cutter = shown.cutter_of(first)
    if first is not None and cutter is not None:
        x, y, _ = (shown.moves.start[first] / scale).tolist()
        disc = Circle((x, y), cutter.radius / scale, fc=(1, 1, 1, 0.3), ec=INK, lw=0.9, zorder=7)
        disc.set_gid("cutter")
        axes.add_patch(disc)
        crossed_circle(axes, x, y, 0.35 * cutter.radius / scale, color=INK, lw=NARROW, zorder=7.1)
    spots = plunges(shown.moves) / scale
    if len(spots):
        axes.plot(*spots.T, ls="none", marker="x", ms=4, mew=0.9, color=INK, zorder=7.2)
    draw_ends(plan, shown.trace, (0, 1))
    return draw_origin(plan)


def draw_origin(plan: View) -> list[Box]:
    """The program's zero with its axes, if the view holds it; the boxes that they take."""
    axes, unit = plan.axes, plan.units(1)
    (x0, x1), (y0, y1) = axes.get_xlim(), axes.get_ylim()
    if not (x0 < 0 < x1 and y0 < 0 < y1):
        return []
    arrow(axes, (0, 0), (11 * unit, 0), unit, zorder=8.5)
    arrow(axes, (0, 0), (0, 11 * unit), unit, zorder=8.5)
    datum(axes, 0, 0, unit)
    taken = [Box(-3 * unit, -3 * unit, 6 * unit, 6 * unit)]
    for name, (x, y) in (("X", (13, 0)), ("Y", (0, 13))):
        haloed(axes, x * unit, y * unit, name, fontsize=HEAD, zorder=8.5)
        taken.append(Box((x - 1.5) * unit, (y - 1.5) * unit, 3 * unit, 3 * unit))
    return taken


def draw_section_marks(plan: View, x: float, edges: tuple[float, float], taken: list[Box]) -> None:
    """The ends of the cutting plane beyond the lower and upper edge of what is drawn: a wide
    stroke, an arrow along the line of sight, a letter."""
    axes, unit = plan.axes, plan.units(1)
    for edge, out in ((edges[0], -1), (edges[1], 1)):
        near, far = edge + out * 1.5 * unit, edge + out * 6 * unit
        axes.plot((x, x), (near, far), color=INK, lw=WIDE * 1.6, zorder=8, solid_capstyle="butt")
        arrow(axes, (x, far), (x - 6 * unit, far), unit, zorder=8)
        size = (width("A", HEAD) * unit + unit, line_height(HEAD) * unit)
        middle = (near + far) / 2
        spots = [(x + step * unit, middle) for step in (2.2, -3, 4.5, -5.5, 7)]
        spot = place(size, spots, taken)
        middle_x, middle_y = spot.x + spot.w / 2, spot.y + spot.h / 2
        haloed(axes, middle_x, middle_y, "A", fontsize=HEAD, fontweight="bold", zorder=8)
