"""Holes drilled beside the pocket, for stops and dowels."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from jawcam.errors import Place
from jawcam.hold.target import Hole
from jawcam.job.model import Setup
from jawcam.tools.choose import numbered
from jawcam.tools.cutter import Cutter

__all__ = ["drilled_of"]


def drilled_of(
    setup: Setup, tools: Sequence[Cutter], where: Callable[[str], Place]
) -> tuple[Hole, ...]:
    """The holes that a setup asks for, as they will be. Raises InputError for a tool that is no
    drill."""
    found = []
    for number, hole in enumerate(setup.holes, 1):
        drill = numbered(tools, hole.tool, where(f"holes[{number}].tool"), kinds=("drill",))
        tip = -hole.depth - drill.point_length
        found.append(Hole(hole.x, hole.y, drill.dia, -hole.depth, tip, drill.number, "stop"))
    return tuple(found)
