"""The run through a mill's program: plan, side and oblique view."""

from __future__ import annotations

from typing import Any

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure

from jawcam.reader.cuts import Cut
from jawcam.show.amiss_marks import draw_amiss
from jawcam.show.arrays import Floats, Ints, Moves
from jawcam.show.cutaway import section_at
from jawcam.show.gaze import Gaze
from jawcam.show.jaws import draw_jaws
from jawcam.show.oblique import draw_oblique, oblique_box
from jawcam.show.page import Box, Pads, View, blank_page, heading, view
from jawcam.show.path import NARROWEST, WIDEST, Depths
from jawcam.show.picture import Picture
from jawcam.show.plan import draw_origin
from jawcam.show.run import Run, block_text, rail, run_view, said_of
from jawcam.show.run_path import run_path, slimmed
from jawcam.show.side import draw_cut_jaws, side_content
from jawcam.show.style import DEPTHS, RAPID_LINE, SOFT
from jawcam.show.trace import RAPID, Trace
from jawcam.show.words import file_name
from jawcam.units import Units

__all__ = ["cutting_words", "mill_run", "minutes_of"]

BINS = 24
"""So many depths are told apart."""

PLAN, OBLIQUE = Box(7, 20, 183, 183), Box(190, 129, 100, 74)
SIDE, BLOCKS, RAIL = Box(190, 86, 100, 43), Box(190, 20, 100, 66), Box(10, 8, 277, 8)


def mill_run(shown: Picture, rapid: float) -> Run:
    """The run through what is drawn, in the drawing style; rapid: the rate in mm/min."""
    figure, page = blank_page()
    trace = slimmed(shown.trace)
    moves = len(shown.program.cuts)
    ways, looks = _ways(trace, shown.depths), _looks()
    gaze, section = Gaze(), section_at(shown)
    across = side_content(shown)[1]
    views = []
    for drawn, project in (
        (_plan(figure, page, shown), lambda points: points[:, :2]),
        (_side(figure, page, shown, section), lambda points: points[:, [across, 2]]),
        (_oblique(figure, page, shown, gaze), gaze.seen),
    ):
        path = run_path(trace, (project(trace.start), project(trace.end)), ways, moves)
        tool = _Tool(shown, project, drawn)
        views.append(run_view(drawn, path, looks, tool))
    minutes = minutes_of(shown.moves, rapid)

    def said(move: int) -> tuple[str, ...]:
        x, y, z = shown.moves.end[move].tolist()
        words = cutting_words(shown.program.cuts[move], shown.units)
        return said_of(minutes, shown.units.point(x, y, z), move, words)

    text = block_text(page, BLOCKS, shown.program, said)
    run = Run(figure, tuple(views), text, rail(figure, page, RAIL, moves), minutes)
    run.to(moves - 1)
    return run


def minutes_of(moves: Moves, rapid: float) -> Floats:
    """How long the program has run at the end of each move, at the speeds asked for; a feed move
    without a feed is taken at the rapid rate."""
    rate = np.where(moves.rapid | (moves.feed <= 0), rapid, moves.feed)
    return np.cumsum(moves.length / rate)


def cutting_words(cut: Cut, units: Units) -> str:
    """The tool, the spindle and the feed of a move, in words."""
    spindle = f"S{cut.rpm:g}" if cut.spindle != "off" else "spindle off"
    unit, digits = ("in/min", 2) if units is Units.INCH else ("mm/min", 1)
    moving = "rapid" if cut.kind == "rapid" else f"feed {units.number(cut.feed, digits)} {unit}"
    return f"T{cut.tool}, {spindle}, {moving}"


class _Tool:
    """The outline of the cutter after a move: a cylinder, seen in a view; a cross where its size
    isn't known."""

    def __init__(self, shown: Picture, project: Any, drawn: View) -> None:  # noqa: ANN401
        self.shown, self.project, self.drawn = shown, project, drawn
        self.turn = np.linspace(0.0, 2 * np.pi, 49)

    def __call__(self, move: int) -> Floats:
        shown, scale = self.shown, self.shown.units.in_mm
        tip = shown.moves.end[move] / scale
        cutter = shown.cutter_of(move)
        if cutter is None:
            arm = self.drawn.units(2.5)
            at: Floats = self.project(tip[None, :])
            cross: Floats = np.array([(-arm, 0), (arm, 0), (np.nan,) * 2, (0, -arm), (0, arm)])
            return cross + at
        radius = cutter.radius / scale
        high = (cutter.flute_len or 1.5 * cutter.dia) / scale
        ring = np.column_stack([np.cos(self.turn), np.sin(self.turn), 0 * self.turn]) * radius
        low, top = (self.project(tip + ring + (0, 0, z)) for z in (0.0, high))
        gap = np.full((1, 2), np.nan)
        flanks = []
        for k in (int(np.argmin(low[:, 0])), int(np.argmax(low[:, 0]))):
            flanks += [low[k : k + 1], top[k : k + 1], gap]
        return np.vstack([low, gap, top, gap, *flanks])


def _ways(trace: Trace, deep: Depths) -> Ints:
    """Rapid is 0, the depths of feed moves 1 and on, the deepest first."""
    share = np.asarray(deep.norm(trace.end[:, 2]), dtype=np.float64)
    bins = np.minimum((share * BINS).astype(np.int64), BINS - 1) + 1
    ways: Ints = np.where(trace.look == RAPID, 0, bins)
    return ways


def _looks() -> dict[int, dict[str, Any]]:
    looks: dict[int, dict[str, Any]] = {
        0: {"color": SOFT, "lw": 0.8, "ls": RAPID_LINE, "zorder": 5}
    }
    for way in range(1, BINS + 1):
        share = (way - 0.5) / BINS
        wide = NARROWEST + (WIDEST - NARROWEST) * share
        looks[way] = {"color": DEPTHS(share), "lw": wide, "zorder": 6 - share}
    return looks


def _inside(box: Box) -> Box:
    return Box(box.x + 2, box.y + 2, box.w - 4, box.h - 11)


def _plan(figure: Figure, page: Axes, shown: Picture) -> View:
    (x0, y0, _), (x1, y1, _) = shown.low, shown.high
    content = Box(x0, y0, x1 - x0, y1 - y0)
    drawn = view(figure, _inside(PLAN), content, Pads(4, 4, 4, 4), name="plan", marks=("", ""))
    heading(page, PLAN, "PLAN", file_name(shown.program.name))
    _untick(drawn)
    if shown.scene:
        draw_jaws(drawn, shown, shown.scene)
    draw_amiss(drawn.axes, shown.amiss)
    draw_origin(drawn)
    return drawn


def _side(figure: Figure, page: Axes, shown: Picture, section: float | None) -> View:
    content, across = side_content(shown)
    drawn = view(figure, _inside(SIDE), content, Pads(3, 3, 3, 3), name="side", marks=("", ""))
    seen = "seen from the front" if across == 0 else "seen from the right"
    heading(page, SIDE, "SIDE VIEW", seen)
    _untick(drawn)
    if shown.scene and section is not None:
        draw_cut_jaws(drawn, shown, shown.scene, section)
    return drawn


def _oblique(figure: Figure, page: Axes, shown: Picture, gaze: Gaze) -> View:
    pads = Pads(2, 2, 2, 2)
    content = oblique_box(shown, gaze)
    drawn = view(figure, _inside(OBLIQUE), content, pads, name="oblique", marks=("", ""))
    drawn.axes.set_axis_off()
    heading(page, OBLIQUE, "OBLIQUE VIEW", "the path shows through the jaws")
    draw_oblique(drawn, shown, gaze, bare=True)
    draw_amiss(drawn.axes, shown.amiss, gaze.level)
    return drawn


def _untick(drawn: View) -> None:
    drawn.axes.tick_params(left=False, bottom=False, labelleft=False, labelbottom=False)
