"""A program on disk -> its picture: in a file, moving or not, or in a window."""

from __future__ import annotations

from pathlib import Path

from jawcam.cli.programs import opened
from jawcam.cli.progress import telling
from jawcam.deliver import deliver
from jawcam.show.backplot import ViewName
from jawcam.show.film import FILMS, film
from jawcam.show.pictures import page_of, run_of
from jawcam.show.run_window import show_run
from jawcam.show.save import check_ending, save
from jawcam.show.stretch import Stretch

__all__ = ["draw"]


def draw(
    program: Path,
    job: Path | None,
    setup: str | None,
    post: str | None,
    stretch: Stretch,
    view: ViewName,
    file: Path | None,
    *,
    show: bool,
    outside: bool,
) -> None:
    """Read a program, judge it, and draw a stretch of it into a file, or in a window. Raises
    InputError."""
    moving = file is not None and file.suffix.lower() in FILMS
    if file is not None and not moving:
        check_ending(file)
    with telling() as told:
        drawn = opened(program, job, setup, post, outside=outside, told=told)
    given = (drawn.program, drawn.target, drawn.report, drawn.job, drawn.units, stretch)
    if file is not None and not moving:
        figure = page_of(*given, view)
        deliver(file.parent, {file.name: lambda path: save(figure, path)})
    if moving or show:
        run = run_of(*given)
        if file is not None and moving:
            with telling() as told:
                deliver(file.parent, {file.name: lambda path: film(run, path, told=told)})
        if show:
            show_run(run)
