"""How a lathe program begins and ends: each tool's first approach and last retract, the end word.

A tool stands clear when it, its holder among it, is off the stock and what is to be kept off by
the job's clearance.
"""

from __future__ import annotations

import math

import shapely

from jawcam.proof.report import Finding, Grade
from jawcam.proof.turning.scene import Scene
from jawcam.reader.cuts import Change, Cut

__all__ = ["ends"]

SPARE = 1e-3
"""mm that a tool may stand nearer than the clearance, for rounding."""


def ends(scene: Scene) -> list[Finding]:
    """What is wrong at the beginning and at the end."""
    return [*_untold(scene), *_approaches(scene), *_retracts(scene), *_end(scene)]


def _untold(scene: Scene) -> list[Finding]:
    """Cuts that start where the program has not told."""
    found = []
    for cut in scene.own:
        if cut.kind != "rapid" and not _told(cut.start):
            what = "a cut that starts where the program has not told"
            mend = "go to a known point clear of the work at rapid first"
            found.append(scene.find("T111", "stop", what, by=cut, mend=mend))
    return found


def _approaches(scene: Scene) -> list[Finding]:
    """Rapids from a place not told, which must end clear."""
    found = []
    for cut in scene.own:
        if cut.kind != "rapid" or _told(cut.start) or not _told(cut.end):
            continue
        gap = _gap(scene, cut)
        if gap is None or gap >= scene.target.clearance - SPARE:
            continue
        grade: Grade = "stop" if gap <= 0 else "warn"
        what = f"the approach of T{cut.tool} ends {scene.say(gap)} off the stock or the chuck"
        if gap <= 0:
            what = f"the approach of T{cut.tool} ends within the stock or the chuck"
        mend = f"end it {scene.say(scene.target.clearance)} clear of them"
        found.append(scene.find("T112", grade, what, by=cut, amount=gap, mend=mend))
    return found


def _retracts(scene: Scene) -> list[Finding]:
    """Where tools stand when they are changed, when the program ends, and when they go across in
    machine coordinates, which nothing here can place."""
    found: list[Finding] = []
    home = 0
    for change in scene.program.changes:
        if change.kind not in ("machine", "tool", "end"):
            continue
        cut = _last(scene, change)
        away, home = home, (change.when if change.kind == "machine" else home)
        if cut is None or away >= cut.when:
            continue
        gap = _gap(scene, cut)
        if gap is None or gap >= scene.target.clearance - SPARE:
            continue
        near = f"T{cut.tool} stands {scene.say(gap)} off the stock or the chuck"
        if change.kind == "machine":
            first = "Z" if _endwise(scene, cut.tool) else "X"
            if _axes(change) == first:
                continue
            what = f"a move in machine coordinates while {near}"
            mend = f"go clear in {first} alone first"
            found.append(scene.find("T119", "warn", what, by=change, mend=mend))
            continue
        when = "the program ends" if change.kind == "end" else "the tool is changed"
        mend = f"retract it {scene.say(scene.target.clearance)} or more clear first"
        found.append(scene.find("T109", "warn", f"{when} while {near}", by=cut, mend=mend))
    return found


def _end(scene: Scene) -> list[Finding]:
    found = []
    program = scene.program
    if not program.ended and not any(f.code == "R601" for f in program.faults):
        what = "the program doesn't end"
        found.append(scene.find("T107", "stop", what, mend="end it with M30"))
    told = [c for c in program.changes if c.kind in ("spindle", "tool")]
    on = any(cut.spindle != "off" for cut in program.cuts[-1:])
    if told and told[-1].kind == "spindle":
        on = told[-1].value.split()[:1] != ["off"]
    if on:
        what, mend = "the spindle still turns when the program ends", "stop it with M5 before"
        found.append(scene.find("T120", "note", what, mend=mend))
    return found


def _told(point: tuple[float, float, float]) -> bool:
    return math.isfinite(point[0]) and math.isfinite(point[2])


def _gap(scene: Scene, cut: Cut) -> float | None:
    """How far the tool is off the stock as chucked and what is to be kept off at the end of a cut;
    None where that can't be told, 0 if it is in them."""
    form = scene.forms.get(cut.tool)
    if form is None or not _told(cut.end):
        return None
    at = (cut.end[2], cut.end[0])
    around = shapely.union(scene.section.stock, scene.section.keep_off)
    gaps = []
    for corners in (form.outline, scene.holders[cut.tool].body):
        if corners is not None:
            shape = shapely.Polygon(corners + at)
            gaps.append(float(shapely.distance(shape, around)))
    return min(gaps)


def _endwise(scene: Scene, number: int) -> bool:
    """Whether a tool works from the free end, so that it must leave along Z."""
    return any(t.number == number and (t.inside or "drill" in t.kind) for t in scene.target.tools)


def _axes(change: Change) -> str:
    """The axes that a change moves in machine coordinates; all of them if it names none."""
    return "".join(axis for axis in "XZ" if axis in change.value) or "XZ"


def _last(scene: Scene, change: Change) -> Cut | None:
    """The last cut before a change, if it is this setup's."""
    place = (change.when, change.column)
    cuts = [cut for cut in scene.program.cuts if (cut.when, cut.column) <= place]
    return cuts[-1] if cuts and cuts[-1].work_offset == scene.target.work_offset else None
