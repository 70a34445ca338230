"""Stations: the tool rises clear before the program goes on to another work offset."""

from __future__ import annotations

import itertools
import math

from jawcam.proof.report import Finding, Grade
from jawcam.proof.scene import Scene
from jawcam.reader.cuts import Cut

__all__ = ["stations"]


def stations(scene: Scene) -> list[Finding]:
    """Each change from this setup's work offset to another while the tool stands low: nothing says
    what is between the stations, and heights count anew from there. The other way round is for the
    other setup's proof to say."""
    own, found = scene.target.work_offset, []
    for last, first in itertools.pairwise(scene.program.cuts):
        z = last.end[2] + scene.target.zero[2]
        known = all(math.isfinite(value) for value in last.end)
        if last.work_offset != own or first.work_offset == own or not known:
            continue
        if z >= scene.target.clearance - scene.limits.level or _raised(scene, last, first):
            continue
        below = z < scene.target.facing - scene.limits.level
        grade: Grade = "stop" if below else "warn"
        stands = f"{scene.say(-z)} below" if z < 0 else f"{scene.say(z)} above"
        what = (
            f"goes on to work offset {first.work_offset} while the tool stands {stands} the jaw "
            "top, lower than the clearance"
        )
        mend = "raise it clear before the change of work offset"
        zx, zy, zz = scene.target.zero
        at = (last.end[0] + zx, last.end[1] + zy, last.end[2] + zz)
        found.append(scene.find("P117", grade, what, by=first, at=at, mend=mend))
    return found


def _raised(scene: Scene, last: Cut, first: Cut) -> bool:
    """Whether Z goes up in machine coordinates, or the tool is changed, between two cuts."""
    return any(
        change.kind == "tool" or (change.kind == "machine" and "Z" in change.value)
        for change in scene.program.changes
        if (last.when, last.column) < (change.when, change.column) <= (first.when, first.column)
    )
