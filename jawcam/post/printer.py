"""Motions printed, one after the other, in the words of a dialect."""

from __future__ import annotations

from collections.abc import Sequence

from jawcam.errors import InternalError
from jawcam.motion.moves import (
    ArcFeed,
    Begin,
    Call,
    Compensate,
    Coolant,
    Drill,
    Dwell,
    End,
    FeedPer,
    LineFeed,
    Motion,
    Rapid,
    Remark,
    Spindle,
    SurfaceSpeed,
    ThreadBox,
    ThreadCut,
    ToolChange,
    WorkOffset,
)
from jawcam.post.blocks import finished
from jawcam.post.cycles import end_cycle, write_hole
from jawcam.post.lathe_page import LathePage
from jawcam.post.lathe_tables import LatheDialect
from jawcam.post.mill_page import MillPage, highest
from jawcam.post.mill_tables import MillDialect
from jawcam.post.moves import write_move
from jawcam.post.page import Page
from jawcam.post.subprograms import write_bodies, write_call
from jawcam.post.tables import Dialect
from jawcam.post.text import clean, filled, program_number
from jawcam.post.turning import write_turning
from jawcam.units import Units

__all__ = ["printed"]


def printed(motions: Sequence[Motion], dialect: Dialect, units: Units) -> str:
    """The text of a program, each line ended by a line feed.

    The motions are in mm, seen from the program's zero, rounded to what the dialect prints, and
    the dialect has words for all of them (`refusals` finds none). Raises InputError where it has
    too few sequence numbers.
    """
    page = _page(motions, dialect, units)
    for motion in motions:
        if isinstance(page, MillPage) and not isinstance(motion, Drill):
            end_cycle(page)
        _write(page, motion)
    lines = finished(page.lines, page.blocks, page.changes, dialect)
    return "".join(f"{line}\n" for line in lines)


def _page(motions: Sequence[Motion], dialect: Dialect, units: Units) -> Page:
    """The empty page of the dialect's kind."""
    offsets = tuple(sorted({m.number for m in motions if isinstance(m, WorkOffset)}))
    first = next((m.number for m in motions if isinstance(m, WorkOffset)), 1)
    values = _values(motions, dialect, units, first)
    match dialect:
        case MillDialect():
            called = max((m.number for m in motions if isinstance(m, Call)), default=0)
            page = MillPage(
                dialect,
                units,
                values,
                offsets,
                highest=highest(motions, first),
                called=called,
                several=sum(isinstance(motion, ToolChange) for motion in motions) > 1,
            )
            page.choose_clear(first)
            return page
        case LatheDialect():
            return LathePage(dialect, units, values, offsets)
    raise InternalError(f"{dialect.name}: a post of no kind")


def _values(
    motions: Sequence[Motion], dialect: Dialect, units: Units, offset: int
) -> dict[str, str]:
    """What fills the places in the post's lines, as far as it holds for the whole program."""
    name = next((m.name for m in motions if isinstance(m, Begin)), "")
    return {
        "name": clean(name, dialect.comments),
        "number": str(program_number(name, dialect.program)),
        "units": dialect.units.of(units),
        "plane": dialect.arcs.plane,
        "offset": dialect.work_offsets[offset - 1] if dialect.work_offsets else "",
        "spindle_off": "",
        "coolant_off": "",
    }


def _write(page: Page, motion: Motion) -> None:
    match motion:
        case Begin():
            _begin(page, motion)
        case End():
            _end(page)
        case Remark(text):
            page.comment(text)
        case WorkOffset():
            _offset(page, motion)
        case ToolChange():
            _tool(page, motion)
        case Spindle():
            _spindle(page, motion)
        case Coolant():
            _coolant(page, motion)
        case Compensate():
            _compensate(page, motion)
        case _:
            _work(page, motion)


def _work(page: Page, motion: Motion) -> None:
    match motion:
        case Rapid() | LineFeed() | ArcFeed():
            write_move(page, motion)
        case Dwell(seconds):
            page.block(filled(page.dialect.moves.dwell, page.times(seconds)).split())
        case Drill() if isinstance(page, MillPage):
            write_hole(page, motion)
        case Call() if isinstance(page, MillPage):
            write_call(page, motion)
        case SurfaceSpeed() | FeedPer() | ThreadCut() | ThreadBox() if isinstance(page, LathePage):
            write_turning(page, motion)
        case _:
            raise InternalError(f"{page.dialect.name}: no words for {motion}")


def _begin(page: Page, begin: Begin) -> None:
    program = page.dialect.program
    page.bare(program.head)
    for line in (*begin.lines, *page.remarks()):
        page.comment(line)
    page.own(program.start)
    if any("{offset}" in line for line in program.start):
        page.said["offset"] = page.values["offset"]


def _end(page: Page) -> None:
    page.settle()
    page.gap()
    page.own(page.dialect.program.end)
    if isinstance(page, MillPage):
        write_bodies(page)
    page.bare(page.dialect.program.tail)


def _tool(page: Page, change: ToolChange) -> None:
    tools = page.dialect.tools
    page.settle()
    page.own(tools.leave if page.tools_used else tools.first)
    page.tools_used += 1
    page.load(change)
    page.gap()
    page.comment(filled(tools.comment, page.values))
    page.change(tools.load)
    page.forget()
    page.said.pop("spindle", None)
    page.said.pop("coolant", None)


def _offset(page: Page, offset: WorkOffset) -> None:
    word = page.dialect.work_offsets[offset.number - 1]
    if page.said.get("offset") == word:
        return
    page.leave_offset()
    page.block(page.modal("offset", word).split())
    page.forget()
    page.choose_offset(offset.number)


def _coolant(page: Page, coolant: Coolant) -> None:
    words = page.dialect.coolant
    page.values["coolant_off"] = "" if coolant.kind == "off" else words.off
    word = {"flood": words.flood, "mist": words.mist, "off": words.off}[coolant.kind]
    page.block([page.modal("coolant", word)])


def _spindle(page: Page, spindle: Spindle) -> None:
    words = page.dialect.spindle
    text = words.off
    if spindle.rpm > 0:
        direction = words.cw if spindle.clockwise else words.ccw
        text = filled(words.run, {"speed": page.speed(spindle.rpm), "direction": direction})
    page.values["spindle_off"] = words.off if spindle.rpm > 0 else ""
    page.block(page.modal("spindle", text).split())


def _compensate(page: Page, compensate: Compensate) -> None:
    words = page.dialect.compensation
    if compensate.side == "off":
        page.waiting.pop("side on", None)
        page.waiting["side off"] = words.off
    else:
        left = (compensate.side == "left") != page.dialect.mirrored
        word = words.left if left else words.right
        page.waiting["side on"] = filled(word, {"register": str(compensate.register)})
