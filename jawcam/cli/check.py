"""`jawcam check`: prove any program."""

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


@click.command("check")
@click.argument("program", type=FILE)
@job_option()
@setup_option()
@post_option(f"Whose control reads it [default: the job's post, or {DEFAULT_POST}].")
@outside_option()
def command(
    program: Path, job: Path | None, setup: str | None, post: str | None, *, outside: bool
) -> int:
    """Prove PROGRAM, whoever wrote it.

    With a job it is swept against what that job's setup must leave; without one, only what its
    control would refuse is told.
    """
    from jawcam.cli.programs import read_program, setup_of
    from jawcam.make import dialect_of, target_of
    from jawcam.post.dialect import load
    from jawcam.proof.prove import prove, refusals
    from jawcam.proof.words import say
    from jawcam.units import Units

    if job is None:
        text = read_program(program, load(post or DEFAULT_POST))
        report = refusals(text)
        units = Units(text.units)
    else:
        owner, chosen = setup_of(job, setup, outside=outside)
        dialect = dialect_of(owner, chosen, post, outside=outside)
        text = read_program(program, dialect)
        report = prove(text, target_of(owner, chosen), rapid=owner.machine.rapid)
        units = owner.units
    told = say(report, units, str(program)).splitlines()
    if job is None:  # never let it seem that the cuts were looked at
        outcome = "no job given: only what the control would refuse was looked for"
        told[-1] = f"{program}: {outcome}; {'nothing' if report.ok else 'there is something'}"
    click.echo("\n".join(told))
    return 0 if report.ok else 1
