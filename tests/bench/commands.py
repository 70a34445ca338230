"""How long the commands take, against what their libraries cost to load, and their memory."""

from __future__ import annotations

import sys
import tempfile
from collections.abc import Iterator
from functools import partial

from measuring import Row, median_of, python

__all__ = ["rows"]

JOB = "samples/crank-lever.toml"

# What the installed command runs.
JAWCAM = "import sys; sys.argv[0] = 'jawcam'; from jawcam.cli import main; main()"

LIBRARIES = """
import numpy, shapely, pyclipper, click, ezdxf
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
"""

# Runs a command as the only child of a small process. (A child of this one would count the
# memory that this one has: it starts as its copy.)
PEAK = """
import resource, subprocess, sys
subprocess.run([sys.executable, "-c", *sys.argv[1:]], stdout=subprocess.DEVNULL, check=True)
print(resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss)
"""
UNIT = 1 if sys.platform == "darwin" else 1024  # bytes


def rows(*, quick: bool) -> Iterator[Row]:
    """The rows of this file."""
    yield Row.of(
        "jawcam --help / import click",
        median_of(
            partial(python, JAWCAM, "--help"), partial(python, "import click"), 3 if quick else 21
        ),
        1.5,
    )
    with tempfile.TemporaryDirectory() as out:
        make = (JAWCAM, "make", JOB, "--out", out)
        yield Row.of(
            f"jawcam make {JOB} / import its libraries",
            median_of(partial(python, *make), partial(python, LIBRARIES), 1 if quick else 7),
            2.5,
        )
        ours, bare = (int(python(PEAK, *argv)) * UNIT / 1e6 for argv in (make, (LIBRARIES,)))
        yield Row("memory peak of jawcam make / of importing its libraries", ours, bare, unit="MB")
