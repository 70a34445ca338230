"""Pages of one large view: the oblique one, or the levels side by side."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from functools import partial
from typing import Literal, NamedTuple

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure

from jawcam.errors import Fault, InputError, Place
from jawcam.proof.report import Finding, Report
from jawcam.show.amiss_marks import draw_amiss
from jawcam.show.depthbar import draw_depth_bar
from jawcam.show.flags import Flag, draw_flags, flags_of, in_plan, list_flags, list_height
from jawcam.show.gaze import Gaze
from jawcam.show.key import Entry, draw_key, entries
from jawcam.show.levels import draw_levels, levels_of, levels_said
from jawcam.show.oblique import draw_oblique, oblique_box
from jawcam.show.page import Box, Pads, blank_page, heading, view
from jawcam.show.panel import draw_panel
from jawcam.show.path import draw_ends
from jawcam.show.picture import Picture
from jawcam.show.style import PAGE
from jawcam.show.words import caution, facts

__all__ = ["OneView", "one_view"]

OneView = Literal["oblique", "levels"]

MARGIN, COLUMN, ROW = 7.0, 100.0, 4.6
BAR = 22.0
"""mm at the right of the view for the depth bar."""

NOT_SEEN = {
    "oblique": ("straight plunge", "compensated to tick side", "cutter at its first cut", "bolt"),
    "levels": (
        "bolt",
        "straight plunge",
        "compensated to tick side",
        "rapid",
        "start of the program",
        "end of the program",
        "cutter at its first cut",
    ),
}
PLAN_ONLY = (
    *("blank, cut through", "part, silhouette", "edge of a lower level", "groove in the seat"),
    *("broken edge", "drilled hole", "faced off", "corner relief", "program zero", "not reached"),
)
"""What of the plan's key each of these views doesn't show."""


class _Layout(NamedTuple):
    view: Box
    words: Box
    key: Box
    findings: Box | None


def one_view(
    kind: OneView, shown: Picture, report: Report | None, title: str, rapid: float
) -> Figure:
    """Draw a page of one view, in the drawing style. Raises InputError if there are no levels."""
    figure, page = blank_page()
    gaze = Gaze()
    placing = partial(_seen, gaze) if kind == "oblique" else in_plan
    flags, more = flags_of(report, shown.units, placing)
    left_out = {*NOT_SEEN[kind], *(PLAN_ONLY if kind == "oblique" else PLAN_ONLY[2:])}
    key = [entry for entry in entries(shown, flags) if entry.words not in left_out]
    layout = _arrange(key, list_height(flags, more))
    inside = Box(layout.view.x + 3, layout.view.y + 3, layout.view.w - 3 - BAR, layout.view.h - 14)
    if kind == "oblique":
        _oblique(figure, page, (layout.view, inside), shown, gaze, flags)
    else:
        _levels(figure, page, (layout.view, inside), shown, flags)
    if shown.measures.lowest:
        draw_depth_bar(figure, page, layout.view, shown.depths, shown.units)
    draw_key(page, layout.key, 4, key)
    if layout.findings:
        where = "the view" if kind == "oblique" else "the level that each is nearest to"
        list_flags(page, layout.findings, 2, flags, more, remark=f"numbered as in {where}")
    alarm = report is not None and not report.ok
    draw_panel(page, layout.words, title, facts(shown, report, rapid), caution(report), alarm=alarm)
    return figure


def _oblique(
    figure: Figure,
    page: Axes,
    boxes: tuple[Box, Box],
    shown: Picture,
    gaze: Gaze,
    flags: Sequence[Flag],
) -> None:
    """The oblique view. boxes: of its panel, and inside it."""
    panel, inside = boxes
    pads = Pads(4, 4, 4, 11 if flags else 4)
    drawn = view(figure, inside, oblique_box(shown, gaze), pads, name="oblique", marks=("", ""))
    drawn.axes.set_axis_off()
    tilt = f"from {gaze.tilt:.0f} degrees above, {gaze.turn:.0f} to the right; not to scale"
    heading(page, panel, "OBLIQUE VIEW", tilt)
    draw_oblique(drawn, shown, gaze)
    draw_amiss(drawn.axes, shown.amiss, gaze.level)
    start, end = gaze.seen(shown.trace.start[:1]), gaze.seen(shown.trace.end[-1:])
    draw_ends(drawn, replace(shown.trace, start=start, end=end), (0, 1))
    draw_flags(drawn, flags)


def _levels(
    figure: Figure, page: Axes, boxes: tuple[Box, Box], shown: Picture, flags: Sequence[Flag]
) -> None:
    """The levels, likewise. Raises InputError if there are none."""
    panel, inside = boxes
    rows, count = levels_of(shown, flags)
    if not rows:
        raise InputError(_no_levels(shown))
    heading(page, panel, "LEVELS", levels_said(len(rows), count))
    draw_levels(figure, page, inside, shown, rows)


def _arrange(key: list[Entry], listed: float) -> _Layout:
    full = Box(MARGIN, MARGIN, PAGE[0] - 2 * MARGIN, PAGE[1] - 2 * MARGIN)
    left = full.w - COLUMN
    found = listed / 2 + 18 if listed else 0.0
    under = math.ceil(len(key) / 4) * ROW + 9
    return _Layout(
        view=Box(full.x, full.y + found + under, left, full.h - found - under),
        words=Box(full.x + left, full.y, COLUMN, full.h),
        key=Box(full.x, full.y + found, left, under),
        findings=Box(full.x, full.y, left, found) if listed else None,
    )


def _seen(gaze: Gaze, finding: Finding) -> tuple[float, float] | None:
    """Where the oblique view shows a finding."""
    if finding.x is None or finding.y is None or finding.z is None:
        return None
    x, y = gaze.seen(np.array([(finding.x, finding.y, finding.z)]))[0].tolist()
    return x, y


def _no_levels(shown: Picture) -> Fault:
    what = "no feed move of the program stays at one height, so there are no levels to draw"
    return Fault(what, Place(file=shown.program.name), "take the oblique view")
