"""`jawcam posts`: the dialects."""

from __future__ import annotations

import click

__all__ = ["command"]


@click.command("posts")
@click.argument("name", required=False)
def command(name: str | None) -> None:
    """List the posts, one line each, or print the file of post NAME to start one's own from.

    Save what it prints as MINE.toml, change what your control wants otherwise, and name it by
    --post MINE.toml or in the job: post = "MINE.toml".
    """
    from jawcam.post.dialect import load, names, text_of

    if name is None:
        width = max(map(len, names()))
        for known in names():
            click.echo(f"{known:{width}}  {load(known).title}")
    else:
        click.echo(text_of(name), nl=False)
