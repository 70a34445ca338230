"""`jawcam new`: a job file to start from."""

from __future__ import annotations

import click

__all__ = ["command"]


@click.command("new")
@click.argument("kind", type=click.Choice(["jaws", "turned", "lathe"]))
def command(kind: str) -> None:
    """Print a commented job file of KIND to start from."""
    from jawcam.job.template import template

    click.echo(template(kind), nl=False)
