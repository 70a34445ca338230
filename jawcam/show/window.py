"""A picture in a window."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from matplotlib.figure import Figure

from jawcam.errors import Fault, InputError
from jawcam.show.style import drawing_style

__all__ = ["show_window"]


def show_window(figure: Figure, begin: Callable[[], object] | None = None) -> None:
    """Open a window with the figure and wait until the person closes it. begin: called once the
    figure is in its window; what it gives back lives as long as that.

    Raises InputError if there is no screen, or nothing installed that could draw on it.
    """
    # pyplot looks for a screen as soon as it is imported.
    from matplotlib import pyplot as plt

    with drawing_style():
        try:
            wide, high = figure.get_size_inches()
            canvas: Any = plt.figure(figsize=(wide, high)).canvas
        except Exception as error:
            raise InputError(_no_window(str(error))) from error
        if canvas.required_interactive_framework is None:
            plt.close(canvas.figure)
            raise InputError(_no_window(""))
        canvas.figure = figure
        figure.set_canvas(canvas)
        kept = begin() if begin else None  # a canvas doesn't keep what it calls
        plt.show(block=True)
        del kept


def _no_window(why: str) -> Fault:
    what = "no window can be opened: there is no screen, or nothing that could draw on it"
    mend = "write the picture to a file with --to FILE.png and look at that"
    return Fault(f"{what} ({' '.join(why.split())})" if why else what, mend=mend)
