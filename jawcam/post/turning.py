"""What only a lathe's programs say: constant surface speed, what feeds count by, threads."""

from __future__ import annotations

from jawcam.errors import InternalError
from jawcam.motion.moves import FeedPer, SurfaceSpeed, ThreadBox, ThreadCut
from jawcam.post.lathe_page import LathePage
from jawcam.post.moves import straight
from jawcam.post.text import filled, number

__all__ = ["write_turning"]


_HELD = ("box z", "box taper", "box lead")


def write_turning(page: LathePage, motion: SurfaceSpeed | FeedPer | ThreadCut | ThreadBox) -> None:
    """One of the motions that only a lathe has as its blocks."""
    match motion:
        case SurfaceSpeed():
            _surface_speed(page, motion)
        case FeedPer(unit):
            page.feed_by = unit
        case ThreadCut():
            _thread(page, motion)
        case ThreadBox():
            _box(page, motion)


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
    """The lead is told in every pass."""
    if "side on" in page.waiting:
        raise InternalError(f"a thread to {cut.to} can't take waiting words")
    words = page.dialect.thread
    unit = _feed_unit(page, words.lead)
    straight(page, words.word, cut.to, more=(unit, _lead(page, words.lead, cut.lead)))
    page.here = cut.to
    _forget_feed(page, words.lead)


def _box(page: LathePage, box: ThreadBox) -> None:
    """One pass as one block, after which the tool stands where it stood before. While the cycle
    stays in force the numbers but X hold on, if coordinates and feeds do so at all."""
    if "side on" in page.waiting:
        raise InternalError(f"a thread to {box.to} can't take waiting words")
    page.settle()
    words = page.dialect.thread
    unit = _feed_unit(page, words.cycle_lead)
    motion = page.modal("motion", words.cycle, "motion")
    for group in _HELD if motion else ():
        page.said.pop(group, None)
    x, z = (a.letter + page.length(box.to[a.index] * a.factor) for a in page.dialect.axes)
    lead = page.modal("box lead", _lead(page, words.cycle_lead, box.lead), "feed")
    page.block([unit, motion, x, page.modal("box z", z, "coordinates"), _taper(page, box), lead])
    _forget_feed(page, words.cycle_lead)


def _taper(page: LathePage, box: ThreadBox) -> str:
    """The word of a taper, none for a straight pass unless one before it has told one."""
    signed = page.dialect.numbers.sign == "always"
    digits = page.centre_length(box.begin[1] - box.to[1], signed=signed)
    if not (digits.strip("0.+-") or "box taper" in page.said):
        return ""
    return page.modal("box taper", page.dialect.thread.cycle_taper + digits, "coordinates")


def _lead(page: LathePage, letter: str, lead: float) -> str:
    numbers = page.dialect.numbers
    decimals = numbers.lead_decimals.of(page.units)
    digits, suppress = numbers.feed_digits.of(page.units), numbers.feed_suppress
    value = page.units.from_mm(lead)
    return letter + number(value, decimals, numbers, digits=digits, suppress=suppress)


def _feed_unit(page: LathePage, letter: str) -> str:
    """A control that takes its feed's letter for the lead must count feeds by the turn."""
    as_feed = letter == page.dialect.moves.feed
    return page.modal("feed unit", page.dialect.feed.per_turn) if as_feed else ""


def _forget_feed(page: LathePage, letter: str) -> None:
    """Such a control has another feed afterwards."""
    if letter == page.dialect.moves.feed:
        page.said.pop("feed", None)
