"""`jawcam check`: prove any program."""

from __future__ import annotations

import gc
from pathlib import Path

import click

from jawcam.cli.options import DEFAULT_POST, program_and_its_job

__all__ = ["command"]


@click.command("check")
@program_and_its_job
@click.option(
    "--seated",
    is_flag=True,
    help="PROGRAM cuts the part while the setup's finished jaws hold it: judge it so.",
)
def command(
    program: Path,
    job: Path | None,
    setup: str | None,
    post: str | None,
    *,
    outside: bool,
    seated: bool,
) -> int:
    """Prove PROGRAM, whoever wrote it.

    With a job it is swept against what that job's setup must leave; without one, only what its
    control would refuse is told. With --seated it is one that cuts the part in these jaws: they,
    bolts and vise are obstacles to cutter, shank and holder, and the part is what is cut.
    """
    gc.disable()  # one short run that keeps nearly all it makes: collecting only costs time
    from jawcam.cli.programs import opened
    from jawcam.cli.progress import telling
    from jawcam.proof.words import say, tally

    with telling() as progress:
        judged = opened(program, job, setup, post, outside=outside, seated=seated, told=progress)
    told = say(judged.report, judged.units, str(program)).splitlines()
    if job is None:  # never let it seem that the cuts were looked at
        kind = f"read as {post or DEFAULT_POST}" + ("" if post else ", another kind with --post")
        outcome = f"no job given: only what the control would refuse was looked for ({kind})"
        told[-1] = (
            f"{program}: {outcome}; {'nothing' if judged.report.ok else 'there is something'}"
        )
    if seated:  # nor that the jaws themselves are proven by it
        told[-1] = f"{program}: with the part seated: {tally(judged.report)}"
    click.echo("\n".join(told))
    return 0 if judged.report.ok else 1
