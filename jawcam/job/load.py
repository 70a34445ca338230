"""A job file -> the frozen job, or everything that is wrong with it in one run."""

from __future__ import annotations

import pathlib
from collections.abc import Mapping

from jawcam.errors import FaultList, InputError
from jawcam.job.build import built_job
from jawcam.job.check import Checker, Values
from jawcam.job.drawing import find_drawing
from jawcam.job.forms import chosen
from jawcam.job.key import CHUCK_JAWS, TURNED
from jawcam.job.keys import JOB, SETUP
from jawcam.job.model import Job
from jawcam.job.names import name_values
from jawcam.job.places import places
from jawcam.job.read import read_tables, read_text
from jawcam.job.rules import broken_rules
from jawcam.job.single import Scope
from jawcam.job.words import WrongValueError
from jawcam.units import Units

__all__ = ["load"]


def load(path: pathlib.Path, *, shown: str | None = None, outside: bool = False) -> Job:
    """Load the job file at `path`.

    shown: its name as the person typed it; outside: whether the drawing may lie outside the job's
    folder. Raises InputError with every fault found, in the order of the file.
    """
    file = str(path) if shown is None else shown
    text = read_text(path, file)
    data = read_tables(text, file)
    where = places(file, text)
    faults = FaultList()
    units = Units.INCH if data.get("units") == Units.INCH.value else Units.MM
    let = data.get("let", {})
    let = let if isinstance(let, dict) else {}
    names = name_values(let, units)
    checker = Checker(where, faults, Scope(units, names.values, per_turn=_all_turned(data)))
    for name, error in names.faults:
        checker.note_wrong(error, let[name], ("let", name))
    values = checker.table(data, JOB, ())
    for at, what, mend in broken_rules(values, units):
        checker.note(what, at, mend)
    _find_drawing(values, path, checker, outside=outside)
    if faults.faults:
        raise InputError(sorted(faults.faults, key=lambda one: (one.place.line, one.place.column)))
    return built_job(values, file, units, where.lines())


def _all_turned(data: Mapping[str, object]) -> bool:
    """Tell whether all setups of a job are of the lathe, as far as they can be read."""
    setups = data.get("setup")
    return isinstance(setups, list) and all(
        isinstance(setup, dict) and chosen(SETUP, setup) in (TURNED, CHUCK_JAWS) for setup in setups
    )


def _find_drawing(values: Values, path: pathlib.Path, checker: Checker, *, outside: bool) -> None:
    """Put the drawing's path in place of its name, or note why it can't be."""
    part = values.get("part", {})
    for key in ("outline", "profile"):
        if part.get(key) is None:
            continue
        try:
            part[key] = find_drawing(path.parent, part[key], outside=outside)
        except WrongValueError as error:
            checker.note(error.what, ("part", key), error.mend)
