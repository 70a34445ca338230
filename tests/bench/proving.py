"""How long the proof of the sample takes."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from measuring import ROOT, Row, seconds

from jawcam.made import Made
from jawcam.make import make
from jawcam.proof.prove import prove

__all__ = ["rows"]


def rows(*, quick: bool) -> Iterator[Row]:
    """The rows of this file."""
    path = ROOT / "samples" / "crank-lever.toml"
    for made in make(path, shown=path.name, post=None, setups=(), outside=False):
        times = [seconds(partial(_prove, made)) for _ in range(1 if quick else 5)]
        yield Row(f"prove {path.stem}, {made.setup.name}", 1e3 * min(times))


def _prove(made: Made) -> None:
    report = prove(made.program, made.target, machine=made.job.machine)
    assert report.ok
