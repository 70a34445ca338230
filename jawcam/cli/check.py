"""`jawcam check`: prove any program."""

from __future__ import annotations

import gc
from pathlib import Path

import click

from jawcam.cli.options import DEFAULT_POST, program_and_its_job

__all__ = ["command"]


@click.command("check")
@program_and_its_job
def command(
    program: Path, job: Path | None, setup: str | None, post: str | None, *, outside: bool
) -> int:
    """Prove PROGRAM, whoever wrote it.

    With a job it is swept against what that job's setup must leave; without one, only what its
    control would refuse is told.
    """
    gc.disable()  # one short run that keeps nearly all it makes: collecting only costs time
    from jawcam.cli.programs import opened
    from jawcam.cli.progress import telling
    from jawcam.proof.words import say

    with telling() as progress:
        judged = opened(program, job, setup, post, outside=outside, told=progress)
    told = say(judged.report, judged.units, str(program)).splitlines()
    if job is None:  # never let it seem that the cuts were looked at
        kind = f"read as {post or DEFAULT_POST}" + ("" if post else ", another kind with --post")
        outcome = f"no job given: only what the control would refuse was looked for ({kind})"
        told[-1] = (
            f"{program}: {outcome}; {'nothing' if judged.report.ok else 'there is something'}"
        )
    click.echo("\n".join(told))
    return 0 if judged.report.ok else 1
