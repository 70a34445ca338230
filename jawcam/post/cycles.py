"""Drilled holes as blocks of a canned cycle."""

from __future__ import annotations

from jawcam.errors import InternalError
from jawcam.motion.holes import top
from jawcam.motion.moves import Drill, Rapid
from jawcam.post.mill_page import MillPage
from jawcam.post.mill_tables import Cycles
from jawcam.post.moves import write_move
from jawcam.post.text import filled

__all__ = ["end_cycle", "template", "write_hole"]


def template(hole: Drill, cycles: Cycles) -> str:
    """The block of a post for such a hole, "" if it has none."""
    if hole.peck is None:
        return cycles.dwell if hole.dwell > 0 else cycles.drill
    return cycles.peck_dwell if hole.dwell > 0 else cycles.peck


def write_hole(page: MillPage, hole: Drill) -> None:
    """One hole as one block, which needs nothing of the hole before it but the feed."""
    if page.here is None:
        write_move(page, Rapid(top(hole)))
    if "side on" in page.waiting:
        raise InternalError(f"the hole at {hole.at} can't take waiting words")
    page.settle()
    cycles, (x, y, z) = page.dialect.cycles, page.dialect.moves.axes
    heights = [z + page.length(hole.bottom), cycles.retract + page.length(hole.start)]
    places = [x + page.length(hole.at[0]), y + page.length(hole.at[1])]
    values = {"hole": " ".join([*places, *heights])}
    values["peck"] = page.coordinate(page.units.from_mm(hole.peck or 0.0))
    times = page.times(hole.dwell)
    values |= {"dwell": times["seconds"], "milliseconds": times["milliseconds"]}
    words = filled(template(hole, cycles), values).split()
    page.block([*words, page.feed(hole.feed)])
    page.said |= {x: places[0], y: places[1], z: z + page.length(hole.clear)}
    page.said.pop("motion", None)
    page.here = top(hole)
    page.in_cycle = True


def end_cycle(page: MillPage) -> None:
    """Put the cycle out of force, if one is."""
    if page.in_cycle:
        page.block([page.dialect.cycles.off])
    page.in_cycle = False
