"""Options that several commands share."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import click

__all__ = ["DEFAULT_POST", "FILE", "outside_option", "post_option", "program_and_its_job"]

Function = Callable[..., Any]
Decorator = Callable[[Function], Function]

FILE = click.Path(path_type=Path)

DEFAULT_POST = "rs274ngc-mill"
"""How a program is read when neither a job nor the command line says."""


def post_option(text: str) -> Decorator:
    """Which post to take."""
    return click.option("--post", metavar="NAME|FILE.toml", help=text)


def outside_option() -> Decorator:
    """Whether a job may name files outside its folder."""
    text = "Let the job name a drawing or a post outside its own folder."
    return click.option("--outside", is_flag=True, help=text)


def program_and_its_job(function: Function) -> Function:
    """A program, and all that says what it is for: job, setup, post and outside."""
    reads = f"Whose control reads it [default: the job's post, or {DEFAULT_POST}]."
    for decorate in (
        outside_option(),
        post_option(reads),
        click.option("--setup", metavar="NAME", help="The setup it is for, of several."),
        click.option("--job", type=FILE, metavar="JOB.toml", help="The job it belongs to."),
        click.argument("program", type=FILE),
    ):
        function = decorate(function)
    return function
