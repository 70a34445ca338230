"""What was chosen for each tool of a setup and why."""

from __future__ import annotations

import itertools
from collections.abc import Sequence

from jawcam.mill.beside import drilling, edges, facing, spotting
from jawcam.mill.corners import corner_used
from jawcam.mill.work import Work
from jawcam.tools.reasons import Reasons, merged

__all__ = ["why"]


def why(works: Sequence[Work]) -> tuple[Reasons, ...]:
    """The reasons of every tool that the setups use, one each: those that do most of the pocket
    first."""
    found = []
    for work in works:
        beside = itertools.chain(facing(work), spotting(work), drilling(work), edges(work))
        chosen = [work.rough, work.finish, *([work.corner] if corner_used(work) else [])]
        chosen += [one.chosen for one in beside]
        found += [one.reasons for one in chosen if one.reasons is not None]
    return merged(found)
