"""Made jobs are shared by all the tests here: making one costs about a second."""

import functools

import pytest
from whole_cases import DRAWN
from whole_jobs import JOB, SAMPLES, job_with, make_all, make_one
from whole_told import said

JOBS = {"hexagon": job_with(("grip = 0.04", "grip = 0.02, side = 0.1"))}


@functools.cache
def _sample(name):
    return {whole.name: whole for whole in make_all(SAMPLES / f"{name}.toml")}


@pytest.fixture(scope="session")
def samples():
    """Calls for one sample job by its name; its setups by theirs."""
    return _sample


@pytest.fixture(scope="session")
def lever(samples):
    """The crank lever's first setup, which has all kinds of passes."""
    return samples("crank-lever")["side-one"]


@pytest.fixture(scope="session")
def drawn(tmp_path_factory):
    """Calls for the program of one of the drawings made up for these tests, by its name."""

    @functools.cache
    def make(name):
        draw, _ = DRAWN[name]
        folder = tmp_path_factory.mktemp(name.replace(" ", "-"))
        return make_one(folder, JOBS.get(name, JOB), draw())

    return make


@pytest.fixture(scope="session")
def say():
    """Runs the command line in this process: exit status, standard output, standard error."""
    return said


@pytest.fixture(scope="session")
def disc(drawn):
    """A disc of 16 mm: all its rings are full circles."""
    return drawn("washer")


@pytest.fixture(scope="session", params=["lever", "disc"])
def whole(request):
    """The sample with all kinds of passes, and the disc."""
    return request.getfixturevalue(request.param)
