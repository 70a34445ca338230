"""How times are taken: alternately with those of a baseline, so that both meet the same machine."""

from __future__ import annotations

import statistics
import subprocess
import sys
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

__all__ = ["ROOT", "Pair", "Row", "best_of", "median_of", "python", "rows_as_text", "seconds"]

ROOT = Path(__file__).resolve().parents[2]

Task = Callable[[], object]


@dataclass(frozen=True)
class Pair:
    """What our task and its baseline took, in seconds."""

    ours: float
    baseline: float


@dataclass(frozen=True)
class Row:
    """One line of the table. ours, baseline: in `unit`; aim: the largest ratio of the two that
    is well, None where there is no aim."""

    name: str
    ours: float
    baseline: float | None = None
    aim: float | None = None
    unit: str = "ms"

    @staticmethod
    def of(name: str, pair: Pair, aim: float | None = None) -> Row:
        """A row of times."""
        return Row(name, 1e3 * pair.ours, 1e3 * pair.baseline, aim)

    @property
    def ratio(self) -> float | None:
        """Ours by the baseline."""
        return self.ours / self.baseline if self.baseline else None

    @property
    def verdict(self) -> str:
        """Whether the aim is met; without one, how many times faster we are."""
        if self.ratio is None:
            return ""
        if self.aim is None:
            return f"{1 / self.ratio:.0f} times faster" if self.ratio < 1 else ""
        return "ok" if self.ratio <= self.aim else "over"


def seconds(task: Task) -> float:
    """How long a task takes by the clock on the wall."""
    start = time.perf_counter()
    task()
    return time.perf_counter() - start


def alternating(ours: Task, baseline: Task, times: int) -> tuple[list[float], list[float]]:
    """Both tasks in turn, so many times; before several, one round that does not count."""
    if times > 1:
        ours()
        baseline()
    taken = [(seconds(ours), seconds(baseline)) for _ in range(times)]
    return [a for a, _ in taken], [b for _, b in taken]


def median_of(ours: Task, baseline: Task, times: int) -> Pair:
    """For whole processes."""
    a, b = alternating(ours, baseline, times)
    return Pair(statistics.median(a), statistics.median(b))


def best_of(ours: Task, baseline: Task, times: int) -> Pair:
    """For short calculations: whatever disturbs one only ever makes it longer."""
    a, b = alternating(ours, baseline, times)
    return Pair(min(a), min(b))


def python(code: str, *argv: str) -> str:
    """Run code in a fresh interpreter, begun in the repository -> what it printed."""
    command = [sys.executable, "-c", code, *argv]
    return subprocess.run(command, cwd=ROOT, stdout=subprocess.PIPE, text=True, check=True).stdout


def rows_as_text(rows: Sequence[Row]) -> str:
    """The table."""
    lines = [("", "ours", "baseline", "ratio", "aim", ""), *map(_cells, rows)]
    name, *widths = (max(map(len, column)) for column in zip(*lines, strict=True))
    return "\n".join(
        "  ".join((line[0].ljust(name), *map(str.rjust, line[1:5], widths), line[5])).rstrip()
        for line in lines
    )


def _cells(row: Row) -> tuple[str, ...]:
    return (
        row.name,
        f"{_figure(row.ours)} {row.unit}",
        "-" if row.baseline is None else f"{_figure(row.baseline)} {row.unit}",
        "-" if row.ratio is None else f"{row.ratio:.2f}",
        "-" if row.aim is None else f"<= {row.aim:g}",
        row.verdict,
    )


def _figure(value: float) -> str:
    """Three digits that count."""
    return f"{value:.{0 if value >= 100 else 1 if value >= 10 else 2}f}"
