"""The picture that belongs to a program: of the mill or of the lathe."""

from __future__ import annotations

from dataclasses import replace

from matplotlib.figure import Figure

from jawcam.errors import Fault, InputError, Place
from jawcam.hold.target import Target
from jawcam.hold.turn_target import TurnTarget
from jawcam.job.model import Job
from jawcam.proof.report import Report
from jawcam.reader.cuts import Program
from jawcam.show.amiss import amiss_of
from jawcam.show.backplot import ViewName, backplot, nothing_to_draw
from jawcam.show.picture import Picture, picture
from jawcam.show.run import Run
from jawcam.show.run_mill import mill_run
from jawcam.show.stretch import WHOLE, Stretch
from jawcam.show.style import drawing_style
from jawcam.show.turned_picture import TurnPicture, turned_picture
from jawcam.units import Units

__all__ = ["page_of", "picture_of", "run_of", "shown_of"]

RAPID_RATE = 10000.0
"""mm/min, where no job tells the machine's."""


def shown_of(
    program: Program, target: Target | TurnTarget | None, job: Job, stretch: Stretch = WHOLE
) -> Picture | TurnPicture:
    """Work out what is drawn of a program against what one of a job's setups must leave. Raises
    InputError if it makes no move, or none in the stretch of it that is wanted."""
    if not program.cuts:
        raise InputError(nothing_to_draw(program))
    if isinstance(target, TurnTarget):
        return turned_picture(program, target, job.units, stretch)
    return picture(program, target, job.units, job.tools, job.machine.rapid, stretch)


def picture_of(
    program: Program,
    target: Target | TurnTarget | None,
    report: Report,
    job: Job,
    shown: Picture | TurnPicture | None = None,
    view: ViewName = "plan",
) -> Figure:
    """Draw a program against what one of a job's setups must leave. shown: what is drawn, if it was
    worked out already. Raises InputError for another view than the plan of a lathe's program, of
    which there is the half section alone."""
    if isinstance(target, TurnTarget):
        if view != "plan":
            what = f"a lathe's program has no {view} view"
            mend = "leave --view out: its half section shows everything"
            raise InputError(Fault(what, Place(file=program.name), mend))
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
        view=view,
    )


def page_of(
    program: Program,
    target: Target | TurnTarget | None,
    report: Report,
    job: Job | None,
    units: Units,
    stretch: Stretch,
    view: ViewName,
) -> Figure:
    """A stretch of a program on a page, with the job that it is for, or without one. Raises
    InputError if there is nothing of it to draw."""
    if job is None:
        return backplot(program, units=units, stretch=stretch, view=view)
    return picture_of(program, target, report, job, shown_of(program, target, job, stretch), view)


def run_of(
    program: Program,
    target: Target | TurnTarget | None,
    report: Report,
    job: Job | None,
    units: Units,
    stretch: Stretch,
) -> Run:
    """The run through a stretch of a program, likewise."""
    if not program.cuts:
        raise InputError(nothing_to_draw(program))
    rapid = job.machine.rapid if job else RAPID_RATE
    with drawing_style():
        if job is None:
            return mill_run(picture(program, None, units, (), rapid, stretch), rapid)
        shown = shown_of(program, target, job, stretch)
        amiss = amiss_of(program, target, report, units)
        if isinstance(shown, TurnPicture):
            from jawcam.show.run_turned import turned_run

            return turned_run(replace(shown, amiss=amiss), rapid)
        return mill_run(replace(shown, amiss=amiss), rapid)
