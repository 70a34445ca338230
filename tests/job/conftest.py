"""A job that loads, to be spoiled one line at a time."""

import pathlib

import pytest

from jawcam.errors import InputError
from jawcam.job.load import load

GOOD = """\
title = "Crank lever"
units = "mm"
[let]
gap = 6
[part]
material = "brass 360"
outline = "lever.dxf"
thickness = 12
[[tool]]
number = 3
kind = "end mill"
dia = 8
flute_len = 22
stickout = 30
[[tool]]
number = 4
kind = "bull-nose end mill"
dia = 6
corner_radius = 0.5
[[setup]]
name = "side-one"
cut = "jaws"
post = "rs274ngc-mill"
work_offset = 1
jaws = { width = 130, height = 38, thickness = 40, gap = "gap" }
hold = { depth = 8 }
rough = { tool = 3, stepover = 3 }
[[setup]]
name = "side-two"
cut = "jaws"
post = "rs274ngc-mill"
jaws = { width = 130, height = 38, thickness = 40, gap = "gap" }
bolts = [{ at = [50, 23], dia = 14, top = -20 }]
[setup.hold]
depth = 6
"""


LATHE = """\
title = "Burr spindle"
units = "mm"
[part]
material = "brass 360"
turned = [
  { dia = 12, len = 15 },
  { dia = 20, len = 25, thread = "M20x1.5 6g" },
]
[[tool]]
number = 1
kind = "turning"
insert = "CNMG120408"
[[tool]]
number = 2
kind = "boring"
insert = "CCMT060204"
least_bore = 8
[[tool]]
number = 3
kind = "grooving"
width = 3
reach = 8
radius = 0.2
[[tool]]
number = 4
kind = "threading"
[[tool]]
number = 5
kind = "parting"
width = 2
reach = 16
[[tool]]
number = 6
kind = "centre drill"
dia = 3.15
[[tool]]
number = 7
kind = "drill"
dia = 7
feed = 0.1
[[setup]]
name = "end-a"
cut = "turned profile"
post = "rs274ngc-lathe"
end = "A"
reach = 20
stock = { dia = 22, allowance = 1 }
chuck = { grip = 18, max_rpm = 3000 }
rough = { tool = 1, depth = 2, feed = 0.25 }
finish = { tool = 1, surface_ra = 1.6 }
groove = { tool = 3 }
thread = { tool = 4 }
drill = { tool = 7, centre = 6 }
bore = { tool = 2 }
[[setup]]
name = "end-b"
cut = "turned profile"
post = "rs274ngc-lathe"
end = "B"
reach = 21
stock = { dia = 22, bore = 7 }
chuck = { grip = 10 }
"""


class JobFolder:
    """A folder with a drawing and a job file in it."""

    def __init__(self, folder: pathlib.Path) -> None:
        self.folder = folder
        self.path = folder / "lever.toml"
        (folder / "lever.dxf").touch()

    def load(self, text, **options):
        self.path.write_text(text, encoding="utf-8")
        return load(self.path, shown="lever.toml", **options)

    def faults(self, text, **options):
        with pytest.raises(InputError) as caught:
            self.load(text, **options)
        return caught.value.faults


@pytest.fixture
def good():
    return GOOD


@pytest.fixture
def lathe():
    """Both ends of a turned part on the lathe, a tool of each kind."""
    return LATHE


@pytest.fixture
def jobs(tmp_path):
    return JobFolder(tmp_path)


@pytest.fixture(scope="module")
def shared_jobs(tmp_path_factory):
    return JobFolder(tmp_path_factory.mktemp("jobs"))
