"""How the pictures look: paper, ink, line types, sizes.

Line types follow the meaning they have in ISO 128-2: continuous wide for edges, continuous narrow
for hatching and leaders, short dashes for what is hidden, long-dashed dotted for axes and cutting
planes, long-dashed double-dotted for an adjacent part.
"""

from __future__ import annotations

import contextlib
from collections.abc import Iterator, Mapping
from typing import Any

import matplotlib as mpl
from matplotlib.colors import ListedColormap

__all__ = [
    "AXIS_LINE",
    "BLANK",
    "BODY",
    "DASH",
    "DEPTHS",
    "GAP",
    "HATCH",
    "HATCHES",
    "HEAD",
    "HIDDEN_LINE",
    "INK",
    "NARROW",
    "PAGE",
    "PAPER",
    "PART",
    "PART_LINE",
    "RAPID_LINE",
    "SMALL",
    "SOFT",
    "STOP",
    "TITLE",
    "WIDE",
    "drawing_style",
]

PAGE = (297.0, 210.0)
"""mm; A4 lying."""

PAPER = "#f8f4ea"
INK = "#22262b"
SOFT = "#5c6067"
BLANK = "#ece6d6"
HATCH = "#aaa28d"
PART = "#8a4516"
STOP = "#9c221b"

TITLE, HEAD, BODY, SMALL = 11.0, 7.5, 7.0, 6.5
"""Lettering in points; the smallest is 13 pixels high at 150 dots per inch."""

WIDE, NARROW = 1.1, 0.5
"""Line widths in points, the ratio about 2 : 1."""

HATCHES = ("////", "\\\\\\\\")
"""Front and back blank: adjacent parts are hatched in opposite directions (ISO 128)."""

DASH, GAP = 1.9, 0.9
"""mm; of the dashes of moves that rise or fall."""

RAPID_LINE = (0, (1.0, 2.0))
HIDDEN_LINE = (0, (5.0, 2.5))
AXIS_LINE = (0, (14.0, 2.5, 1.5, 2.5))
PART_LINE = (0, (12.0, 2.0, 1.5, 2.0, 1.5, 2.0))

DEPTHS = ListedColormap([mpl.colormaps["viridis"](i / 255 * 0.8) for i in range(256)], "depths")
"""Deep is dark, shallow is light; even steps of lightness, so that it reads in grey as well. The
light end stops where it would no longer show on the paper."""

_SETTINGS: Any = {
    "font.family": "DejaVu Sans",
    "font.size": BODY,
    "text.color": INK,
    "axes.edgecolor": SOFT,
    "axes.labelcolor": INK,
    "axes.linewidth": NARROW,
    "axes.facecolor": "none",
    "axes.labelsize": BODY,
    "axes.labelpad": 2.0,
    "xtick.color": SOFT,
    "ytick.color": SOFT,
    "xtick.labelcolor": INK,
    "ytick.labelcolor": INK,
    "xtick.labelsize": SMALL,
    "ytick.labelsize": SMALL,
    "xtick.major.width": NARROW,
    "ytick.major.width": NARROW,
    "xtick.major.size": 2.5,
    "ytick.major.size": 2.5,
    "xtick.major.pad": 2.0,
    "ytick.major.pad": 2.0,
    "hatch.linewidth": 0.35,
    "hatch.color": HATCH,
    "figure.facecolor": PAPER,
    "figure.dpi": 100.0,  # a window of 1170 by 830 dots
    "savefig.dpi": 150.0,
    "savefig.facecolor": PAPER,
    "text.hinting": "none",  # fitting letters to whole dots takes half of the drawing time
    "svg.hashsalt": "jawcam",
    "svg.fonttype": "path",
    "pdf.fonttype": 42,
    "path.simplify": True,
    "lines.solid_capstyle": "round",
}


@contextlib.contextmanager
def drawing_style(more: Mapping[str, Any] | None = None) -> Iterator[None]:
    """Hold matplotlib to this style, whatever the person's own settings are, and give theirs back.
    more: settings that differ from it.

    Drawing and saving must both happen inside it: some settings are read only on saving.
    """
    with mpl.rc_context():
        mpl.rcdefaults()
        mpl.rcParams.update(_SETTINGS)
        settings: Any = more or {}
        mpl.rcParams.update(settings)
        yield
