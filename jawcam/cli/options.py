"""Options that several commands share."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import click

__all__ = ["DEFAULT_POST", "FILE", "job_option", "outside_option", "post_option", "setup_option"]

Decorator = Callable[[Callable[..., Any]], Callable[..., Any]]

FILE = click.Path(path_type=Path)

DEFAULT_POST = "rs274ngc-mill"
"""How a program is read when neither a job nor the command line says."""


def post_option(text: str) -> Decorator:
    """Which post to take."""
    return click.option("--post", metavar="NAME|FILE.toml", help=text)


def job_option() -> Decorator:
    """The job that a program belongs to."""
    return click.option("--job", type=FILE, metavar="JOB.toml", help="The job it belongs to.")


def setup_option() -> Decorator:
    """The setup that a program belongs to."""
    return click.option(
        "--setup", metavar="NAME", help="The setup it is for, if there are several."
    )


def outside_option() -> Decorator:
    """Whether a job may name files outside its folder."""
    return click.option(
        "--outside",
        is_flag=True,
        help="Let the job name a drawing or a post outside its own folder.",
    )
