"""How a program begins and ends: the first approach, the last retract, the end word."""

from __future__ import annotations

import math

from jawcam.proof.report import Finding, Grade
from jawcam.proof.scene import Scene
from jawcam.reader.cuts import Change, Cut

__all__ = ["ends"]


def ends(scene: Scene) -> list[Finding]:
    """What is wrong at the beginning and at the end."""
    return [*_beginning(scene), *_untold(scene), *_low_end(scene), *_end(scene)]


def _beginning(scene: Scene) -> list[Finding]:
    """First moves, of the program and of each further tool, that go across at whatever height the
    tool stands."""
    found = []
    for cut in _firsts(scene):
        before = [c.when for c in scene.own if c.when < cut.when]
        since = max(before, default=-1)
        raised = any("Z" in _axes(c) and since < c.when <= cut.when for c in scene.program.changes)
        if raised or (cut.end[2] != cut.start[2] and math.isfinite(cut.end[2])):
            continue
        which = f"the first move of T{cut.tool}" if before else "the first move"
        what = f"{which} goes across at whatever height the tool stands"
        mend = "raise the tool clear of everything before the start"
        if before:
            mend = "make sure that the tool change leaves Z at its top"
        found.append(scene.find("P112", "note", what, by=cut, mend=mend))
    return found


def _firsts(scene: Scene) -> list[Cut]:
    """The first move of the program and of every tool after a change."""
    marks = [0, *(c.when for c in scene.program.changes if c.kind == "tool")]
    firsts = [next((c for c in scene.own if c.when >= mark), None) for mark in marks]
    return list(dict.fromkeys(cut for cut in firsts if cut is not None))


def _untold(scene: Scene) -> list[Finding]:
    found = []
    for cut in scene.own:
        if all(math.isfinite(value) for value in cut.start):
            continue
        end = cut.end[2] + scene.target.zero[2]
        if cut.kind != "rapid":
            what = "a cut that starts where the program has not told"
            mend = "go to a known point above the jaws at rapid first"
            found.append(scene.find("P113", "stop", what, by=cut, mend=mend))
        elif scene.below_top(cut):
            what = f"the approach goes below {scene.rim} at rapid from a place not told"
            mend = "go to a point above the jaws first"
            found.append(scene.find("P114", "stop", what, by=cut, mend=mend))
        elif end < scene.target.clearance - scene.limits.level:
            what = (
                f"the approach ends {scene.say(end)} above the jaw top, lower than the clearance "
                f"of {scene.say(scene.target.clearance)}"
            )
            mend = "end it at the clearance"
            found.append(scene.find("P114", "warn", what, by=cut, mend=mend))
    return found


def _low_end(scene: Scene) -> list[Finding]:
    """The tool's height when the program ends, when the tool is changed and when it goes across
    in machine coordinates, which nothing here can place."""
    found: list[Finding] = []
    changes = [c for c in scene.program.changes if c.kind in ("machine", "tool", "end")]
    raised = 0
    for change in changes:
        cut = _last(scene, (change.when, change.column))
        low = cut is not None and raised < cut.when and _low(scene, cut)
        axes = _axes(change)
        raised = change.when if "Z" in axes else raised
        if cut is None or not low or (change.kind == "machine" and axes == "Z"):
            continue
        if change.kind == "machine":
            grade: Grade = "stop" if scene.below_top(cut) else "warn"
            what = "a move across in machine coordinates while the tool stands low"
            mend = "raise Z alone first"
            found.append(scene.find("P116", grade, what, by=change, mend=mend))
            continue
        when = "the program ends" if change.kind == "end" else "the tool is changed"
        what = f"{when} while the tool stands lower than the clearance"
        found.append(scene.find("P115", "warn", what, by=cut, mend="raise it clear first"))
    return found


def _axes(change: Change) -> str:
    """The axes that a change moves in machine coordinates; all of them if it names none."""
    if change.kind != "machine":
        return ""
    return "".join(axis for axis in "XYZ" if axis in change.value) or "XYZ"


def _last(scene: Scene, before: tuple[int, int]) -> Cut | None:
    """The last cut before a block that is run and a column of it, if it is this setup's."""
    cuts = [cut for cut in scene.program.cuts if (cut.when, cut.column) <= before]
    return cuts[-1] if cuts and cuts[-1].work_offset == scene.target.work_offset else None


def _low(scene: Scene, cut: Cut) -> bool:
    z = cut.end[2] + scene.target.zero[2]
    return math.isfinite(z) and z < scene.target.clearance - scene.limits.level


def _end(scene: Scene) -> list[Finding]:
    found = []
    if not scene.program.ended and not any(f.code == "R601" for f in scene.program.faults):
        what, mend = "the program doesn't end", "end it with M30"
        found.append(scene.find("P106", "stop", what, mend=mend))
    if _turns_on(scene):
        what = "the spindle still turns when the program ends"
        mend = "stop it with M5 before the end"
        found.append(scene.find("P107", "note", what, mend=mend))
    return found


def _turns_on(scene: Scene) -> bool:
    """Whether the last word on the spindle leaves it turning; a tool change stops it."""
    told = [c for c in scene.program.changes if c.kind in ("spindle", "tool")]
    if told:
        return told[-1].kind == "spindle" and told[-1].value.split()[:1] != ["off"]
    return any(cut.spindle != "off" for cut in scene.program.cuts[-1:])
