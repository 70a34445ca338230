"""The order of work: targets in, neutral motions out, each tool loaded once."""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Iterator, Sequence

from jawcam.mill.beside import drilling, edges, facing, spotting
from jawcam.mill.corners import corners
from jawcam.mill.groove import groove
from jawcam.mill.head import head
from jawcam.mill.operation import Operation
from jawcam.mill.pocket import floors_and_walls, roughing
from jawcam.mill.relief import reliefs
from jawcam.mill.resting import resting
from jawcam.mill.trail import Trail
from jawcam.mill.work import Work
from jawcam.motion.moves import Coolant, End, Motion, Remark, Spindle, ToolChange, WorkOffset
from jawcam.motion.passes import shifted

__all__ = ["PASSES", "plan"]

PASSES: tuple[Callable[[Work], Iterator[Operation]], ...] = (
    spotting,
    drilling,
    facing,
    roughing,
    resting,
    floors_and_walls,
    groove,
    corners,
    reliefs,
    edges,
)
"""In order of work; each gives the cuts of its kind that a setup needs. Holes come first, while
the blanks are solid, so that the cutter that faces them can go on to rough."""


def plan(works: Sequence[Work], name: str) -> tuple[Motion, ...]:
    """The motions for one or more stations, each seen from its own zero, in mm.

    With several stations each tool works all of them before the next is loaded, where the order
    of work within each allows; the cutter rises clear before it goes to another. name: the
    program's. Raises InputError when a cutter finds no way down or no room for what was asked.
    """
    ordered = list(_in_order(works))
    out: list[Motion] = [head(works, name, [one.chosen for _, one in ordered])]
    here: tuple[Work, int] | None = None  # the station and the tool in the spindle
    at = None
    for work, operation in ordered:
        tool = operation.chosen.cutter.number
        part = Trail()
        part.at = at if here == (work, tool) else None
        operation.cut(part)
        if not part.motions:
            continue
        if here != (work, tool):
            out += _arrival(here, at, work, operation, several=len(works) > 1)
        out += shifted((Remark(operation.name), *part.motions), work.target.zero)
        here, at = (work, tool), part.at
    if here is not None:
        out += _risen(here[0], at)
    return (*out, Coolant("off"), Spindle(0), End())


def _arrival(
    here: tuple[Work, int] | None,
    at: tuple[float, float, float] | None,
    work: Work,
    operation: Operation,
    *,
    several: bool,
) -> list[Motion]:
    """From where the last cut ended to another station or with another tool."""
    chosen = operation.chosen
    out: list[Motion] = []
    if here is not None:
        changed = here[1] != chosen.cutter.number
        out += _risen(here[0], at, work.job.machine.change_height if changed else None)
    change = ToolChange(chosen.cutter.number, chosen.describe(work.target.units))
    offset = WorkOffset(work.target.work_offset)
    if here is None:
        out += [offset, change]
    else:
        if here[1] != chosen.cutter.number:
            out += [Coolant("off"), Spindle(0), change]
        if here[0] is not work:
            out.append(offset)
    if several:
        out.append(Remark(f"station {work.target.name}"))
    return [*out, Spindle(chosen.rpm), Coolant(work.setup.coolant)]


def _risen(
    work: Work, at: tuple[float, float, float] | None, change: float | None = None
) -> tuple[Motion, ...]:
    """Up to the clearance at least, or to the height that the machine changes tools at, which also
    counts from the jaw top."""
    trail = Trail()
    trail.at = at
    least = max(work.target.clearance, change or 0.0)
    trail.rapid(*trail.plan, max(trail.at[2] if trail.at else 0.0, least))
    return shifted(trail.motions, work.target.zero)


def _in_order(works: Sequence[Work]) -> Iterator[tuple[Work, Operation]]:
    """All operations, each station's in its own order."""
    waiting = [(work, deque(one for kind in PASSES for one in kind(work))) for work in works]
    while any(queue for _, queue in waiting):
        tool = _next_tool([queue for _, queue in waiting if queue])
        for work, queue in waiting:
            while queue and queue[0].chosen.cutter.number == tool:
                yield work, queue.popleft()


def _next_tool(waiting: Sequence[Sequence[Operation]]) -> int:
    """The tool that can be finished with now: no station needs it again after another one. If
    there is none such, the first that is due."""
    orders = [[one.chosen.cutter.number for one in queue] for queue in waiting]
    due = [order[0] for order in orders]
    return next((tool for tool in due if all(_only_first(tool, order) for order in orders)), due[0])


def _only_first(tool: int, order: Sequence[int]) -> bool:
    """Whether a tool stands nowhere in an order but at its beginning."""
    later = [one for number, one in enumerate(order) if any(o != tool for o in order[:number])]
    return tool not in later
