"""Jobs made up for these tests: a drawing, a job file, and what `jawcam make` makes of them."""

import re
from dataclasses import dataclass
from pathlib import Path

import ezdxf
import pytest

import jawcam.make
from jawcam.made import Made
from jawcam.post.dialect import load as load_dialect
from jawcam.post.write import write
from jawcam.reader.read import read

SAMPLES = Path(__file__).parents[2] / "samples"
MM, INCH = 4, 1  # $INSUNITS of the DXF reference
CONTROLS = ("rs274ngc-mill", "iso6983-mill")

JOB = """\
title = "Knob of the crank, soft jaws"
units = "mm"

[part]
material = "brass 360"
outline = "part.dxf"
thickness = 9

[[tool]]
number = 2
kind = "end mill"
dia = 6
flutes = 3
flute_len = 14
stickout = 24

[[setup]]
name = "jaws"
cut = "jaws"
post = "rs274ngc-mill"
jaws = { width = 90, height = 30, thickness = 40, gap = 4 }
hold = { depth = 5 }
fit = { grip = 0.04 }
rough = { stepdown = 5 }
"""
"""Millimetres. The drawing's own origin lands in the middle of the gap, so that the program's
coordinates are the drawing's."""


def job_with(*changes, text=JOB):
    """The job with some of its texts changed: pairs of an old one, found once, and a new one."""
    for old, new in changes:
        assert text.count(old) == 1, f"{old!r} is {text.count(old)} times in the job"
        text = text.replace(old, new)
    return text


def drawing(units=MM, version="R2010"):
    """A new document and its modelspace."""
    document = ezdxf.new(version, units=units)
    return document, document.modelspace()


def disc_drawing(radius=15.0, hole=None):
    document, space = drawing()
    space.add_circle((0, 0), radius)
    if hole is not None:
        space.add_circle((0, 0), hole)
    return document


def rounded_points(half_x, half_y, radius):
    """A rounded rectangle as x, y, bulge: quarter arcs have a bulge of tan(22.5 degrees)."""
    a, b, r, quarter = half_x, half_y, radius, 2**0.5 - 1
    return [
        (a, r - b, 0),
        (a, b - r, quarter),
        (a - r, b, 0),
        (r - a, b, quarter),
        (-a, b - r, 0),
        (-a, r - b, quarter),
        (r - a, -b, 0),
        (a - r, -b, quarter),
    ]


def rounded_drawing(half_x=20.0, half_y=13.0, radius=6.0):
    document, space = drawing()
    space.add_lwpolyline(rounded_points(half_x, half_y, radius), format="xyb", close=True)
    return document


@dataclass(frozen=True)
class Whole:
    """One setup, made, and the motions that its program was written from."""

    made: Made
    motions: tuple

    @property
    def text(self):
        return self.made.text

    @property
    def report(self):
        return self.made.report

    @property
    def figures(self):
        return self.made.report.figures

    @property
    def target(self):
        return self.made.target

    @property
    def name(self):
        return self.made.setup.name

    def written(self, post, units):
        """The same motions in another dialect and other units."""
        return write(self.motions, load_dialect(post), units=units)

    def read_again(self, text):
        """Another text, as the control of this program's dialect reads it."""
        return read(text, load_dialect(self.made.dialect).control, f"{self.made.file}.nc")


def put(folder, text, document):
    """A job and its drawing in a folder; the job's path."""
    folder.mkdir(parents=True, exist_ok=True)
    if document is not None:
        document.saveas(folder / "part.dxf")
    path = folder / "job.toml"
    path.write_text(text, encoding="utf-8")
    return path


def make_all(path, **options):
    """All the setups of a job file."""
    motions = []

    def recorded(given, *args, **kwargs):
        motions.append(tuple(given))
        return write(given, *args, **kwargs)

    options = {"post": None, "setups": (), "outside": False} | options
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(jawcam.make, "write", recorded)
        made = jawcam.make.make(path, shown=path.name, **options)
    files = list(dict.fromkeys(one.file for one in made))
    assert len(files) == len(motions)
    return tuple(Whole(one, motions[files.index(one.file)]) for one in made)


def make_one(folder, text, document, **options):
    """The only setup of a job."""
    (whole,) = make_all(put(folder, text, document), **options)
    return whole


def only(text, pattern, after=0):
    """The number, from 1, of the first line after line `after` that matches."""
    return next(
        number
        for number, line in enumerate(text.splitlines(), 1)
        if number > after and re.search(pattern, line)
    )
