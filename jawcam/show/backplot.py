"""The backplot: what a program does, on one page."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Literal

from matplotlib.figure import Figure

from jawcam.errors import Fault, InputError, Place
from jawcam.hold.target import Target
from jawcam.proof.report import Report
from jawcam.reader.cuts import Program
from jawcam.show.amiss import amiss_of
from jawcam.show.cutaway import section_at
from jawcam.show.depthbar import draw_depth_bar
from jawcam.show.flags import flags_of, list_flags, list_height
from jawcam.show.key import draw_key, entries
from jawcam.show.one_view import one_view
from jawcam.show.page import arrange, blank_page
from jawcam.show.panel import draw_panel
from jawcam.show.picture import Picture, picture
from jawcam.show.plan import draw_plan, plan_aspect
from jawcam.show.save import save
from jawcam.show.side import draw_side, side_aspect
from jawcam.show.stretch import WHOLE, Stretch
from jawcam.show.style import drawing_style
from jawcam.show.window import show_window
from jawcam.show.words import caution, facts, file_name
from jawcam.tools.cutter import Cutter
from jawcam.units import Units

__all__ = ["VIEWS", "ViewName", "backplot", "nothing_to_draw", "save", "show_window"]

ViewName = Literal["plan", "oblique", "levels"]

VIEWS: tuple[ViewName, ...] = ("plan", "oblique", "levels")
"""What a page may show: plan and side view, the oblique view, or the levels side by side."""


def backplot(
    program: Program,
    *,
    target: Target | None = None,
    report: Report | None = None,
    units: Units = Units.MM,
    rapid: float = 10000.0,
    cutters: Sequence[Cutter] = (),
    shown: Picture | None = None,
    view: ViewName = "plan",
    stretch: Stretch = WHOLE,
) -> Figure:
    """Draw a program: one of the views, key, words.

    units: those of the picture; rapid: the machine's rapid rate in mm/min; cutters: known ones
    beside the target's; shown: what is drawn, if it was worked out already; view: what the page
    shows; stretch: of the program's lines, to be drawn alone. Everything is drawn from the
    program's origin. Raises InputError if no move is there to draw, or no level.
    """
    if not program.cuts:
        raise InputError(nothing_to_draw(program))
    with drawing_style():
        shown = shown or picture(program, target, units, cutters, rapid, stretch)
        shown = replace(shown, amiss=amiss_of(program, target, report, units))
        title = target.title if target and target.title else file_name(program.name)
        if view != "plan":
            return one_view(view, shown, report, title, rapid)
        flags, more = flags_of(report, units)
        key = entries(shown, flags)
        listed = list_height(flags, more)
        layout = arrange(plan_aspect(shown), side_aspect(shown), len(key), listed)
        figure, page = blank_page()
        section = section_at(shown)
        draw_plan(figure, page, layout.plan, shown, flags=flags, section=section)
        draw_side(figure, page, layout.side, shown, section)
        if shown.measures.lowest:
            draw_depth_bar(figure, page, layout.plan, shown.depths, units)
        draw_key(page, layout.key, layout.columns[0], key)
        if layout.findings:
            list_flags(page, layout.findings, layout.columns[1], flags, more)
        rows = facts(shown, report, rapid)
        alarm = report is not None and not report.ok
        draw_panel(page, layout.words, title, rows, caution(report), alarm=alarm)
    return figure


def nothing_to_draw(program: Program) -> Fault:
    """What is wrong with a program without moves."""
    return Fault(
        "the program makes no move, so there is nothing to draw",
        Place(file=program.name),
        "name a program that holds motions",
    )
