"""The picture that belongs to a program: of the mill or of the lathe."""

from __future__ import annotations

from matplotlib.figure import Figure

from jawcam.errors import InputError
from jawcam.hold.target import Target
from jawcam.hold.turn_target import TurnTarget
from jawcam.job.model import Job
from jawcam.proof.report import Report
from jawcam.reader.cuts import Program
from jawcam.show.backplot import backplot, nothing_to_draw
from jawcam.show.picture import Picture, picture
from jawcam.show.turned_picture import TurnPicture, turned_picture

__all__ = ["picture_of", "shown_of"]


def shown_of(
    program: Program, target: Target | TurnTarget | None, job: Job
) -> Picture | TurnPicture:
    """Work out what is drawn of a program against what one of a job's setups must leave. Raises
    InputError if it makes no move."""
    if not program.cuts:
        raise InputError(nothing_to_draw(program))
    if isinstance(target, TurnTarget):
        return turned_picture(program, target, job.units)
    return picture(program, target, job.units, job.tools, job.machine.rapid)


def picture_of(
    program: Program,
    target: Target | TurnTarget | None,
    report: Report,
    job: Job,
    shown: Picture | TurnPicture | None = None,
) -> Figure:
    """Draw a program against what one of a job's setups must leave. shown: what is drawn, if it was
    worked out already."""
    if isinstance(target, TurnTarget):
        from jawcam.show.turned_plot import turned_plot

        return turned_plot(
            program,
            target=target,
            report=report,
            units=job.units,
            rapid=job.machine.rapid,
            picture=shown if isinstance(shown, TurnPicture) else None,
        )
    return backplot(
        program,
        target=target,
        report=report,
        units=job.units,
        rapid=job.machine.rapid,
        cutters=job.tools,
        shown=shown if isinstance(shown, Picture) else None,
    )
