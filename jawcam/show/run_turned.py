"""The run through a lathe's program: the half section."""

from __future__ import annotations

from typing import Any

import numpy as np

from jawcam.show.amiss_marks import draw_amiss
from jawcam.show.arrays import Floats
from jawcam.show.page import Box, Pads, blank_page, heading, view
from jawcam.show.run import Outline, Run, block_text, rail, run_view, said_of
from jawcam.show.run_path import run_path, slimmed
from jawcam.show.style import RAPID_LINE, SOFT
from jawcam.show.trace import RAPID
from jawcam.show.turned_inserts import shape_of
from jawcam.show.turned_path import tool_look
from jawcam.show.turned_picture import TurnPicture
from jawcam.show.turned_view import draw_holders, draw_work, draw_zero
from jawcam.show.words import file_name

__all__ = ["turned_run"]

SECTION, BLOCKS, RAIL = Box(7, 82, 283, 121), Box(7, 20, 283, 62), Box(10, 8, 277, 8)


def turned_run(picture: TurnPicture, rapid: float) -> Run:
    """The run through what is drawn, in the drawing style; rapid: the rate in mm/min. The tool is
    drawn where the program puts its set point; what the control's compensation shifts it by is left
    out."""
    figure, page = blank_page()
    inside = Box(SECTION.x + 2, SECTION.y + 2, SECTION.w - 4, SECTION.h - 11)
    pads = Pads(4, 4, 4, 4)
    drawn = view(figure, inside, picture.content, pads, name="half section", marks=("", ""))
    drawn.axes.tick_params(left=False, bottom=False, labelleft=False, labelbottom=False)
    heading(page, SECTION, "HALF SECTION", file_name(picture.program.name))
    draw_work(drawn, picture)
    draw_holders(drawn, picture)
    draw_amiss(drawn.axes, picture.amiss)
    draw_zero(drawn)
    trace, cuts = slimmed(picture.trace), picture.program.cuts
    called = np.array([cut.tool for cut in cuts])[trace.move]
    ways = np.where(trace.look == RAPID, -1, called)
    path = run_path(trace, (trace.start[:, :2], trace.end[:, :2]), ways, len(cuts))
    looks: dict[int, dict[str, Any]] = {
        number: {**tool_look(picture.order, number), "zorder": 5.5} for number in picture.order
    }
    looks[-1] = {"color": SOFT, "lw": 0.8, "ls": RAPID_LINE, "zorder": 5}
    tool = _tool(picture, drawn.units(2.5))
    minutes = _minutes(picture, rapid)

    def said(move: int) -> tuple[str, ...]:
        x, _, z = picture.moves.end[move].tolist()
        say = picture.units.number
        place = f"X {say(2 * x, 3)} Z {say(z, 3)}"
        return said_of(minutes, place, move, _cutting(picture, move))

    text = block_text(page, BLOCKS, picture.program, said)
    views = (run_view(drawn, path, looks, tool),)
    run = Run(figure, views, text, rail(figure, page, RAIL, len(cuts)), minutes)
    run.to(len(cuts) - 1)
    return run


def _tool(picture: TurnPicture, arm: float) -> Outline:
    """The outline of the cutting part after a move; a cross where its shape isn't known. arm: of
    that cross."""
    shapes = {number: shape_of(tool) for number, tool in picture.tools.items()}
    cross: Floats = np.array([(-arm, 0), (arm, 0), (np.nan, np.nan), (0, -arm), (0, arm)])

    def outline(move: int) -> Floats:
        x, _, z = picture.moves.end[move].tolist()
        at = np.array([z, x]) / picture.units.in_mm
        shape = shapes.get(picture.program.cuts[move].tool)
        if shape is None:
            return cross + at
        closed: Floats = np.vstack([shape, shape[:1]]) / picture.units.in_mm
        return closed + at

    return outline


def _minutes(picture: TurnPicture, rapid: float) -> Floats:
    """At the end of each move: a feed per turn at the spindle's speed where the move ends, held by
    its clamp (n = v / (pi d))."""
    rates = []
    for cut in picture.program.cuts:
        turns = cut.rpm
        if cut.surface:
            turns = 1000 * cut.surface / (2 * np.pi * max(abs(cut.end[0]), 1e-3))
        if cut.clamp:
            turns = min(turns, cut.clamp)
        rate = cut.feed * turns if cut.per_turn else cut.feed
        rates.append(rate if cut.kind != "rapid" and rate > 0 else rapid)
    return np.cumsum(picture.moves.length / np.array(rates))


def _cutting(picture: TurnPicture, move: int) -> str:
    cut = picture.program.cuts[move]
    speed = f"{cut.surface:g} m/min" if cut.surface else f"S{cut.rpm:g}"
    spindle = speed if cut.spindle != "off" else "spindle off"
    mark, feed = picture.units.value, picture.units.number(cut.feed, 4)
    unit = f"{mark} a turn" if cut.per_turn else f"{mark}/min"
    moving = "rapid" if cut.kind == "rapid" else f"feed {feed} {unit}"
    return f"T{cut.tool}, {spindle}, {moving}"
