"""The whole way, from a job file to proven programs, in one readable function."""

from __future__ import annotations

import contextlib
from collections.abc import Iterator, Sequence
from dataclasses import replace
from pathlib import Path

from jawcam.errors import Fault, FaultList, InputError, Place
from jawcam.hold.jaws import hold
from jawcam.hold.solid import Drawn, drawn_part, solid_of
from jawcam.hold.target import Target
from jawcam.hold.turn_target import TurnTarget
from jawcam.job.jaw_model import JawSetup
from jawcam.job.load import load
from jawcam.job.model import Job, Setup
from jawcam.job.places import place_in_setup
from jawcam.job.turn_model import TurnSetup
from jawcam.made import Made
from jawcam.mill.beside import remarks
from jawcam.mill.chosen import choose
from jawcam.mill.corners import corner_words
from jawcam.mill.driven import pocketing
from jawcam.mill.plan import plan
from jawcam.mill.why import why
from jawcam.mill.work import Work
from jawcam.post.dialect import Dialect
from jawcam.post.dialect import load as load_dialect
from jawcam.post.write import write
from jawcam.progress import Told, silent
from jawcam.proof.prove import prove
from jawcam.quicker import as_asked, quicker
from jawcam.reader.controls import CONTROLS
from jawcam.reader.read import read
from jawcam.tolerance import Tolerance
from jawcam.tools.choose import corner_cutter
from jawcam.tools.reasons import Reasons

__all__ = ["Made", "dialect_of", "make", "setups_named", "target_of"]


def make(
    path: Path,
    *,
    shown: str,
    post: str | None,
    setups: Sequence[str],
    outside: bool,
    told: Told = silent,
) -> tuple[Made, ...]:
    """A job file -> its setups, made and proven; nothing is written to disk.

    shown: the path as the person typed it; post: a post to take instead of the job's; setups: the
    names wanted, none for all; outside: whether the drawing may lie outside the job's folder;
    told: hears how far the work is.
    Raises InputError with the faults of all the setups.
    """
    tolerance = Tolerance()
    job = load(path, shown=shown, outside=outside)
    drawn = drawn_part(job, tolerance)
    faults = FaultList()
    works: list[Work] = []
    made: list[Made] = []
    wanted = setups_named(job, setups)
    for setup in wanted:
        with _collected(faults):
            if isinstance(setup, TurnSetup | JawSetup):
                made.append(_turned(job, setup, post, tolerance, outside=outside))
            else:
                dialect = dialect_of(job, setup, post, outside=outside)
                works.append(_work(job, setup, drawn, tolerance, dialect))
    faults.raise_if_any()
    for name, stations in _programs(path.stem, job, works):
        with _collected(faults):
            made += _program(name, stations, post, told, outside=outside)
    faults.raise_if_any()
    names = [setup.name for setup in wanted]
    return tuple(sorted(made, key=lambda one: names.index(one.setup.name)))


@contextlib.contextmanager
def _collected(faults: FaultList) -> Iterator[None]:
    """Note the faults of an input, each once, and go on."""
    try:
        yield
    except InputError as error:
        faults.faults.extend(fault for fault in error.faults if fault not in faults.faults)


def _turned(
    job: Job, setup: TurnSetup | JawSetup, post: str | None, tolerance: Tolerance, *, outside: bool
) -> Made:
    """One end on the lathe, or a chuck's jaws."""
    from jawcam.make_turned import make_end  # a job for the mill alone starts without it

    return make_end(job, setup, dialect_of(job, setup, post, outside=outside), tolerance)


def _programs(stem: str, job: Job, works: Sequence[Work]) -> list[tuple[str, list[Work]]]:
    """What each program is called and the stations that it serves. One that serves some of a
    job's stations only is never called like the one that serves all."""
    if not job.together or len(works) == 1:
        return [(work.setup.name, [work]) for work in works]
    names = [work.setup.name for work in works]
    whole = len(works) == len(job.setups)
    return [(stem if whole else "-".join((stem, *names)), list(works))]


def _work(job: Job, setup: Setup, drawn: Drawn, tolerance: Tolerance, dialect: Dialect) -> Work:
    """One setup, held, and its cutters chosen; roughed the quicker way unless the job says how."""
    if setup.rough.way != "quickest":
        return as_asked(_held(job, setup, drawn, tolerance))
    rings, steady = (
        _held(job, replace(setup, rough=replace(setup.rough, way=way)), drawn, tolerance)
        for way in ("rings", "steady")
    )
    return quicker(rings, steady, dialect)


def _held(job: Job, setup: Setup, drawn: Drawn, tolerance: Tolerance) -> Work:
    """One setup, held, and its cutters chosen."""
    held = hold(job, setup, solid_of(job, setup, drawn, tolerance), tolerance)
    where = place_in_setup(job, setup)
    top = held.levels[0].pockets
    tallest = max(level.top - level.floor for level in held.levels)
    rough, finish = choose(
        job.tools,
        setup,
        job.machine,
        top,
        tolerance,
        units=job.units,
        where=lambda key: place_in_setup(job, setup, key),
        wall=tallest,
    )
    corner, depth = finish, setup.hold.depth + setup.hold.groove
    small = corner_cutter(job.tools, finish.cutter, depth)
    if small is not finish.cutter:
        corner = pocketing(small, setup, job.machine, units=job.units, wall=tallest, what="corners")
    levels = held.levels, held.as_cut
    return Work(job, setup, held.target, *levels, rough, finish, corner, tolerance, where)


def _program(
    name: str, works: Sequence[Work], post: str | None, told: Told, *, outside: bool
) -> list[Made]:
    """One program, planned, written, read back and proven for each of its stations."""
    job = works[0].job
    dialect = dialect_of(job, works[0].setup, post, outside=outside)
    _check_offsets(works, dialect)
    text = write(plan(works, name), dialect, units=job.units)
    program = read(text, dialect.control, f"{name}.nc", told=told)
    offsets = [work.target.work_offset for work in works]
    reports = [
        prove(program, work.target, machine=job.machine, others=set(offsets) - {own}, told=told)
        for work, own in zip(works, offsets, strict=True)
    ]
    proven = all(report.ok for report in reports)
    chosen = [why([work]) for work in works]
    return [
        Made(
            job,
            work.setup,
            work.target,
            name,
            text,
            program,
            report,
            proven,
            dialect.name,
            dialect.work_offsets[work.target.work_offset - 1],
            _notes(work, reasons),
            reasons,
        )
        for work, report, reasons in zip(works, reports, chosen, strict=True)
    ]


def _check_offsets(works: Sequence[Work], dialect: Dialect) -> None:
    """Raise InputError for work offsets that the dialect has no words for."""
    faults, words = FaultList(), dialect.work_offsets
    for work in works:
        number = work.target.work_offset
        if number > len(words):
            has = f"it has {len(words)}" if words else "it has none"
            what = f"{dialect.name} has no word for work offset {number}: {has}"
            place = place_in_setup(work.job, work.setup, "work_offset")
            faults.add(what, place, "choose another, or another post")
    faults.raise_if_any()


def _notes(work: Work, chosen: Sequence[Reasons]) -> tuple[str, ...]:
    tools = [line for reasons in chosen for line in reasons.lines]
    said = (*work.target.notes, *remarks(work), *tools, *corner_words(work))
    return tuple(dict.fromkeys(said))


def dialect_of(
    job: Job, setup: Setup | TurnSetup | JawSetup, post: str | None, *, outside: bool
) -> Dialect:
    """The post asked for, or else the job's own, which must lie in the job's folder unless
    `outside`. Raises InputError."""
    if post is not None:
        return load_dialect(post, controls=CONTROLS)
    folder = Path(job.file).parent
    inside = (folder / setup.post).resolve().is_relative_to(folder.resolve())
    if not inside and not outside:
        what = f"the post {setup.post!r} lies outside the job's own folder"
        mend = "put the post beside the job, or pass --outside if you mean it"
        raise InputError(Fault(what, place_in_setup(job, setup, "post"), mend))
    return load_dialect(setup.post, near=folder, controls=CONTROLS)


def target_of(job: Job, setup: Setup | TurnSetup | JawSetup) -> Target | TurnTarget:
    """What must go and what must stay, for proving a program that came from elsewhere."""
    if isinstance(setup, TurnSetup | JawSetup):
        from jawcam.make_turned import turn_target

        return turn_target(job, setup)
    tolerance = Tolerance()
    solid = solid_of(job, setup, drawn_part(job, tolerance), tolerance)
    return hold(job, setup, solid, tolerance).target


def setups_named(job: Job, names: Sequence[str]) -> tuple[Setup | TurnSetup | JawSetup, ...]:
    """The setups with the given names, all of them if none is given. Raises InputError."""
    both: tuple[Setup | TurnSetup | JawSetup, ...] = (*job.setups, *job.turnings, *job.jaw_borings)
    order = job.order or tuple(setup.name for setup in both)
    known = {one.name: one for one in sorted(both, key=lambda one: order.index(one.name))}
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
    return tuple(known[name] for name in dict.fromkeys(names or known))
