"""Programs from disk, read as the right kind of control reads them."""

from __future__ import annotations

from pathlib import Path

from jawcam.errors import Fault, InputError, Place
from jawcam.job.load import load
from jawcam.job.model import Job, Setup
from jawcam.make import setups_named
from jawcam.post.dialect import Dialect
from jawcam.reader.cuts import Program
from jawcam.reader.read import read

__all__ = ["read_program", "setup_of"]


def read_program(path: Path, dialect: Dialect) -> Program:
    """Read a program file as the control reads it that `dialect` writes for. Raises InputError."""
    place = Place(file=str(path))
    try:
        text = path.read_bytes().decode("utf-8")
    except OSError as error:
        what = f"can't be read: {error.strerror or error}"
        raise InputError(Fault(what, place, "check the program's name and folder")) from error
    except UnicodeDecodeError as error:
        what = "this is not a text file (UTF-8)"
        raise InputError(Fault(what, place, "name a program as text")) from error
    return read(text, dialect.control, str(path))


def setup_of(job_path: Path, name: str | None, *, outside: bool) -> tuple[Job, Setup]:
    """The setup of a job that a program is for: the one named, or the only one."""
    job = load(job_path, shown=str(job_path), outside=outside)
    chosen = setups_named(job, (name,) if name else ())
    if len(chosen) > 1:
        names = ", ".join(setup.name for setup in chosen)
        what = f"the job has several setups: {names}"
        raise InputError(Fault(what, Place(file=job.file), "say which one with --setup NAME"))
    return job, chosen[0]
