"""Long paths thinned to what a page or a screen can show."""

from __future__ import annotations

import numpy as np

from jawcam.show.arrays import Bools, Floats

__all__ = ["thin"]

FEWEST = 8
"""Lines of fewer points are left as they are."""


def thin(line: Floats, fine: float) -> Floats:
    """A polyline (n, 2) without points that can't be told from their neighbours.

    Points that follow each other in one square of `fine` are the same to the eye: of each such run
    the first and the last stay, and so do the leftmost, rightmost, lowest and highest of all. No
    point left out is farther than `fine` times the root of 2 from one that stays, on either side.
    """
    if len(line) < FEWEST:
        return line
    cells = np.floor((line - line[0]) / fine)
    moved = (cells[1:] != cells[:-1]).any(axis=1)
    kept: Bools = np.ones(len(line), dtype=np.bool_)
    kept[1:-1] = moved[:-1] | moved[1:]
    kept[[*line.argmin(axis=0), *line.argmax(axis=0)]] = True
    thinned: Floats = line[kept]
    return thinned
