"""`jawcam outline`: what a drawing holds."""

from __future__ import annotations

from pathlib import Path

import click

from jawcam.cli.options import FILE

__all__ = ["command"]


@click.command("outline")
@click.argument("drawing", type=FILE)
@click.option("--layer", metavar="NAME", help="Only this layer.")
@click.option(
    "--units",
    type=click.Choice(["mm", "inch"]),
    help="What it is drawn in, for a drawing that does not say.",
)
def command(drawing: Path, layer: str | None, units: str | None) -> None:
    """Tell what DRAWING holds: its silhouette, its inner loops, its tightest corners."""
    from jawcam.part.describe import describe
    from jawcam.part.formats import read_drawing
    from jawcam.tolerance import Tolerance
    from jawcam.units import Units

    chosen = Units(units) if units else None
    outline = read_drawing(
        drawing, shown=str(drawing), layer=layer, units=chosen, tolerance=Tolerance()
    )
    for line in describe(outline):
        click.echo(line)
