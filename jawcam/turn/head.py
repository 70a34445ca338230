"""The lines at the head of a lathe program: what it is for, what to set up, what to mind."""

from __future__ import annotations

from collections.abc import Sequence

from jawcam.cautions import ON_LATHE
from jawcam.motion.moves import Begin
from jawcam.tools.turner import Turner
from jawcam.turn.operation import TurnOperation
from jawcam.turn.work import TurnWork

__all__ = ["head", "spoken"]


def head(
    work: TurnWork, name: str, operations: Sequence[TurnOperation], lines: Sequence[str] = ()
) -> Begin:
    """The program's name and the lines that the person at the control reads first. lines: those
    on what the work is, where it isn't the end of a part."""
    target = work.held.target
    tools = {one.driven.tool.number: one.driven.tool for one in operations}
    said = [
        *(lines or _of_an_end(work)),
        *target.notes,
        f"spindle never above {target.clamp:.0f} rpm",
        *(f"T{number} {spoken(tool, work)}" for number, tool in tools.items()),
    ]
    return Begin(name, (*said, *ON_LATHE))


def _of_an_end(work: TurnWork) -> tuple[str, ...]:
    setup, say = work.setup, work.job.units.say
    stock = f"stock dia {say(setup.stock.dia)}, {say(setup.stock.allowance)} in front of Z 0"
    if setup.stock.over is not None:
        stock += f", cast or forged, {say(setup.stock.over)} over the part"
    return (
        f"{work.held.target.title}: {setup.name}, end {setup.end} free",
        stock,
        "zero: the finished face of the free end, on the axis",
    )


def spoken(tool: Turner, work: TurnWork) -> str:
    """For the person at the machine: what to load."""
    say = work.job.units.say
    shape = tool.kind
    if tool.insert is not None:
        shape += f" {tool.insert.designation}, nose {say(tool.insert.radius)}"
    elif tool.width is not None:
        shape += f" {say(tool.width)} wide"
    elif tool.dia is not None:
        shape += f" dia {say(tool.dia)}"
    return f"{tool.name}: {shape}" if tool.name else shape
