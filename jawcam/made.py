"""What becomes of a setup: its program as text, as read back, and what the proof says of it."""

from __future__ import annotations

from dataclasses import dataclass

from jawcam.hold.target import Target
from jawcam.hold.turn_target import TurnTarget
from jawcam.job.jaw_model import JawSetup
from jawcam.job.model import Job, Setup
from jawcam.job.turn_model import TurnSetup
from jawcam.proof.report import Report
from jawcam.reader.cuts import Program
from jawcam.tools.reasons import Reasons

__all__ = ["Made"]


@dataclass(frozen=True)
class Made:
    """One setup, made: of the mill, or one end on the lathe, or a chuck's jaws. file: what the
    program is called, without its ending; the same for all setups that share one; proven: whether
    nothing in the program must not run, the other setups' share included; offset_word: the
    dialect's word for the setup's work offset; why: what was chosen for each tool of a mill's setup
    and why."""

    job: Job
    setup: Setup | TurnSetup | JawSetup
    target: Target | TurnTarget
    file: str
    text: str
    program: Program
    report: Report
    proven: bool
    dialect: str
    offset_word: str
    notes: tuple[str, ...]
    why: tuple[Reasons, ...] = ()
