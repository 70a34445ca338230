"""What a setup sheet is made from."""

from __future__ import annotations

from dataclasses import dataclass

from jawcam.hold.target import Target
from jawcam.hold.turn_target import TurnTarget
from jawcam.job.jaw_model import JawSetup
from jawcam.job.model import Job, Setup
from jawcam.job.turn_model import TurnSetup
from jawcam.proof.report import Report
from jawcam.reader.cuts import Program
from jawcam.show.plain_letters import can_write
from jawcam.units import Units

__all__ = ["Given", "number"]


def number(units: Units, length: float) -> str:
    """A length in mm -> a number in those units, as exact as all the sheet's lengths."""
    return units.number(length, 4 if units is Units.INCH else 3)


@dataclass(frozen=True)
class Given:
    """One setup and what became of it.

    file: what the program is called, without its ending; dialect: its post; proven: whether nothing
    in it must not run, its other stations included; offset_word: the control's word for the work
    offset, "" if unknown; notes: what was assumed; others: the targets of the other stations that
    the program serves, and what their proofs came to.
    """

    job: Job
    setup: Setup | TurnSetup | JawSetup
    target: Target | TurnTarget
    program: Program
    report: Report
    proven: bool
    file: str
    dialect: str
    offset_word: str = ""
    notes: tuple[str, ...] = ()
    others: tuple[tuple[Target | TurnTarget, Report], ...] = ()

    @property
    def plain(self) -> bool:
        """Whether the plain lettering has all the letters of what is to be said."""
        job, report, setup = self.job, self.report, self.setup
        said = (
            *(job.file, job.title, job.part.material, setup.name, self.file, *self.notes),
            *(self.dialect, self.offset_word, *(other.name for other, _ in self.others)),
            *(cutter.name for cutter in job.tools),
            *(turner.name for turner in job.turners),
            *(text for _, text in self.program.comments),
            *(f"{finding.what}{finding.mend}" for finding in report.findings),
        )
        jaws = "" if isinstance(setup, TurnSetup) else setup.jaws.material
        return can_write("".join((*said, jaws)))
