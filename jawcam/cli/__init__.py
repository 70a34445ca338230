"""The commands: one thin module each, imported only when it is asked for.

Exit status: 0 proven; 1 the proof found something; 2 the input is wrong; 3 a bug of jawcam's.
"""

from __future__ import annotations

import importlib
import pathlib
import sys
import traceback

import click

from jawcam import __version__
from jawcam.errors import InputError, InternalError

__all__ = ["COMMANDS", "main"]

COMMANDS = {
    "make": "programs, backplots and figures for every setup of a job, proven",
    "check": "prove any program, against a job or by itself",
    "plot": "draw any program",
    "outline": "tell what a drawing holds",
    "posts": "list the dialects, or lay one open",
    "new": "print a commented job file to start from",
}
"""Each command (the name of its module here) and its line in the list."""


REPORT = "\n    please report it, with the job file and the drawing"


class _Group(click.Group):
    """Finds commands by name without importing those that are not asked for."""

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002 (click's signature)
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:  # noqa: ARG002
        if cmd_name not in COMMANDS:
            return None
        command: click.Command = importlib.import_module(f"jawcam.cli.{cmd_name}").command
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:  # noqa: ARG002
        with formatter.section("Commands"):
            formatter.write_dl(list(COMMANDS.items()))


@click.group(cls=_Group, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="jawcam", message="%(prog)s %(version)s")
def group() -> None:
    """From a part to proven programs for the soft jaws that hold it."""


def main() -> None:
    """Run the command line; faults of the input are told, never traced back."""
    try:
        status = group(standalone_mode=False)
        sys.exit(status if isinstance(status, int) else 0)
    except InputError as error:
        for fault in error.faults:
            click.echo(f"error: {fault}", err=True)
        sys.exit(2)
    except InternalError as error:
        click.echo(f"bug: {error}{REPORT}", err=True)
        sys.exit(3)
    except click.ClickException as error:
        error.show()
        sys.exit(error.exit_code)
    except (click.exceptions.Abort, KeyboardInterrupt):
        click.echo("stopped", err=True)
        sys.exit(130)
    except Exception as error:  # noqa: BLE001 (status 1 would say that the proof found something)
        place = traceback.extract_tb(error.__traceback__)[-1]
        where = f"{pathlib.Path(place.filename).name}:{place.lineno}"
        click.echo(f"bug: {type(error).__name__} at {where}: {error}{REPORT}", err=True)
        sys.exit(3)
