"""The drawing of a job's half profile, for whatever turns the part or holds it."""

from __future__ import annotations

from pathlib import Path

from jawcam.job.model import Job
from jawcam.part.half_drawing import HalfDrawing, read_half_profile
from jawcam.tolerance import Tolerance

__all__ = ["drawn_half"]


def drawn_half(job: Job, tolerance: Tolerance) -> HalfDrawing | None:
    """Read the half profile that the job names; None if its part has none. Raises InputError with
    all that is wrong in it."""
    part = job.part
    if part.profile is None:
        return None
    return read_half_profile(
        part.profile,
        shown=str(Path(job.file).parent / part.profile.name),
        layer=part.layer,
        units=part.drawing_units,
        tolerance=tolerance,
        axis=part.axis,
        end_a=part.end_a,
    )
