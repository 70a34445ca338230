"""Programs from disk, read as the right kind of control reads them, and what they are for."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from jawcam.cli.options import DEFAULT_POST
from jawcam.errors import Fault, InputError, Place
from jawcam.hold.target import Target
from jawcam.hold.turn_target import TurnTarget
from jawcam.job.jaw_model import JawSetup
from jawcam.job.load import load
from jawcam.job.model import Job, Setup
from jawcam.job.turn_model import TurnSetup
from jawcam.make import dialect_of, setups_named, target_of
from jawcam.post.dialect import Dialect
from jawcam.post.dialect import load as load_dialect
from jawcam.progress import Told, silent
from jawcam.proof.prove import prove, refusals
from jawcam.proof.report import Report
from jawcam.proof.seated import prove_seated
from jawcam.reader.controls import CONTROLS
from jawcam.reader.cuts import Program
from jawcam.reader.read import read
from jawcam.units import Units

__all__ = ["Opened", "opened"]


@dataclass(frozen=True)
class Opened:
    """A program, read and judged; with the job and target that it is for, if one was given."""

    program: Program
    units: Units
    report: Report
    job: Job | None = None
    target: Target | TurnTarget | None = None


def opened(
    path: Path,
    job: Path | None,
    setup: str | None,
    post: str | None,
    *,
    outside: bool,
    seated: bool = False,
    told: Told = silent,
) -> Opened:
    """Read a program file and judge it: against the named setup of a job, or, without a job, by
    what its control would refuse. seated: whether it cuts the part in that setup's jaws; told:
    hears how far that is. Raises InputError."""
    if job is None and seated:
        what = "a part is seated in the jaws of a job's setup, and no job is given"
        raise InputError(Fault(what, mend="add --job JOB.toml, and --setup NAME of several"))
    if job is None:
        program = _read(path, load_dialect(post or DEFAULT_POST, controls=CONTROLS), told)
        return Opened(program, Units(program.units), refusals(program))
    owner, chosen = _setup_of(job, setup, outside=outside)
    program = _read(path, dialect_of(owner, chosen, post, outside=outside), told)
    target = target_of(owner, chosen)
    report = _judged(program, target, owner, told, seated=seated)
    return Opened(program, owner.units, report, owner, target)


def _judged(
    program: Program, target: Target | TurnTarget, job: Job, told: Told, *, seated: bool
) -> Report:
    """The proof of a program for one setup, of the mill or of the lathe; seated: of one that cuts
    the part in its jaws."""
    if isinstance(target, TurnTarget) and seated:
        what = f"no part is seated in the setup {target.name!r}: it is one of the lathe"
        mend = "leave --seated out, or name a setup that cuts vise jaws"
        raise InputError(Fault(what, Place(file=job.file), mend))
    if isinstance(target, TurnTarget):
        from jawcam.proof.turning.prove import prove_turning

        return prove_turning(program, target, machine=job.machine)
    others = {one.work_offset for one in job.setups if job.together} - {target.work_offset}
    if seated:
        return prove_seated(program, target, machine=job.machine, others=others, told=told)
    return prove(program, target, machine=job.machine, others=others, told=told)


def _read(path: Path, dialect: Dialect, told: Told) -> Program:
    place = Place(file=str(path))
    try:
        text = _text(path.read_bytes())
    except OSError as error:
        what = f"can't be read: {error.strerror or error}"
        raise InputError(Fault(what, place, "check the program's name and folder")) from error
    except UnicodeDecodeError as error:
        what = "this is not a text file"
        raise InputError(Fault(what, place, "name a program as text")) from error
    return read(text, dialect.control, str(path), told=told)


def _text(octets: bytes) -> str:
    """The text of a program: UTF-8, marked as such or not, else, as old editors at the machine
    write it, one octet a letter, read as ISO 8859-1. Raises UnicodeDecodeError where control
    characters stand in it that no line of text has."""
    try:
        return octets.decode("utf-8-sig")
    except UnicodeDecodeError:
        if set(octets) & (set(range(32)) - {9, 10, 11, 12, 13, 26}):
            raise
        return octets.decode("iso8859-1")


def _setup_of(
    job_path: Path, name: str | None, *, outside: bool
) -> tuple[Job, Setup | TurnSetup | JawSetup]:
    """The setup of a job that a program is for: the one named, or the only one."""
    job = load(job_path, shown=str(job_path), outside=outside)
    chosen = setups_named(job, (name,) if name else ())
    if len(chosen) > 1:
        names = ", ".join(setup.name for setup in chosen)
        what = f"the job has several setups: {names}"
        raise InputError(Fault(what, Place(file=job.file), "say which one with --setup NAME"))
    return job, chosen[0]
