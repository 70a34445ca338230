"""`jawcam plot`: draw any program."""

from __future__ import annotations

from pathlib import Path

import click

from jawcam.cli.options import (
    DEFAULT_POST,
    FILE,
    job_option,
    outside_option,
    post_option,
    setup_option,
)

__all__ = ["command"]


@click.command("plot")
@click.argument("program", type=FILE)
@job_option()
@setup_option()
@post_option(f"Whose control reads it [default: the job's post, or {DEFAULT_POST}].")
@click.option("--to", type=FILE, metavar="FILE", help="A .png, .svg or .pdf file.")
@click.option("--show", is_flag=True, help="Open a window.")
@outside_option()
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
    from jawcam.cli.programs import read_program, setup_of
    from jawcam.deliver import deliver
    from jawcam.make import dialect_of, target_of
    from jawcam.post.dialect import load
    from jawcam.proof.prove import prove
    from jawcam.show.backplot import backplot
    from jawcam.show.save import check_ending, save
    from jawcam.show.window import show_window
    from jawcam.units import Units

    target_file = to or (None if show else program.with_suffix(".png"))
    if target_file is not None:
        check_ending(target_file)
    if job is None:
        text = read_program(program, load(post or DEFAULT_POST))
        figure = backplot(text, units=Units(text.units))
    else:
        owner, chosen = setup_of(job, setup, outside=outside)
        dialect = dialect_of(owner, chosen, post, outside=outside)
        text = read_program(program, dialect)
        target = target_of(owner, chosen)
        figure = backplot(
            text,
            target=target,
            report=prove(text, target, rapid=owner.machine.rapid),
            units=owner.units,
            rapid=owner.machine.rapid,
            cutters=owner.tools,
        )
    if target_file is not None:
        deliver(target_file.parent, {target_file.name: lambda path: save(figure, path)})
        click.echo(f"wrote {target_file}")
    if show:
        show_window(figure)
