"""The plain lettering that every reader of PDF files brings along (ISO 32000-1, 9.6.2.2): it need
not be put into the file, which is by far the slowest part of writing one."""

from __future__ import annotations

import functools
import unicodedata
from pathlib import Path

import matplotlib as mpl

__all__ = ["FAMILY", "PLAIN", "can_write", "plain", "plain_width"]

FAMILY = "Helvetica"

PLAIN = {
    "pdf.use14corefonts": True,
    "font.family": FAMILY,
    "font.weight": "medium",
    "axes.formatter.use_mathtext": True,
}
"""The settings that put this lettering in force. The last one keeps the numbering of axes, which a
sheet has none of, from looking for this lettering among the installed ones, where it isn't."""

WIDEST = 1000.0
"""Thousandths of the size; of letters whose width isn't known."""


def plain() -> bool:
    """Whether this lettering is in force."""
    return bool(mpl.rcParams["pdf.use14corefonts"])


def can_write(text: str) -> bool:
    """Whether it has all the letters of a text."""
    return text.encode("cp1252", "ignore").decode("cp1252") == text


def plain_width(text: str, size: float, weight: str) -> float:
    """How wide a text is, in points, by the lettering's own metrics; pairs that stand closer
    together than their widths are not counted."""
    widths = _widths(weight)
    return sum(widths.get(ord(c)) or _like(c, widths) for c in text) / 1000 * size


def _like(c: str, widths: dict[int, float]) -> float:
    """Letters with an accent are as wide as without."""
    return widths.get(ord(unicodedata.normalize("NFKD", c)[0]), WIDEST)


@functools.cache
def _widths(weight: str) -> dict[int, float]:
    """Code -> width in thousandths of the size, from rows such as ``C 65 ; WX 667 ; N A ;``."""
    name = f"{FAMILY}-Bold.afm" if weight == "bold" else f"{FAMILY}.afm"
    text = Path(mpl.get_data_path(), "fonts", "pdfcorefonts", name).read_text("latin-1")
    rows = [line.split() for line in text.splitlines() if line.startswith("C ")]
    widths = {int(row[1]): float(row[4]) for row in rows}
    return {code: wide for code, wide in widths.items() if 32 <= code < 127 and code != ord("`")}
