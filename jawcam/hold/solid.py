"""The job's part as a solid, from its drawing or its table."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from jawcam.errors import Place
from jawcam.job.model import Job, Setup
from jawcam.job.places import place_of
from jawcam.part.formats import read_drawing
from jawcam.part.layers import layered, read_layers, upright
from jawcam.part.lying import lying
from jawcam.part.outline import Outline
from jawcam.part.solid import Solid
from jawcam.part.turned import standing
from jawcam.tolerance import Tolerance

__all__ = ["Drawn", "drawn_part", "solid_of"]

Drawn = tuple[tuple[Outline, float, float], ...]
"""A part's outlines with the heights, in mm above its underside, that it fills each between; none
of a turned part."""


def drawn_part(job: Job, tolerance: Tolerance) -> Drawn:
    """Read the job's drawing, if it has one. Raises InputError with all that is wrong in it."""
    part = job.part
    if part.outline is None:
        return ()
    shown = str(Path(job.file).parent / part.outline.name)
    if part.layers:
        return read_layers(
            part.outline,
            [(one.layer, one.bottom, one.top) for one in part.layers],
            shown=shown,
            units=part.drawing_units,
            tolerance=tolerance,
        )
    outline = read_drawing(
        part.outline,
        shown=shown,
        layer=part.layer,
        units=part.drawing_units,
        tolerance=tolerance,
    )
    return ((outline, 0.0, part.thickness),)


def solid_of(job: Job, setup: Setup, drawn: Drawn) -> Solid:
    """The part as it is drawn or tabled, before it is laid into a setup's jaws. Raises
    InputError."""

    def where(key: str) -> Place:
        return place_of(job, f"part.{key}")

    part = job.part
    if part.layers:
        return layered(drawn, units=job.units, place=where, edge=part.edge)
    if drawn:
        return upright(drawn[0][0], part.thickness, edge=part.edge)
    if setup.hold.lie:
        return lying(part.turned, part.bore, units=job.units, place=where)
    solid = standing(part.turned, part.bore, step=setup.fit.step, units=job.units, place=where)
    return replace(
        solid,
        broken_below=max(solid.broken_below, part.edge),
        broken_above=max(solid.broken_above, part.edge),
    )
