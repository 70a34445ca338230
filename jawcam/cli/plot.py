"""`jawcam plot`: draw any program."""

from __future__ import annotations

import gc
from collections.abc import Sequence
from pathlib import Path
from typing import Literal

import click

from jawcam.cli.options import program_and_its_job
from jawcam.errors import Fault, InputError

__all__ = ["command"]


@click.command("plot")
@program_and_its_job
@click.option(
    "--to",
    "ends",
    multiple=True,
    metavar="FILE|LINE",
    help="A .png, .svg or .pdf file; .gif or .apng, a moving picture. Or the last line to draw.",
)
@click.option("--from", "first", type=click.IntRange(min=1), metavar="LINE", help="The first one.")
@click.option(
    "--view",
    type=click.Choice(["plan", "oblique", "levels"]),
    default="plan",
    show_default=True,
    help="From above with a side view; obliquely; or the levels side by side.",
)
@click.option("--show", is_flag=True, help="Open a window to run through the program in.")
def command(
    program: Path,
    job: Path | None,
    setup: str | None,
    post: str | None,
    ends: tuple[str, ...],
    first: int | None,
    view: Literal["plan", "oblique", "levels"],
    *,
    show: bool,
    outside: bool,
) -> None:
    """Draw PROGRAM from above and from the side.

    With a job, its blanks, part and findings are drawn too, and what is left or gouged. Without
    --to FILE or --show the picture goes to a .png beside the program.
    """
    gc.disable()  # one short run that keeps nearly all it makes: collecting only costs time
    from jawcam.cli.drawing import draw
    from jawcam.show.stretch import Stretch

    files = [end for end in ends if not _is_line(end)]
    lines = [end for end in ends if _is_line(end)]
    named, last = _one(files, "the file"), _one(lines, "the last line to draw")
    file = Path(named) if named else None if show else program.with_suffix(".png")
    stretch = Stretch(first, int(last) if last else None)
    draw(program, job, setup, post, stretch, view, file, show=show, outside=outside)
    if file is not None:
        click.echo(f"wrote {file}")


def _is_line(end: str) -> bool:
    """Whether --to names a line of the program: no picture's name is a number alone."""
    return end.isascii() and end.isdigit() and int(end) > 0


def _one(ends: Sequence[str], what: str) -> str | None:
    """The only one, None without any. Raises InputError if there are several."""
    if len(ends) > 1:
        named = " and ".join(ends)
        raise InputError(Fault(f"--to names {what} twice: {named}", mend="leave one of them"))
    return ends[0] if ends else None
