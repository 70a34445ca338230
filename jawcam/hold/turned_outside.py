"""The outside of a turned part, from its table or from the drawing of its half profile."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from jawcam.errors import FaultList, Place
from jawcam.geometry.shapes import Arc, Path, Segment
from jawcam.hold.half import drawn_half
from jawcam.hold.threaded import threaded
from jawcam.job.jaw_model import JawSetup
from jawcam.job.model import Job
from jawcam.job.places import place_in_setup, place_of
from jawcam.job.turn_model import TurnSetup
from jawcam.part.half import AS_DRAWN
from jawcam.part.half_bore import check_bore
from jawcam.part.half_drawing import HalfDrawing
from jawcam.part.piece import Piece
from jawcam.part.profile import half_profile
from jawcam.part.thread_form import ThreadForm
from jawcam.tolerance import Tolerance

__all__ = ["Outside", "outside_of"]

_NEAR = 1e-6  # mm; what arithmetic leaves between lengths that are meant to be the same


@dataclass(frozen=True)
class Outside:
    """segments: from the rim of end A to that of end B as points (along, radius) in mm; length:
    along the axis; least: the least diameter, corners broken or not; pieces: those of the table,
    none of a drawing; forms: of their threads."""

    segments: tuple[Segment, ...]
    length: float
    least: float
    pieces: tuple[Piece, ...] = ()
    notes: tuple[str, ...] = ()
    forms: tuple[ThreadForm | None, ...] = ()


def outside_of(job: Job, setup: TurnSetup | JawSetup, tolerance: Tolerance) -> Outside:
    """The outside of the job's part as a setup is to turn it, or as jaws are to be bored to it.
    Raises InputError."""

    def where(key: str) -> Place:
        return place_of(job, f"part.{key}")

    part = job.part
    drawn = drawn_half(job, tolerance)
    if drawn is not None:
        check_bore(drawn.profile, part.bore, units=job.units, place=where, tolerance=tolerance)
        if isinstance(setup, TurnSetup):
            _check_lengths(drawn.length, job, setup)
        return _as_drawn(drawn, job, setup)
    table = threaded(part.turned, inside=False, units=job.units, place=where)
    pieces = _with_edges(table.pieces, part.edge, setup)
    segments = half_profile(pieces, units=job.units, place=where)
    length = sum(piece.length for piece in pieces)
    least = min(min(piece.start, piece.end) for piece in pieces)
    return Outside(segments, length, least, pieces, forms=table.forms)


def _with_edges(
    pieces: Sequence[Piece], edge: float, setup: TurnSetup | JawSetup
) -> tuple[Piece, ...]:
    """The pieces, their sharp edges broken by the job's default, and the one that is parted off
    by what is asked for that."""
    asked = [edge] * len(pieces)
    if isinstance(setup, TurnSetup) and setup.part_off is not None:
        asked[(-1 if setup.end == "A" else 0) % len(pieces)] = setup.part_off.edge
    return tuple(
        piece if piece.chamfer or piece.rounding else replace(piece, chamfer=own)
        for piece, own in zip(pieces, asked, strict=True)
    )


def _as_drawn(found: HalfDrawing, job: Job, setup: TurnSetup | JawSetup) -> Outside:
    notes = [*found.notes, AS_DRAWN]
    if job.part.edge > 0:
        notes.append("part.edge breaks no edges of a half profile: they are cut as drawn")
    if isinstance(setup, TurnSetup) and setup.part_off is not None and setup.part_off.edge > 0:
        notes.append("part_off.edge breaks no edge of a half profile: it is cut as drawn")
    least = min(2 * _radius(segment) for segment in found.profile)
    return Outside(found.profile, found.length, least, (), tuple(notes))


def _radius(segment: Segment) -> float:
    """The radius that counts of a segment: where an arc dips between its ends the least, otherwise
    the greatest, as the ends of lines and rounds are broken corners."""
    _, low, _, high = Path((segment,)).box
    dips = isinstance(segment, Arc) and low < min(segment.start[1], segment.end[1]) - _NEAR
    return low if dips else high


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
