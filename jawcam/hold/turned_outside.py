"""The outside of a turned part, from its table or from the drawing of its half profile."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path as FilePath

from jawcam.errors import FaultList, Place
from jawcam.geometry.combine import difference
from jawcam.geometry.shapes import Arc, Line, Path, Point, Region, Segment, polygon
from jawcam.job.model import Job
from jawcam.job.places import place_in_setup, place_of
from jawcam.job.turn_model import TurnSetup
from jawcam.part.half_drawing import read_half_profile
from jawcam.part.piece import Piece
from jawcam.part.profile import half_profile
from jawcam.part.table import stretches
from jawcam.tolerance import Tolerance

__all__ = ["Outside", "outside_of"]

_NEAR = 1e-6  # mm; what arithmetic leaves between lengths that are meant to be the same
_WALL = 0.001  # mm; the least between a bore and the outside


@dataclass(frozen=True)
class Outside:
    """segments: from the rim of end A to that of end B as points (along, radius) in mm; length:
    along the axis; least: the least diameter, corners broken or not; pieces: those of the table,
    none of a drawing."""

    segments: tuple[Segment, ...]
    length: float
    least: float
    pieces: tuple[Piece, ...] = ()
    notes: tuple[str, ...] = ()


def outside_of(job: Job, setup: TurnSetup, tolerance: Tolerance) -> Outside:
    """The outside of the job's part as a setup is to turn it. Raises InputError."""
    part = job.part
    if part.profile is not None:
        outside = _drawn(job, setup, part.profile, tolerance)
        _check_bore(outside, job, tolerance)
        _check_lengths(outside.length, job, setup)
        return outside

    def where(key: str) -> Place:
        return place_of(job, f"part.{key}")

    pieces = _with_edges(part.turned, part.edge, setup)
    segments = half_profile(pieces, units=job.units, place=where)
    length = sum(piece.length for piece in pieces)
    least = min(min(piece.start, piece.end) for piece in pieces)
    return Outside(segments, length, least, pieces)


def _with_edges(pieces: Sequence[Piece], edge: float, setup: TurnSetup) -> tuple[Piece, ...]:
    """The pieces, their sharp edges broken by the job's default, and the one that is parted off
    by what is asked for that."""
    far = (-1 if setup.end == "A" else 0) % len(pieces)
    asked = [edge] * len(pieces)
    if setup.part_off is not None:
        asked[far] = setup.part_off.edge
    return tuple(
        piece if piece.chamfer or piece.rounding else replace(piece, chamfer=own)
        for piece, own in zip(pieces, asked, strict=True)
    )


# --- a drawing -----------------------------------------------------------------------------------


def _drawn(job: Job, setup: TurnSetup, file: FilePath, tolerance: Tolerance) -> Outside:
    part = job.part
    found = read_half_profile(
        file,
        shown=str(FilePath(job.file).parent / file.name),
        layer=part.layer,
        units=part.drawing_units,
        tolerance=tolerance,
        axis=part.axis,
        end_a=part.end_a,
    )
    notes = list(found.notes)
    if part.edge > 0:
        notes.append("part.edge breaks no edges of a half profile: they are cut as drawn")
    if setup.part_off is not None and setup.part_off.edge > 0:
        notes.append("part_off.edge breaks no edge of a half profile: it is cut as drawn")
    least = min(2 * _radius(segment) for segment in found.profile)
    return Outside(found.profile, found.length, least, (), tuple(notes))


def _radius(segment: Segment) -> float:
    """The radius that counts of a segment: where an arc dips between its ends the least, otherwise
    the greatest, as the ends of lines and rounds are broken corners."""
    _, low, _, high = Path((segment,)).box
    dips = isinstance(segment, Arc) and low < min(segment.start[1], segment.end[1]) - _NEAR
    return low if dips else high


def _check_bore(outside: Outside, job: Job, tolerance: Tolerance) -> None:
    """Raise InputError for a bore that is too long for the part or breaks out of it; of a table
    the job's own rules say so."""
    say, rows, faults = job.units.say, stretches(job.part.bore), FaultList()
    if not rows:
        return
    deep, place = rows[-1].end, place_of(job, "part.bore")
    if deep > outside.length + _NEAR:
        what = f"the bore is {say(deep)} long, and the part only {say(outside.length)}"
        faults.add(what, place, "make it shorter")
        faults.raise_if_any()
    segments = outside.segments
    (first, last), end = (segments[0].start, segments[-1].end), outside.length
    down = (Line(last, (end, 0.0)), Line((end, 0.0), (0.0, 0.0)), Line((0.0, 0.0), first))
    solid = Path((*segments, *(one for one in down if one.start != one.end)))
    bodies = [Region(solid if solid.area > 0 else solid.reversed())]
    for row in rows:
        corners: list[Point] = [
            (row.begin, 0.0),
            (min(row.end, end), 0.0),
            (min(row.end, end), row.last + _WALL),
            (row.begin, row.first + _WALL),
        ]
        if difference([Region(polygon(corners))], bodies, tolerance):
            place = place_of(job, f"part.bore[{row.number}]")
            faults.add("the bore is as wide as the part is there", place, "make it smaller")
    faults.raise_if_any()


def _check_lengths(length: float, job: Job, setup: TurnSetup) -> None:
    """Raise InputError for what a setup says of lengths that the drawing's doesn't allow; of a
    table the job's own rules say so."""
    if setup.part_off is not None:
        return
    say, faults = job.units.say, FaultList()
    if setup.chuck.grip > length - _NEAR:
        faults.add(
            f"the part is only {say(length)} long, and the chuck would hold all of it",
            place_in_setup(job, setup, "chuck.grip"),
            "hold less of it, or part it off a bar with part_off",
        )
    reaches = [one.reach for one in job.turnings if one.part_off is None]
    done = sum(reach for reach in reaches if reach is not None)
    if setup.reach is not None and setup.reach > length + _NEAR:
        faults.add(
            f"the part is only {say(length)} long",
            place_in_setup(job, setup, "reach"),
            "make it smaller, or leave it out",
        )
    elif None not in reaches and len(reaches) > 1 and done < length - _NEAR:
        faults.add(
            f"none of the setups turns {say(length - done)} of the part, which is {say(length)} "
            "long",
            place_in_setup(job, job.turnings[-1], "reach"),
            f"make all reaches together {say(length)} or more",
        )
    faults.raise_if_any()
