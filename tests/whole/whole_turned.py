"""Jobs for the lathe, each made once in a dialect however many tests look at it."""

import tempfile
from functools import cache, partial
from pathlib import Path
from types import MappingProxyType

import pytest
from whole_jobs import SAMPLES

import jawcam.make
import jawcam.make_turned
from jawcam.turn.plan import plan_turning

POSTS = ("rs274ngc-lathe", "iso6983-lathe")
SPINDLE = (SAMPLES / "burr-spindle.toml").read_text(encoding="utf-8")


@cache
def made(text, post, setups=()):
    """The setups of a job in some dialect by their names, all of them or those named."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "job.toml"
        path.write_text(text, encoding="utf-8")
        return made_from(path, post, setups, job=text)


def made_from(path, post, setups=(), *, job=None):
    """The same of a job's file, which is not changed any more, or else another `job`."""
    with pytest.MonkeyPatch.context() as patch:
        planned = partial(_planned_once, job or str(path))
        patch.setattr(jawcam.make_turned, "plan_turning", planned)
        ends = jawcam.make.make(path, shown=path.name, post=post, setups=setups, outside=False)
    return MappingProxyType({one.setup.name: one for one in ends})


PLANS = {}
"""The plans of setups by the job's text, or its path, and their names."""


def _planned_once(job, work, name, *more):
    """A plan knows nothing of the dialect: it is made once for all of them."""
    if (job, name) not in PLANS:
        PLANS[job, name] = plan_turning(work, name, *more)
    return PLANS[job, name]


def stops(one):
    return [finding.what for finding in one.report.findings if finding.grade == "stop"]
