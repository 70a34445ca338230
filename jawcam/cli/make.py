"""`jawcam make`: a job file in, proven programs out."""

from __future__ import annotations

import gc
from pathlib import Path

import click

from jawcam.cli.options import FILE, outside_option, post_option

__all__ = ["command"]


@click.command("make")
@click.argument("job", type=FILE)
@click.option(
    "--out",
    type=click.Path(path_type=Path),
    default=Path("out"),
    show_default=True,
    help="The folder for the files.",
)
@post_option("The dialect to write instead of the job's own.")
@click.option("--setup", "setups", multiple=True, metavar="NAME", help="Only this setup.")
@outside_option()
def command(
    job: Path, out: Path, post: str | None, setups: tuple[str, ...], *, outside: bool
) -> int:
    """Make every setup of JOB.

    Each gets a proven program (NAME.nc), its backplot (NAME.png), a setup sheet to take to the
    machine (NAME.pdf) and the proof's figures (NAME.json); setups that share one program
    (together = true) get it under the job's own name. A program that fails its proof is not written
    as a .nc, and the exit status is 1.
    """
    gc.disable()  # one short run that keeps nearly all it makes: collecting only costs time
    from jawcam.cli.progress import telling
    from jawcam.make import make
    from jawcam.proof.words import granted_once, say

    with telling() as told:
        made = make(job, shown=str(job), post=post, setups=setups, outside=outside, told=told)
    from jawcam.cli.files import write_made  # matplotlib only now that something is drawn

    granted = granted_once([(f"{one.file}.nc", one.report) for one in made])
    for one, taken in zip(made, granted, strict=True):
        name = one.setup.name
        paths = write_made(one, out, [m for m in made if m.file == one.file and m is not one])
        for note in one.notes:
            click.echo(f"{name}: {note}")
        click.echo(say(one.report, one.job.units, f"{one.file}.nc", granted=taken))
        click.echo(f"{name}: wrote {', '.join(str(path) for path in paths)}")
    gc.freeze()  # nor is there anything to look for on the way out
    return 0 if all(one.report.ok for one in made) else 1
