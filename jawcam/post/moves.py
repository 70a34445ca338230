"""Rapids, lines and arcs as blocks."""

from __future__ import annotations

import math
from collections.abc import Sequence

from jawcam.errors import InternalError
from jawcam.motion.moves import ArcFeed, LineFeed, Point3, Rapid
from jawcam.post.page import Page

__all__ = ["write_move"]


def write_move(page: Page, move: Rapid | LineFeed | ArcFeed) -> None:
    """One move as its block, of which only what has changed is written. A move to where the tool
    already is leaves no block."""
    match move:
        case Rapid():
            _rapid(page, move.to)
        case LineFeed():
            takes = ("side off", "side on")
            _straight(page, page.dialect.moves.line, _axes(page, move.to), takes, move.feed)
        case ArcFeed():
            _arc(page, move)
    page.here = move.to


def _axes(page: Page, to: Point3) -> list[str]:
    """The words of a point, without those that have not changed; "" in their places."""
    letters = page.dialect.moves.axes
    words = (letter + page.length(value) for letter, value in zip(letters, to, strict=True))
    return [page.modal(word[0], word, "coordinates") for word in words]


def _rapid(page: Page, to: Point3) -> None:
    apart = page.here is None and page.dialect.tools.approach == "xy, then z"
    x, y, z = _axes(page, to)
    for words in ((x, y, ""), ("", "", z)) if apart else ((x, y, z),):
        _straight(page, page.dialect.moves.rapid, words, ("side off",))


def _straight(
    page: Page,
    word: str,
    axes: Sequence[str],
    takes: tuple[str, ...],
    feed: float | None = None,
) -> None:
    if not any(axes):
        return
    words = [page.modal("motion", word, "motion")]
    for group in (*takes, "length") if axes[2] else takes:
        words.extend(page.waiting.pop(group, "").split())
    words.extend(axes)
    if feed is not None:
        words.append(page.feed(feed))
    page.block(words)


def _arc(page: Page, arc: ArcFeed) -> None:
    if page.here is None or page.waiting:
        what = "comes from no known point" if page.here is None else "can't take waiting words"
        raise InternalError(f"an arc to {arc.to} {what}")
    arcs = page.dialect.arcs
    x, y, z = _axes(page, arc.to)
    if not (x or y):  # NISTIR 6556 section 3.5.3.2: at least one of them must be there
        x, y = (page.said[letter] for letter in page.dialect.moves.axes[:2])
    if arc.to[2] == page.here[2]:
        z = ""
    motion = page.modal("motion", arcs.ccw if arc.ccw else arcs.cw, "motion")
    page.block([motion, x, y, z, *_centre(page, page.here, arc), page.feed(arc.feed)])


def _centre(page: Page, start: Point3, arc: ArcFeed) -> list[str]:
    arcs = page.dialect.arcs
    if arcs.centre == "radius":
        return [arcs.radius + page.centre_length(math.dist(start[:2], arc.centre))]
    words = []
    for letter, at, centre in zip(arcs.words, start, arc.centre, strict=False):
        digits = page.centre_length(centre - at if arcs.centre == "incremental" else centre)
        if arcs.centre == "absolute" or arcs.zero_words or digits.strip("0.-"):
            words.append(letter + digits)
    return words
