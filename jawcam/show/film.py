"""The run through a program as a moving picture in a file."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import numpy as np
from matplotlib.backends.backend_agg import FigureCanvasAgg
from PIL import Image

from jawcam.progress import Told, silent
from jawcam.show.arrays import Ints
from jawcam.show.run import Run
from jawcam.show.style import drawing_style

__all__ = ["FILMS", "film", "frame_moves"]

FILMS: dict[str, str] = {".gif": "GIF", ".apng": "PNG"}
"""The endings of moving pictures, and what kind of file they are."""

FRAMES, STEP, REST = 120, 80, 2500
"""How many pictures, how long each is seen, and the last one, in milliseconds."""

DPI = 85
"""A picture of 994 by 703 dots."""


def film(run: Run, path: Path, frames: int = FRAMES, told: Told = silent) -> None:
    """Write the run to a .gif or .apng file. Between two pictures the machine runs equally long;
    the same run gives the same bytes. told: hears how many of the pictures are drawn."""
    moves = frame_moves(run, frames)
    times = [STEP] * (len(moves) - 1) + [REST]
    with drawing_style():
        # 256 colours are enough; all pictures have those of the last, in which everything is drawn
        colours = next(_pictures(run, moves[-1:])).quantize(256)
        pictures = []
        for one in _pictures(run, moves):
            pictures.append(one.quantize(palette=colours, dither=Image.Dither.NONE))
            told("pictures drawn", len(pictures), len(moves))
    pictures[0].save(
        path,
        format=FILMS[path.suffix.lower()],
        save_all=True,
        append_images=pictures[1:],
        duration=times,
        loop=0,
    )


def frame_moves(run: Run, frames: int) -> Ints:
    """The moves after which a picture is taken, the first and the last among them."""
    marks = np.linspace(0.0, float(run.minutes[-1]), min(frames, run.moves))
    moves = np.searchsorted(run.minutes, marks - 1e-12)
    moves[0], moves[-1] = 0, run.moves - 1
    return np.unique(np.minimum(moves, run.moves - 1))


def _pictures(run: Run, moves: Ints) -> Iterator[Image.Image]:
    """One after the other: what stays is drawn once."""
    run.figure.set_dpi(DPI)
    canvas: Any = FigureCanvasAgg(run.figure)
    canvas.draw()
    ground = canvas.copy_from_bbox(run.figure.bbox)
    for move in moves.tolist():
        run.to(move)
        canvas.restore_region(ground)
        for artist in run.artists:
            (artist.axes or run.figure).draw_artist(artist)
        yield Image.fromarray(np.asarray(canvas.buffer_rgba())[:, :, :3].copy())
