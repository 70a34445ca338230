"""The proof of a lathe program: it and a target in, a report out."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from jawcam.hold.turn_target import TurnTarget
from jawcam.proof.limits import Limits, limits_for
from jawcam.proof.refused import faults_of
from jawcam.proof.report import Finding, Report
from jawcam.proof.telling import MOST, quoted, readable
from jawcam.proof.times import drive_of
from jawcam.proof.turning.ends import ends
from jawcam.proof.turning.figures import figures
from jawcam.proof.turning.gouge import bites, gouges
from jawcam.proof.turning.left_over import left_over
from jawcam.proof.turning.material import History, history
from jawcam.proof.turning.meetings import crashes, holders, rapids
from jawcam.proof.turning.parted import parted
from jawcam.proof.turning.scene import Scene, scene_of
from jawcam.proof.turning.state import state
from jawcam.proof.turning.threads import threads
from jawcam.proof.turning.travel import travel
from jawcam.reader.cuts import Program
from jawcam.tools.machine import Machine

__all__ = ["MATERIAL_CHECKS", "MOST", "MOVE_CHECKS", "prove_turning"]

MOVE_CHECKS: Sequence[tuple[str, Callable[[Scene], list[Finding]]]] = (
    ("ends", ends),
    ("state", state),
    ("crashes", crashes),
    ("threads", threads),
    ("travel", travel),
)
"""The checks of the moves alone, in the order of their findings."""

MATERIAL_CHECKS: Sequence[tuple[str, Callable[[Scene, History], list[Finding]]]] = (
    ("rapids", rapids),
    ("holders", holders),
    ("left over", left_over),
    ("parted", parted),
)
"""The checks of what the moves meet and leave, likewise."""


def prove_turning(
    program: Program,
    target: TurnTarget,
    *,
    limits: Limits | None = None,
    machine: Machine | None = None,
) -> Report:
    """Judge a lathe program by what its cuts leave of the stock.

    limits: None = those for the program's units; machine: what the job says of it, None =
    nothing. The X of a finding is a diameter, as lathe programs write it; amounts are distances in
    the half section, so on radius across, but for those beyond a travel, which are as it is told.
    Findings stand in the order of the checks, then of the program's lines.
    """
    machine = machine or Machine()
    program = replace(program, rapids=machine.rapids or program.rapids)  # the job knows best
    drive = drive_of(machine, target.units)
    limits = limits or limits_for(program.units)
    scene = scene_of(program, target, limits=limits, drive=drive, machine=machine)
    past, bitten = history(scene), bites(scene)
    groups = [faults_of(program)]
    groups += [check(scene) for _, check in MOVE_CHECKS]
    groups.append(gouges(scene, bitten))
    groups += [check(scene, past) for _, check in MATERIAL_CHECKS]
    found = [
        quoted(finding, program)
        for group in groups
        for finding in sorted(group, key=lambda finding: (finding.line, finding.column))
    ]
    return Report(readable(found, MOST), figures(scene, past, found, bitten))
