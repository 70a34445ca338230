"""The proof of a program that cuts the part while it is seated in the finished jaws.

The jaws with their pocket, shut on the part, are obstacles as bolts and vise are. The part is what
is cut: all that is in its silhouette from its underside up to its top, solid. Whether what is left
of it in the end is what it should be isn't judged, nor how it is gripped.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace

from jawcam.hold.target import Target
from jawcam.progress import Told, silent
from jawcam.proof.dogleg import dogleg
from jawcam.proof.ends import ends
from jawcam.proof.figures import spent
from jawcam.proof.limits import Limits, limits_for
from jawcam.proof.move import below, moves_of
from jawcam.proof.obstacles import obstacles
from jawcam.proof.plunges import plunges
from jawcam.proof.rapids import rapids
from jawcam.proof.reach import reach
from jawcam.proof.refused import refused
from jawcam.proof.report import Finding, Report
from jawcam.proof.scene import Scene
from jawcam.proof.shank import shanks
from jawcam.proof.shut import part_area, shut_blocks
from jawcam.proof.state import state
from jawcam.proof.stations import stations
from jawcam.proof.telling import MOST, quoted, readable
from jawcam.proof.times import Drive, drive_of
from jawcam.proof.travel import travel
from jawcam.proof.uneven import uneven
from jawcam.reader.cuts import Program
from jawcam.tools.machine import Machine

__all__ = ["OVER", "SEATED_CHECKS", "prove_seated", "seated_scene"]

OVER = 1.0
"""mm that tools stay above the part at least where they move freely (common practice, no source);
more where the job's clearance is higher."""

SEATED_CHECKS: Sequence[tuple[str, Callable[[Scene], list[Finding]]]] = (
    ("refused", refused),
    ("ends", ends),
    ("state", state),
    ("rapids", rapids),
    ("dog-leg", dogleg),
    ("plunges", plunges),
    ("uneven", uneven),
    ("obstacles", obstacles),
    ("reach", reach),
    ("shanks", shanks),
    ("stations", stations),
    ("travel", travel),
)
"""Every check, in the order of its findings."""


def prove_seated(
    program: Program,
    target: Target,
    *,
    machine: Machine | None = None,
    others: Iterable[int] = (),
    told: Told = silent,
) -> Report:
    """Judge a program by what its tools meet round a part that is seated in its target's jaws.

    machine, others, told: as for `prove`. Findings stand in the order of the checks, then of the
    program's lines, and their places count from the program's origin on the shut jaws.
    """
    machine = machine or Machine()
    limits = limits_for(program.units, target.keep)
    if target.seated.clear is not None:
        limits = replace(limits, jaw=target.seated.clear)
    scene = seated_scene(
        program,
        target,
        limits=limits,
        drive=drive_of(machine, target.units),
        others=others,
        machine=machine,
        told=told,
    )
    found = [
        quoted(finding, program)
        for _, check in SEATED_CHECKS
        for finding in sorted(check(scene), key=lambda finding: (finding.line, finding.column))
    ]
    return Report(readable(found, MOST), spent(scene))


def seated_scene(
    program: Program,
    target: Target,
    *,
    limits: Limits,
    drive: Drive,
    others: Iterable[int],
    machine: Machine,
    told: Told = silent,
) -> Scene:
    """Set a program to the part in the shut jaws: its top is that of what is cut, and what is
    drilled or broken in the jaws is done."""
    top = target.part_top
    clearance = max(target.clearance, top + OVER)
    held = replace(target, zero=target.seated.zero, facing=top, clearance=clearance)
    moves = moves_of(program, held)
    pieces = (below(move, top - limits.level) for move in moves)
    return Scene(
        program=program,
        target=held,
        limits=limits,
        others=frozenset(others),
        drive=drive,
        moves=moves,
        low=tuple(piece for piece in pieces if piece),
        solid=part_area(target),
        blocks=shut_blocks(target, limits),
        tiers=(),
        machine=machine,
        seated=True,
        told=told,
    )
