"""Where in a job's file the keys of its setups stand."""

from __future__ import annotations

from jawcam.errors import Place
from jawcam.job.jaw_model import JawSetup
from jawcam.job.model import Job, Setup
from jawcam.job.turn_model import TurnSetup
from jawcam.toml_places import KeyPath, Places, path_words, places

__all__ = ["KeyPath", "Places", "path_words", "place_in_setup", "place_of", "places"]


def place_of(job: Job, key: str) -> Place:
    """The place of a key path in words in the job's file; of the nearest table around it if it
    does not stand there.
    """
    lines = dict(job.lines)
    around = key
    while around and around not in lines:
        around = around[: max(around.rfind("."), around.rfind("["), 0)]
    return Place(job.file, lines.get(around, 0), key=key)


def place_in_setup(job: Job, setup: Setup | TurnSetup | JawSetup, key: str = "") -> Place:
    """The place in the job's file of a key path within a setup, such as ``hold.depth``."""
    every: tuple[Setup | TurnSetup | JawSetup, ...] = (
        *job.setups,
        *job.turnings,
        *job.jaw_borings,
    )
    names = job.order or tuple(one.name for one in every)
    number = 1 + names.index(setup.name)
    return place_of(job, f"setup[{number}].{key}".rstrip("."))
