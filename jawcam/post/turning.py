"""What only a lathe's programs say: constant surface speed, what feeds count by, threads."""

from __future__ import annotations

from jawcam.errors import InternalError
from jawcam.motion.moves import FeedPer, SurfaceSpeed, ThreadCut
from jawcam.post.lathe_page import LathePage
from jawcam.post.moves import straight
from jawcam.post.text import filled, number

__all__ = ["write_turning"]


def write_turning(page: LathePage, motion: SurfaceSpeed | FeedPer | ThreadCut) -> None:
    """One of the motions that only a lathe has as its blocks."""
    match motion:
        case SurfaceSpeed():
            _surface_speed(page, motion)
        case FeedPer(unit):
            page.feed_by = unit
        case ThreadCut():
            _thread(page, motion)


def _surface_speed(page: LathePage, surface: SurfaceSpeed) -> None:
    """The clamp always comes first, even where it has been told before."""
    words = page.dialect.spindle
    clamp = page.speed(surface.clamp)
    speed = page.speed(page.surface_speed(surface.speed))
    direction = words.cw if surface.clockwise else words.ccw
    page.values["spindle_off"] = words.off
    page.said.pop("spindle", None)
    page.block(filled(words.clamp, {"clamp": clamp}).split())
    text = filled(words.surface, {"speed": speed, "direction": direction})
    page.block(page.modal("spindle", text).split())


def _thread(page: LathePage, cut: ThreadCut) -> None:
    """The lead is told in every pass. A control that takes F for it must count feeds by the turn,
    and has another feed afterwards."""
    if "side on" in page.waiting:
        raise InternalError(f"a thread to {cut.to} can't take waiting words")
    words, numbers = page.dialect.thread, page.dialect.numbers
    digits = number(
        page.units.from_mm(cut.lead),
        numbers.lead_decimals.of(page.units),
        numbers,
        digits=numbers.feed_digits.of(page.units),
        suppress=numbers.feed_suppress,
    )
    as_feed = words.lead == page.dialect.moves.feed
    first = page.modal("feed unit", page.dialect.feed.per_turn) if as_feed else ""
    straight(page, words.word, cut.to, more=(first, words.lead + digits))
    page.here = cut.to
    if as_feed:
        page.said.pop("feed", None)
