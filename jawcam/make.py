"""The whole way, from a job file to proven programs, in one readable function."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from jawcam.errors import Fault, FaultList, InputError, Place
from jawcam.hold.jaws import hold
from jawcam.hold.target import Target
from jawcam.job.load import load
from jawcam.job.model import Job, Setup
from jawcam.job.places import place_in_setup
from jawcam.mill.chosen import choose
from jawcam.mill.plan import plan
from jawcam.mill.work import Work
from jawcam.part.formats import read_drawing
from jawcam.part.outline import Outline
from jawcam.post.dialect import Dialect
from jawcam.post.dialect import load as load_dialect
from jawcam.post.write import write
from jawcam.proof.prove import prove
from jawcam.proof.report import Report
from jawcam.reader.cuts import Program
from jawcam.reader.read import read
from jawcam.tolerance import Tolerance

__all__ = ["Made", "dialect_of", "make", "setups_named", "target_of"]


@dataclass(frozen=True)
class Made:
    """One setup, made: its program as text, as read back, and what the proof says of it."""

    job: Job
    setup: Setup
    target: Target
    text: str
    program: Program
    report: Report
    dialect: str
    notes: tuple[str, ...]


def make(
    path: Path, *, shown: str, post: str | None, setups: Sequence[str], outside: bool
) -> tuple[Made, ...]:
    """A job file -> its setups, made and proven; nothing is written to disk.

    shown: the path as the person typed it; post: a post to take instead of the job's; setups: the
    names wanted, none for all; outside: whether the drawing may lie outside the job's folder.
    Raises InputError with the faults of all the setups.
    """
    tolerance = Tolerance()
    job = load(path, shown=shown, outside=outside)
    outline = outline_of(job, tolerance)
    faults = FaultList()
    made = []
    for setup in setups_named(job, setups):
        try:
            made.append(make_setup(job, setup, outline, tolerance, post, outside=outside))
        except InputError as error:
            faults.faults.extend(error.faults)
    faults.raise_if_any()
    return tuple(made)


def make_setup(
    job: Job,
    setup: Setup,
    outline: Outline,
    tolerance: Tolerance,
    post: str | None,
    *,
    outside: bool,
) -> Made:
    """One setup, the whole way: hold, plan, write, read back, prove."""
    held = hold(job, setup, outline, tolerance)
    where = place_in_setup(job, setup)
    rough, finish = choose(
        job.tools, setup, job.machine, held.cavity, tolerance, units=job.units, place=where
    )
    work = Work(setup, held.target, held.cavity, rough, finish, tolerance, where)
    dialect = dialect_of(job, setup, post, outside=outside)
    text = write(plan(work), dialect, units=job.units, zero=held.target.zero)
    program = read(text, dialect.control, f"{setup.name}.nc")
    notes = tuple(dict.fromkeys((*held.target.notes, *rough.notes, *finish.notes)))
    report = prove(program, held.target, rapid=job.machine.rapid)
    return Made(job, setup, held.target, text, program, report, dialect.name, notes)


def dialect_of(job: Job, setup: Setup, post: str | None, *, outside: bool) -> Dialect:
    """The post asked for, or else the job's own, which must lie in the job's folder unless
    `outside`. Raises InputError."""
    if post is not None:
        return load_dialect(post)
    folder = Path(job.file).parent
    inside = (folder / setup.post).resolve().is_relative_to(folder.resolve())
    if not inside and not outside:
        what = f"the post {setup.post!r} lies outside the job's own folder"
        mend = "put the post beside the job, or pass --outside if you mean it"
        raise InputError(Fault(what, place_in_setup(job, setup, "post"), mend))
    return load_dialect(setup.post, near=folder)


def outline_of(job: Job, tolerance: Tolerance) -> Outline:
    """The job's drawing, read. Raises InputError with all that is wrong in it."""
    assert job.part.outline is not None
    return read_drawing(
        job.part.outline,
        shown=str(Path(job.file).parent / job.part.outline.name),
        layer=job.part.layer,
        units=job.part.drawing_units,
        tolerance=tolerance,
    )


def target_of(job: Job, setup: Setup) -> Target:
    """What must go and what must stay, for proving a program that came from elsewhere."""
    tolerance = Tolerance()
    return hold(job, setup, outline_of(job, tolerance), tolerance).target


def setups_named(job: Job, names: Sequence[str]) -> tuple[Setup, ...]:
    """The setups with the given names, all of them if none is given. Raises InputError."""
    known = {setup.name: setup for setup in job.setups}
    unknown = [name for name in names if name not in known]
    if unknown:
        raise InputError(
            Fault(
                f"there is no setup {name!r}",
                Place(job.file),
                f"its setups are: {', '.join(known)}",
            )
            for name in unknown
        )
    return tuple(known[name] for name in dict.fromkeys(names)) if names else job.setups
