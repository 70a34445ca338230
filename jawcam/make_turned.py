"""The whole way for one end of a turned part on the lathe, and for jaws that are bored to it."""

from __future__ import annotations

from dataclasses import replace
from functools import partial

from jawcam.hold.turn_target import TurnTarget
from jawcam.hold.turning import hold_turned
from jawcam.job.jaw_model import JawSetup
from jawcam.job.model import Job
from jawcam.job.turn_model import TurnSetup
from jawcam.made import Made
from jawcam.post.tables import Dialect
from jawcam.post.write import write
from jawcam.proof.turning.prove import prove_turning
from jawcam.reader.read import read
from jawcam.tolerance import Tolerance
from jawcam.turn.jaws import bored_work, boring_passes, jaw_lines
from jawcam.turn.plan import Planned, plan_turning
from jawcam.turn.work import TurnWork

__all__ = ["make_end", "turn_target"]


def make_end(job: Job, setup: TurnSetup | JawSetup, dialect: Dialect, tolerance: Tolerance) -> Made:
    """One end, or a chuck's jaws: held, planned, written, read back and proven. Raises
    InputError."""
    work, planned = _planned(job, setup, tolerance)
    target = replace(work.held.target, left=planned.left)
    text = write(planned.motions, dialect, units=job.units)
    program = read(text, dialect.control, f"{setup.name}.nc")
    report = prove_turning(program, target, machine=job.machine)
    notes = tuple(dict.fromkeys((*target.notes, *planned.notes)))
    word = dialect.work_offsets[setup.work_offset - 1]
    return Made(
        job, setup, target, setup.name, text, program, report, report.ok, dialect.name, word, notes
    )


def turn_target(job: Job, setup: TurnSetup | JawSetup) -> TurnTarget:
    """What must go and what must stay, for proving a program that came from elsewhere; what its
    own tools can't reach is worked out as for a program of our own."""
    work, planned = _planned(job, setup, Tolerance())
    return replace(work.held.target, left=planned.left)


def _planned(
    job: Job, setup: TurnSetup | JawSetup, tolerance: Tolerance
) -> tuple[TurnWork, Planned]:
    if isinstance(setup, JawSetup):
        work, bored = bored_work(job, setup, tolerance)
        passes = (partial(boring_passes, setup=setup, bored=bored),)
        return work, plan_turning(work, setup.name, passes, jaw_lines(work, setup))
    work = TurnWork(job, setup, hold_turned(job, setup, tolerance), tolerance)
    return work, plan_turning(work, setup.name)
