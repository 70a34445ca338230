"""Findings as people read them: with the text of their lines, and no code without end."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from jawcam.proof.report import Finding, Grade
from jawcam.reader.cuts import Program

__all__ = ["MOST", "quoted", "readable"]

MOST = 10
"""So many findings of one code are told one by one."""

ONCE = ("P111", "P112", "T114")
"""Notes of which one says it all, told by the first place."""


def quoted(finding: Finding, program: Program) -> Finding:
    """A finding with the text of its line."""
    if 1 <= finding.line <= len(program.lines):
        return replace(finding, source=program.lines[finding.line - 1])
    return finding


def readable(found: Sequence[Finding], most: int) -> tuple[Finding, ...]:
    """The findings without those of a code and grade beyond `most`, which the last one kept
    counts. Notes are all kept, but for those that say the same each time."""
    counts = Counter((finding.code, finding.grade) for finding in found)
    seen: Counter[tuple[str, Grade]] = Counter()
    kept = []
    for finding in found:
        kind = (finding.code, finding.grade)
        seen[kind] += 1
        more = counts[kind] - most
        if finding.code in ONCE:
            others = counts[kind] - 1
            told = f"{finding.what} (and {others} more like this)" if others else finding.what
            kept += [replace(finding, what=told)] if seen[kind] == 1 else []
        elif finding.grade == "note" or seen[kind] < most or more <= 0:
            kept.append(finding)
        elif seen[kind] == most:
            kept.append(replace(finding, what=f"{finding.what} (and {more} more like this)"))
    return tuple(kept)
