"""The job's part as a solid, from its drawing or its table."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

from jawcam.errors import Place
from jawcam.hold.half import drawn_half
from jawcam.job.model import Job, Setup
from jawcam.job.places import place_of
from jawcam.part.formats import read_drawing
from jawcam.part.half import HalfProfile, of_drawing, of_table
from jawcam.part.half_drawing import HalfDrawing
from jawcam.part.layers import Layered, layered, read_layers, upright
from jawcam.part.lying import lying
from jawcam.part.solid import Solid
from jawcam.part.turned import standing
from jawcam.tolerance import Tolerance

__all__ = ["Drawn", "drawn_part", "solid_of"]


@dataclass(frozen=True)
class Drawn:
    """What a job's drawing holds: outlines with the heights, in mm above the part's underside,
    that it fills each between, or a turned part's half profile; neither, if it has a table."""

    outlines: tuple[Layered, ...] = ()
    half: HalfDrawing | None = None


def drawn_part(job: Job, tolerance: Tolerance) -> Drawn:
    """Read the job's drawing, if it has one. Raises InputError with all that is wrong in it."""
    part = job.part
    if part.outline is None:
        return Drawn(half=drawn_half(job, tolerance))
    shown = str(Path(job.file).parent / part.outline.name)
    if part.layers:
        layers = read_layers(
            part.outline,
            [(one.layer, one.bottom, one.top) for one in part.layers],
            shown=shown,
            units=part.drawing_units,
            tolerance=tolerance,
        )
        return Drawn(layers)
    outline = read_drawing(
        part.outline,
        shown=shown,
        layer=part.layer,
        units=part.drawing_units,
        tolerance=tolerance,
    )
    return Drawn(((outline, 0.0, part.thickness),))


def solid_of(job: Job, setup: Setup, drawn: Drawn, tolerance: Tolerance) -> Solid:
    """The part as it is drawn or tabled, before it is laid into a setup's jaws. Raises
    InputError."""
    part, outlines = job.part, drawn.outlines
    if part.layers:
        return layered(outlines, units=job.units, place=_places(job), edge=part.edge)
    if outlines:
        return upright(outlines[0][0], part.thickness, edge=part.edge)
    half = _half_profile(job, drawn.half, tolerance)
    if setup.hold.lie:
        return lying(half)
    solid = standing(half, step=setup.fit.step, units=job.units)
    return replace(
        solid,
        broken_below=max(solid.broken_below, part.edge),
        broken_above=max(solid.broken_above, part.edge),
    )


def _half_profile(job: Job, drawn: HalfDrawing | None, tolerance: Tolerance) -> HalfProfile:
    """The part turned about its axis, whichever way it is told."""
    part, units, place = job.part, job.units, _places(job)
    if drawn is None:
        return of_table(part.turned, part.bore, units=units, place=place)
    return of_drawing(drawn, part.bore, units=units, place=place, tolerance=tolerance)


def _places(job: Job) -> Callable[[str], Place]:
    return lambda key: place_of(job, f"part.{key}")
