"""The order of work at one end of a turned part: a target in, neutral motions out, each tool
loaded once."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from jawcam.hold.turn_target import TurnLeft
from jawcam.motion.moves import (
    Coolant,
    End,
    FeedPer,
    Motion,
    Remark,
    Spindle,
    SurfaceSpeed,
    ToolChange,
    WorkOffset,
)
from jawcam.turn.cuts import (
    facing,
    finishing,
    grooving,
    parting_off,
    roughing,
)
from jawcam.turn.head import head, spoken
from jawcam.turn.inside import boring, drilling
from jawcam.turn.operation import TurnOperation
from jawcam.turn.reliefs import relieving
from jawcam.turn.speed import started
from jawcam.turn.threading import threading
from jawcam.turn.trail import TurnTrail
from jawcam.turn.work import TurnWork

__all__ = ["PASSES", "Planned", "plan_turning"]

PASSES: tuple[Callable[[TurnWork], Iterator[TurnOperation]], ...] = (
    facing,
    drilling,
    roughing,
    boring,
    relieving,
    finishing,
    grooving,
    threading,
    parting_off,
)
"""In order of work; each gives the cuts of its kind that an end needs."""


@dataclass(frozen=True)
class Planned:
    """The motions, in the plane of Z and X from the program's zero; what no tool reaches; what
    the person should know."""

    motions: tuple[Motion, ...]
    left: tuple[TurnLeft, ...]
    notes: tuple[str, ...]


def plan_turning(
    work: TurnWork,
    name: str,
    passes: Sequence[Callable[[TurnWork], Iterator[TurnOperation]]] = PASSES,
    lines: Sequence[str] = (),
) -> Planned:
    """All that is cut at one end, or by other `passes`; lines: what the program's head says of the
    work then. Raises InputError when a tool is missing, too short or would touch what it must
    keep off."""
    operations = [one for kind in passes for one in kind(work)]
    out: list[Motion] = [head(work, name, operations, lines), WorkOffset(work.setup.work_offset)]
    left: list[TurnLeft] = []
    loaded, speed = None, None
    for operation in operations:
        trail = TurnTrail()
        left.extend(operation.cut(trail))
        if not trail.motions:
            continue
        tool = operation.driven.tool
        if loaded != tool.number:
            if loaded is not None:
                out += [Coolant("off"), Spindle(0)]
            out += [ToolChange(tool.number, spoken(tool, work)), FeedPer("turn")]
            loaded, speed = tool.number, None
        cut = trail.motions
        if operation.speed != speed:
            first, *cut = started(trail.motions, operation.speed)
            out.append(first)
        out += [Coolant(work.setup.coolant), Remark(operation.name), *cut]
        speeds = [one for one in trail.motions if isinstance(one, Spindle | SurfaceSpeed)]
        speed = speeds[-1] if speeds else operation.speed
    out += [Coolant("off"), Spindle(0), End()]
    notes = dict.fromkeys(
        note for one in operations for note in (*one.driven.speeds.notes, *one.notes)
    )
    kept = [one for one in left if one.z > work.finished_to]
    return Planned(tuple(out), tuple(kept), tuple(notes))
