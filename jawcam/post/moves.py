"""Rapids, lines, arcs and passes of threads as blocks."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from jawcam.errors import InternalError
from jawcam.motion.moves import ArcFeed, LineFeed, Point3, Rapid
from jawcam.post.page import Page

__all__ = ["straight", "write_move"]


def write_move(page: Page, move: Rapid | LineFeed | ArcFeed) -> None:
    """One move as its block, of which only what has changed is written. A move to where the tool
    already is leaves no block."""
    match move:
        case Rapid():
            _rapid(page, move.to)
        case LineFeed():
            straight(page, page.dialect.moves.line, move.to, feed=move.feed)
        case ArcFeed():
            _arc(page, move)
    page.here = move.to


def straight(
    page: Page, word: str, to: Point3, *, feed: float | None = None, more: Sequence[str] = ("", "")
) -> None:
    """A straight cut as its block, with the words `more` before and after the others; the axes that
    do not change are left out, and the whole block where none changes."""
    takes = ("side off", "side on")
    _block(page, word, _axes(page, to), takes, feed, more)


def _axes(page: Page, to: Point3) -> dict[str, str]:
    """The words of a point by the names of the axes, "" for those that have not changed."""
    words = {}
    for axis in page.dialect.axes:
        word = axis.letter + page.length(to[axis.index] * axis.factor)
        words[axis.name] = page.modal(axis.letter, word, "coordinates")
    return words


def _rapid(page: Page, to: Point3) -> None:
    words, approach = _axes(page, to), page.dialect.tools.approach
    apart = page.here is None and approach != "together"
    for names in approach.split(", then ") if apart else ("xyz",):
        part = {name: word for name, word in words.items() if name in names}
        _block(page, page.dialect.moves.rapid, part, ("side off",))


def _block(
    page: Page,
    word: str,
    axes: Mapping[str, str],
    takes: Sequence[str],
    feed: float | None = None,
    more: Sequence[str] = ("", ""),
) -> None:
    if not any(axes.values()):
        return
    words = [more[0], "" if feed is None else page.feed_unit()]
    words.append(page.modal("motion", word, "motion"))
    for group in (*takes, "length") if axes.get("z") else takes:
        words.extend(page.waiting.pop(group, "").split())
    words.extend(axes.values())
    if feed is not None:
        words.append(page.feed(feed))
    page.block([*words, more[1]])


def _arc(page: Page, arc: ArcFeed) -> None:
    if page.here is None or page.waiting:
        what = "comes from no known point" if page.here is None else "can't take waiting words"
        raise InternalError(f"an arc to {arc.to} {what}")
    dialect, words = page.dialect, _axes(page, arc.to)
    plane = {axis.name: axis.letter for axis in dialect.axes if axis.index < 2}
    if not any(words[name] for name in plane) or "arc ends" not in dialect.blocks.modal:
        # NISTIR 6556 section 3.5.3.2: at least one of them must be there
        words |= {name: page.said[letter] for name, letter in plane.items()}
    if arc.to[2] == page.here[2]:
        words = {name: word for name, word in words.items() if name in plane}
    word = dialect.arcs.ccw if arc.ccw != dialect.mirrored else dialect.arcs.cw
    start = [page.feed_unit(), page.modal("motion", word, "arcs")]
    page.block([*start, *words.values(), *_centre(page, page.here, arc), page.feed(arc.feed)])


def _centre(page: Page, start: Point3, arc: ArcFeed) -> list[str]:
    arcs = page.dialect.arcs
    if arcs.centre == "radius":
        return [arcs.radius + page.centre_length(math.dist(start[:2], arc.centre))]
    words = []
    for axis in page.dialect.centres:
        at, centre = start[axis.index], arc.centre[axis.index]
        away = centre if arcs.centre == "absolute" else centre - at
        if arcs.centre == "unsigned":
            digits = page.centre_length(abs(away))
        else:
            digits = page.centre_length(away, signed=page.dialect.numbers.sign == "always")
        if arcs.centre == "absolute" or arcs.zero_words or digits.strip("0.+-"):
            words.append(axis.letter + digits)
    return words
