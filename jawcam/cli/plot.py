"""`jawcam plot`: draw any program."""

from __future__ import annotations

from pathlib import Path

import click

from jawcam.cli.options import FILE, program_and_its_job

__all__ = ["command"]


@click.command("plot")
@program_and_its_job
@click.option("--to", type=FILE, metavar="FILE", help="A .png, .svg or .pdf file.")
@click.option("--show", is_flag=True, help="Open a window.")
def command(
    program: Path,
    job: Path | None,
    setup: str | None,
    post: str | None,
    to: Path | None,
    *,
    show: bool,
    outside: bool,
) -> None:
    """Draw PROGRAM from above and from the side.

    With a job, its blanks, part and findings are drawn too. Without --to or --show the picture
    goes to a .png beside the program.
    """
    from jawcam.cli.programs import opened
    from jawcam.deliver import deliver
    from jawcam.show.backplot import backplot
    from jawcam.show.pictures import picture_of
    from jawcam.show.save import check_ending, save
    from jawcam.show.window import show_window

    target_file = to or (None if show else program.with_suffix(".png"))
    if target_file is not None:
        check_ending(target_file)
    drawn = opened(program, job, setup, post, outside=outside)
    figure = (
        backplot(drawn.program, units=drawn.units)
        if drawn.job is None
        else picture_of(drawn.program, drawn.target, drawn.report, drawn.job)
    )
    if target_file is not None:
        deliver(target_file.parent, {target_file.name: lambda path: save(figure, path)})
        click.echo(f"wrote {target_file}")
    if show:
        show_window(figure)
