"""The proof: a program and a target in, a report out."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace

from jawcam.hold.target import Target
from jawcam.proof.blank import blank
from jawcam.proof.bolts import bolts
from jawcam.proof.depth import depth
from jawcam.proof.drilled import drilled
from jawcam.proof.edge import edge
from jawcam.proof.ends import ends
from jawcam.proof.figures import figures
from jawcam.proof.gouge import gouges, unproven_cutters
from jawcam.proof.left_over import left_over
from jawcam.proof.limits import Limits, limits_for
from jawcam.proof.plunges import plunges
from jawcam.proof.rapids import rapids
from jawcam.proof.reach import reach
from jawcam.proof.refused import faults_of, refused
from jawcam.proof.report import Finding, Grade, Report
from jawcam.proof.scene import Scene, scene_of
from jawcam.proof.state import state
from jawcam.proof.stations import stations
from jawcam.proof.unbroken import unbroken
from jawcam.reader.cuts import Program

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
    ("plunges", plunges),
    ("blank", blank),
    ("bolts", bolts),
    ("reach", reach),
    ("drilled", drilled),
    ("edge", edge),
    ("unbroken", unbroken),
    ("stations", stations),
)
"""Every check, in the order of its findings."""

ONCE = ("P111", "P112")
"""Notes of which one says it all, told by the first place."""

MOST = 10
"""So many findings of one code are told one by one."""


def prove(
    program: Program,
    target: Target,
    *,
    limits: Limits | None = None,
    rapid: float = 10000.0,
    others: Iterable[int] = (),
) -> Report:
    """Judge a program by what its cuts leave of the blanks.

    limits: None = those for the program's units and what the job wants kept; rapid: the machine's
    rapid rate, mm/min; others: work offsets in the same program that other setups answer for.
    Findings stand in the order of the checks, then of the program's lines; of more than `MOST` of
    one code the rest is counted.
    """
    limits = limits or limits_for(program.units, target.keep)
    scene = scene_of(program, target, limits=limits, rapid=rapid, others=others)
    found = [
        _quoted(finding, program)
        for _, check in CHECKS
        for finding in sorted(check(scene), key=lambda finding: (finding.line, finding.column))
    ]
    return Report(_readable(found), figures(scene, found))


def refusals(program: Program) -> Report:
    """What the control would refuse in a program, all that can be said without a target."""
    return Report(_readable([_quoted(finding, program) for finding in faults_of(program)]))


def _readable(found: Sequence[Finding]) -> tuple[Finding, ...]:
    """The findings without those of a code and grade beyond `MOST`, which the last one kept
    counts. Notes are all kept."""
    counts = Counter((finding.code, finding.grade) for finding in found)
    seen: Counter[tuple[str, Grade]] = Counter()
    kept = []
    for finding in found:
        kind = (finding.code, finding.grade)
        seen[kind] += 1
        more = counts[kind] - MOST
        if finding.code in ONCE:
            others = counts[kind] - 1
            if seen[kind] == 1:
                told = f"{finding.what} (and {others} more like this)" if others else finding.what
                kept.append(replace(finding, what=told))
        elif finding.grade == "note" or seen[kind] < MOST or more <= 0:
            kept.append(finding)
        elif seen[kind] == MOST:
            kept.append(replace(finding, what=f"{finding.what} (and {more} more like this)"))
    return tuple(kept)


def _quoted(finding: Finding, program: Program) -> Finding:
    """A finding with the text of its line."""
    if 1 <= finding.line <= len(program.lines):
        return replace(finding, source=program.lines[finding.line - 1])
    return finding
