"""A job file's bytes -> its text -> its tables."""

from __future__ import annotations

import pathlib
import re
import tomllib

from jawcam.errors import Fault, InputError, Place
from jawcam.job.words import nearest, quoted

__all__ = ["read_tables", "read_text"]

_MOST_BYTES = 1_000_000
_TOLD = re.compile(r"(.*) \(at (?:line (\d+), column (\d+)|end of document)\)", re.DOTALL)


def read_text(path: pathlib.Path, shown: str) -> str:
    """Read a job file, whose name the person typed as `shown`. Raises InputError."""
    place = Place(shown)
    try:
        if path.is_dir():
            raise InputError(Fault("this is a folder", place, "name the job file in it"))
        if not path.is_file():
            raise InputError(Fault("there is no such file", place, _beside(path)))
        with path.open("rb") as file:
            data = file.read(_MOST_BYTES + 1)
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or "its name is none"
        raise InputError(Fault(f"this can't be read: {why.lower()}", place)) from error
    if len(data) > _MOST_BYTES:
        raise InputError(Fault("this is too long for a job file", place, "name the job file"))
    try:
        return data.decode("utf-8-sig").replace("\r\n", "\n")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        mend = "save the file as UTF-8"
        raise InputError(Fault("this is not UTF-8 text", Place(shown, line), mend)) from error


def read_tables(text: str, shown: str) -> dict[str, object]:
    """Parse TOML. Raises InputError with line and column."""
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        told = _TOLD.fullmatch(str(error))
        what, line, column = told.groups() if told else (str(error), None, None)
        place = Place(shown, int(line or text.rstrip().count("\n") + 1), int(column or 0))
        what = f"this is not TOML: {what[:1].lower()}{what[1:]}"
        fault = Fault(what, place, _mend(text, place, str(error)))
    except (ValueError, RecursionError):  # a number of thousands of digits, brackets without end
        fault = Fault("this is not TOML that can be read", Place(shown), "make it simpler")
    raise InputError(fault)


def _beside(path: pathlib.Path) -> str:
    """Name the job file meant, or those that are there."""
    try:
        jobs = sorted(one.name for one in path.parent.iterdir() if one.suffix == ".toml")
    except OSError:
        return "there is no such folder either"
    if not jobs:
        return "check its name and folder"
    return nearest(path.name, jobs, f"the job files there: {', '.join(jobs[:5])}")


def _mend(text: str, place: Place, told: str) -> str:
    """Guess how to mend a line that is no TOML, of which tomllib has `told`."""
    if told.startswith(("Cannot overwrite", "Cannot declare")):
        return "it is given twice: leave one of the two out"
    if not told.startswith(("Invalid value", "Expected newline")):
        return ""
    lines = text.split("\n")
    line = lines[place.line - 1] if place.line <= len(lines) else ""
    value = re.match(r"\s*[\w.-]+\s*=\s*(.*?)\s*(?:#.*)?$", line)
    if value and re.fullmatch(r"[0-9]+,[0-9]+", value[1]):
        return f"write decimals with a point: {value[1].replace(',', '.')}"
    if value and re.match(r"[A-Za-z0-9.]", value[1]) and '"' not in value[1]:
        return f"put texts and expressions in quotation marks: {quoted(value[1])}"
    return ""
