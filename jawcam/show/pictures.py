"""The picture that belongs to a program: of the mill or of the lathe."""

from __future__ import annotations

from matplotlib.figure import Figure

from jawcam.hold.target import Target
from jawcam.hold.turn_target import TurnTarget
from jawcam.job.model import Job
from jawcam.proof.report import Report
from jawcam.reader.cuts import Program
from jawcam.show.backplot import backplot

__all__ = ["picture_of"]


def picture_of(
    program: Program, target: Target | TurnTarget | None, report: Report, job: Job
) -> Figure:
    """Draw a program against what one of a job's setups must leave."""
    if isinstance(target, TurnTarget):
        from jawcam.show.turned_plot import turned_plot

        return turned_plot(
            program, target=target, report=report, units=job.units, rapid=job.machine.rapid
        )
    return backplot(
        program,
        target=target,
        report=report,
        units=job.units,
        rapid=job.machine.rapid,
        cutters=job.tools,
    )
