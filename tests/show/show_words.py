"""Where the words of a picture stand once it is drawn."""

from typing import NamedTuple

from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.text import Text

DPI = 150


class Word(NamedTuple):
    """Some words and the box that they take, in dots."""

    text: str
    x0: float
    y0: float
    x1: float
    y1: float


def drawn_words(figure):
    """Draw a figure -> its words."""
    figure.set_dpi(DPI)
    canvas = FigureCanvasAgg(figure)
    canvas.draw()
    renderer = canvas.get_renderer()
    texts = [t for t in figure.findobj(Text) if t.get_visible() and t.get_text().strip()]
    return [Word(t.get_text(), *t.get_window_extent(renderer).extents.tolist()) for t in texts]


def overlap(a, b):
    """By how many dots two words stand on each other, whichever way it is less."""
    return min(min(a.x1, b.x1) - max(a.x0, b.x0), min(a.y1, b.y1) - max(a.y0, b.y0))
