"""Text on the page: measured, wrapped and free of characters that the lettering lacks."""

from __future__ import annotations

import functools
from collections.abc import Callable
from typing import Any

import matplotlib as mpl
from matplotlib.axes import Axes
from matplotlib.font_manager import FontProperties, findfont
from matplotlib.ft2font import FT2Font
from matplotlib.patheffects import withStroke
from matplotlib.text import Text
from matplotlib.textpath import TextToPath

from jawcam.show.plain_letters import can_write, plain, plain_width
from jawcam.show.style import BODY, PAPER

__all__ = [
    "MM_PER_POINT",
    "fitted",
    "halo",
    "haloed",
    "line_height",
    "paper",
    "put",
    "safe",
    "width",
    "wrap",
]

MM_PER_POINT = 25.4 / 72
"""A typographic point of 1/72 inch."""

FAMILY = "DejaVu Sans"

SPARE = 1.08
"""On the screen letters are fitted to whole pixels, which can make a line this much wider."""


def line_height(size: float) -> float:
    """From one line of text to the next, in mm, for a lettering of `size` points."""
    return size * 1.36 * MM_PER_POINT


def safe(text: str) -> str:
    """The text on one line, with ``?`` for each character that can't be drawn."""
    words = " ".join(text.split())
    if plain() and words.isascii() and words.isprintable():
        return words
    return "".join(c if c.isprintable() and _has(c) else "?" for c in words)


def set_size(size: float) -> float:
    """The size in points at which words of `size` are set: in a lettering whose letters are wide,
    the style in force may ask for a smaller one, so that as much goes on a line."""
    return size * float(mpl.rcParams["font.size"]) / BODY


def width(text: str, size: float, weight: str = "normal") -> float:
    """How wide the text is on paper, in mm, in the lettering that is in force."""
    return _width(text, set_size(size), weight, plainly=plain())


@functools.lru_cache(maxsize=4096)
def _width(text: str, size: float, weight: str, *, plainly: bool) -> float:
    if plainly:
        return plain_width(safe(text), size, weight) * MM_PER_POINT
    properties = FontProperties(family=FAMILY, size=size, weight=weight)
    wide, _, _ = TextToPath().get_text_width_height_descent(safe(text), properties, ismath=False)
    return float(wide) * MM_PER_POINT * SPARE


def fitted(text: str, room: float, size: float, weight: str = "normal") -> float:
    """The size at which a text that may not be cut is no wider than `room` mm, at most `size`."""
    return size * min(1.0, room / max(width(text, size, weight), 1e-9))


def wrap(
    text: str, room: float, size: float = BODY, weight: str = "normal", most: int = 99
) -> list[str]:
    """The text in lines no wider than `room` mm, words too long for one broken; what goes beyond
    `most` lines is cut off with ``...``.
    """
    return list(_wrap(safe(text), room, set_size(size), weight, most, plainly=plain()))


@functools.lru_cache(maxsize=1024)
def _wrap(
    text: str, room: float, size: float, weight: str, most: int, *, plainly: bool
) -> tuple[str, ...]:
    """The lines of a safe text: a sheet is laid out in several ways, with the same words."""
    wide_of = functools.partial(_width, size=size, weight=weight, plainly=plainly)
    blank = wide_of("n n") - wide_of("nn")  # alone it has no width
    lines, used = [""], 0.0
    for word in text.split():
        wide = wide_of(word)
        rest = room - used - blank if lines[-1] else 0.0
        if wide <= rest:
            lines[-1] += f" {word}"
            used += blank + wide
            continue
        first, *more = _pieces(word, room, rest, wide_of) if wide > room else ("", word)
        lines[-1] += f" {first}" if first else ""
        lines.extend(more)
        used = wide_of(lines[-1])
    lines = [line for line in lines if line]
    if len(lines) > most:
        last = lines[most - 1]
        while last and wide_of(last + " ...") > room:
            last = last[:-1]
        lines = [*lines[: most - 1], last.rstrip() + " ..."]
    return tuple(lines)


def put(axes: Axes, x: float, y: float, text: str, **look: Any) -> Text:  # noqa: ANN401
    """Write one line of text at a point of the axes; `look` goes to matplotlib, a normal weight is
    the style's own. Dollar signs stay dollar signs.
    """
    if look.get("fontweight") == "normal":
        del look["fontweight"]
    look["fontsize"] = set_size(look.get("fontsize", BODY))
    return axes.text(x, y, safe(text), parse_math=False, **look)


def haloed(axes: Axes, x: float, y: float, text: str, **look: Any) -> Text:  # noqa: ANN401
    """Write a letter that stays readable over lines."""
    return halo(put(axes, x, y, text, ha="center", va="center_baseline", **look))


def halo(written: Text) -> Text:
    """Clear the ground around what is written: its letters are traced, or, where the plain
    lettering can't be, it stands in a box."""
    ground = paper(written.axes)
    if plain():
        written.set_bbox({"boxstyle": "square,pad=0.12", "fc": ground, "ec": "none"})
    else:
        written.set_path_effects([withStroke(linewidth=2.2, foreground=ground)])
    return written


def paper(axes: Any) -> Any:  # noqa: ANN401
    """The colour of the paper that is drawn on."""
    return PAPER if axes is None else axes.figure.get_facecolor()


def _pieces(word: str, room: float, rest: float, wide_of: Callable[[str], float]) -> list[str]:
    """A word that is too long for a line, in pieces: the first one, which may be empty, no wider
    than `rest`."""
    pieces = [""]
    for c in word:
        if wide_of(pieces[-1] + c) > (room if len(pieces) > 1 else rest) and (
            pieces[-1] or len(pieces) == 1
        ):
            pieces.append("")
        pieces[-1] += c
    return pieces


def _has(c: str) -> bool:
    """Whether the lettering in force has a letter."""
    return can_write(c) if plain() else bool(_font().get_char_index(ord(c)))


@functools.cache
def _font() -> FT2Font:
    return FT2Font(findfont(FontProperties(family=FAMILY)))
