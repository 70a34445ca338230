"""How fast a program is read, against the reader that our tests ask for a second opinion."""

from __future__ import annotations

import gc
import math
from collections.abc import Iterator

from measuring import Row, best_of, seconds
from pygcode import Line, Machine

from jawcam.reader.read import read

__all__ = ["program_of", "rows"]

CONTROL = "rs274ngc-mill"
AIM = 1 / 20


def rows(*, quick: bool) -> Iterator[Row]:
    """The rows of this file, without the collecting of garbage, as our commands run."""
    gc.disable()
    yield from _rows(quick=quick)
    gc.enable()


def _rows(*, quick: bool) -> Iterator[Row]:
    count, most = (2_000, 4_000) if quick else (20_000, 1_000_000)
    lines = program_of(count)
    text = "\n".join(lines) + "\n"
    program = read(text, CONTROL)
    assert program.ended
    assert not program.faults
    pair = best_of(lambda: read(text, CONTROL), lambda: _with_pygcode(lines), 1 if quick else 3)
    yield Row.of(f"read {count:,} lines / pygcode", pair, AIM)
    # as many lines as that would keep pygcode busy for minutes: each is taken to cost the same
    text = "\n".join(program_of(most)) + "\n"
    ours, theirs = seconds(lambda: read(text, CONTROL)) / most, pair.baseline / count
    yield Row(
        f"one line of {most:,} / of {count:,} with pygcode", 1e6 * ours, 1e6 * theirs, AIM, "us"
    )


def _with_pygcode(lines: list[str]) -> None:
    """Every line parsed and run, as our reader does."""
    machine = Machine()
    for line in lines:
        machine.process_block(Line(line).block)


def program_of(count: int) -> list[str]:
    """Rings of a pocket, lines and arcs in turn, modal words left out where they may be."""
    lines = ["G21 G17 G40 G90 G94", "T1 M6", "S8000 M3", "G0 X0 Y0 Z5", "G1 Z-1 F300"]
    end = ["G0 Z5", "M5", "M30"]
    x, step = 0.0, 0
    while len(lines) < count - len(end):
        y = 20 * math.sin(step / 50)
        lines += [
            f"G1 X{x:.3f} Y{y:.3f} F1200",
            f"X{x + 1.5:.3f}",
            f"G3 X{x + 3.5:.3f} Y{y:.3f} I1. J0.",
            f"G1 Y{y + 0.25:.3f}",
        ]
        x, step = round(x + 0.007, 3), step + 1
    return lines[: count - len(end)] + end
