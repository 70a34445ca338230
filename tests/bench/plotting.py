"""How long a program takes from its file to its picture, and how much memory."""

from __future__ import annotations

import tempfile
from collections.abc import Iterator
from functools import partial
from pathlib import Path

from commands import JAWCAM, LIBRARIES, PEAK, UNIT
from measuring import Row, median_of, python
from reading import program_of

__all__ = ["rows"]

MOST = 1000.0  # MB
PICTURES = ("plan", "oblique")


def rows(*, quick: bool) -> Iterator[Row]:
    """The rows of this file."""
    long, longest = (2_000, 5_000) if quick else (100_000, 1_000_000)
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder, "long.nc")
        file.write_text("\n".join(program_of(long)) + "\n")
        for view in PICTURES:
            plot = (JAWCAM, "plot", str(file), "--view", view, "--to", str(Path(folder, "a.png")))
            pair = median_of(partial(python, *plot), partial(python, LIBRARIES), 1 if quick else 3)
            yield Row.of(f"plot {long:,} blocks, {view} / import its libraries", pair)
        file.write_text("\n".join(program_of(longest)) + "\n")
        plot = (JAWCAM, "plot", str(file), "--to", str(Path(folder, "a.png")))
        peak = int(python(PEAK, *plot)) * UNIT / 1e6
        yield Row(f"memory peak of plotting {longest:,} blocks / 1 GB", peak, MOST, 1.0, "MB")
