"""The proof: a program and a target in, a report out."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from jawcam.hold.target import Target
from jawcam.progress import Told, silent
from jawcam.proof.blank import blank
from jawcam.proof.bolts import bolts
from jawcam.proof.depth import depth
from jawcam.proof.dogleg import dogleg
from jawcam.proof.drilled import drilled
from jawcam.proof.edge import edge
from jawcam.proof.ends import ends
from jawcam.proof.figures import figures
from jawcam.proof.gouge import gouges, unproven_cutters
from jawcam.proof.left_over import left_over
from jawcam.proof.limits import Limits, limits_for
from jawcam.proof.obstacles import obstacles
from jawcam.proof.plunges import plunges
from jawcam.proof.rapids import rapids
from jawcam.proof.reach import reach
from jawcam.proof.refused import faults_of, refused
from jawcam.proof.report import Finding, Report
from jawcam.proof.scene import Scene, scene_of
from jawcam.proof.shank import shanks
from jawcam.proof.state import state
from jawcam.proof.stations import stations
from jawcam.proof.telling import MOST, quoted, readable
from jawcam.proof.times import drive_of
from jawcam.proof.travel import travel
from jawcam.proof.unbroken import unbroken
from jawcam.proof.uneven import uneven
from jawcam.reader.cuts import Program
from jawcam.tools.machine import Machine

__all__ = ["CHECKS", "MOST", "prove", "refusals"]

CHECKS: Sequence[tuple[str, Callable[[Scene], list[Finding]]]] = (
    ("refused", refused),
    ("ends", ends),
    ("state", state),
    ("gouge", gouges),
    ("cutters", unproven_cutters),
    ("left over", left_over),
    ("depth", depth),
    ("rapids", rapids),
    ("dog-leg", dogleg),
    ("plunges", plunges),
    ("uneven", uneven),
    ("blank", blank),
    ("bolts", bolts),
    ("obstacles", obstacles),
    ("reach", reach),
    ("shanks", shanks),
    ("drilled", drilled),
    ("edge", edge),
    ("unbroken", unbroken),
    ("stations", stations),
    ("travel", travel),
)
"""Every check, in the order of its findings."""


def prove(
    program: Program,
    target: Target,
    *,
    limits: Limits | None = None,
    machine: Machine | None = None,
    others: Iterable[int] = (),
    told: Told = silent,
) -> Report:
    """Judge a program by what its cuts leave of the blanks.

    limits: None = those for the program's units and what the job wants kept; machine: what the
    job says of it, None = nothing; others: work offsets in the same program that other setups
    answer for; told: hears how far the proof is.

    Findings stand in the order of the checks, then of the program's lines; of more than
    `MOST` of one code the rest is counted.
    """
    limits = limits or limits_for(program.units, target.keep)
    drive = drive_of(machine or Machine(), target.units)
    scene = scene_of(
        program, target, limits=limits, drive=drive, others=others, machine=machine, told=told
    )
    found = [
        quoted(finding, program)
        for _, check in CHECKS
        for finding in sorted(check(scene), key=lambda finding: (finding.line, finding.column))
    ]
    return Report(readable(found, MOST), figures(scene, found))


def refusals(program: Program) -> Report:
    """What the control would refuse in a program, all that can be said without a target."""
    return Report(readable([quoted(finding, program) for finding in faults_of(program)], MOST))
