"""The lathe's travel: every move stays within what the slide that carries the tools can go.

What the travel counts for is a point of that slide, and each tool's tip stands off it by what the
job tells of the tool. Where it tells that, and where the program's origin stands in the travel,
every move must stay within. Else the moves must at least not span more than the axis goes: those of
all tools whose tips are known together, those of any other tool by themselves. X counts as the
programs write it. Machine zero may lie anywhere in the travel, but no place in machine coordinates
is farther from it than the axis goes.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Iterator, Sequence
from typing import Literal, NamedTuple

from jawcam.proof.report import Finding
from jawcam.proof.turning.path import track
from jawcam.proof.turning.scene import Scene
from jawcam.reader.cuts import Change, Cut
from jawcam.units import Units

__all__ = ["travel"]

CHORD = 1e-4
"""mm that an arc may reach farther than it is taken to."""

_IN_MACHINE_AXES = re.compile(r"([XZ])\s*(-?[0-9.]+)")


class _Axis(NamedTuple):
    """An axis: its name, and in words; how far it goes; where the program's origin stands on it,
    None if that isn't told; the mm of a mm along it."""

    name: Literal["X", "Z"]
    words: str
    goes: float
    origin: float | None
    scale: float


class _Reach(NamedTuple):
    """How far a cut takes the slide along an axis, from where it is with a tip that doesn't stand
    off at the program's origin, or the tip alone if that isn't known."""

    low: float
    high: float
    cut: Cut


def travel(scene: Scene) -> list[Finding]:
    """Findings for moves beyond the travel, and for places that the machine can't have."""
    found = []
    for axis in _axes(scene):
        reaches = list(_reaches(scene, axis))
        tips = {tool.number: tool.tip for tool in scene.target.tools}
        known = [reach for reach in reaches if tips[reach.cut.tool] is not None]
        if axis.origin is not None:
            found += list(_beyond(scene, axis, known))
        else:
            found += list(_spans(scene, axis, known))
        for number in dict.fromkeys(r.cut.tool for r in reaches if tips[r.cut.tool] is None):
            found += list(_spans(scene, axis, [r for r in reaches if r.cut.tool == number]))
        found += [_afar(scene, axis, *far) for far in _far_places(scene, axis)]
    return found


def _axes(scene: Scene) -> Iterator[_Axis]:
    """Those whose travel is told."""
    goes, at = scene.machine.lathe_travel, scene.target.travel_at
    doubled = scene.program.x == "diameter"
    if goes.x is not None:
        words = "X, by diameter," if doubled else "X, by radius,"
        yield _Axis("X", words, goes.x, at.x, 2.0 if doubled else 1.0)
    if goes.z is not None:
        yield _Axis("Z", "Z", goes.z, at.z, 1.0)


def _reaches(scene: Scene, axis: _Axis) -> Iterator[_Reach]:
    """Of all cuts, as the control leads the tools; of those that can't be placed the ends that are
    told. Where a tool's first cut starts the slide stands already, by the tool before it."""
    which, column = ("XZ".index(axis.name), 1 if axis.name == "X" else 0)
    tips = {tool.number: (tool.tip or (0.0, 0.0))[which] for tool in scene.target.tools}
    placed = {move.number: track(move, CHORD)[:, column].tolist() for move in scene.moves}
    before = 0
    for number, cut in enumerate(scene.program.cuts):
        mine = cut.work_offset == scene.target.work_offset and cut.tool in tips
        first, before = cut.tool != before, cut.tool
        ends = [point[0 if axis.name == "X" else 2] for point in (cut.start, cut.end)]
        along = ends[1:] if first else placed.get(number, ends)
        values = [v * axis.scale - tips[cut.tool] for v in along if mine and math.isfinite(v)]
        if values:
            yield _Reach(min(values), max(values), cut)


def _beyond(scene: Scene, axis: _Axis, reaches: Sequence[_Reach]) -> Iterator[Finding]:
    """Moves beyond either end, by the one that goes farthest."""
    assert axis.origin is not None
    rows = [
        ("lower", [(-axis.origin - reach.low, reach.cut) for reach in reaches]),
        ("upper", [(axis.origin + reach.high - axis.goes, reach.cut) for reach in reaches]),
    ]
    for end, overs in rows:
        out = [(over, cut) for over, cut in overs if over > scene.limits.level]
        if not out:
            continue
        over, worst = max(out, key=lambda row: row[0])
        what = (
            f"{axis.words} goes {scene.say(over)} beyond the {end} end of its travel of "
            f"{scene.say(axis.goes)}{_at_change(scene, worst)}{_also(worst, (c for _, c in out))}"
        )
        mend = _MENDS[axis.name, end]
        yield scene.find("T801", "stop", what, by=worst, amount=over, mend=mend)


_MENDS = {
    ("X", "lower"): "let the tool reach farther towards the axis, or mount it nearer to it",
    ("X", "upper"): "retract less far in X, or change the tool nearer to the work",
    ("Z", "lower"): "let the work stand farther out of the chuck, or the tool out of its holder",
    ("Z", "upper"): "retract less far in Z, or change the tool nearer to the work",
}


def _spans(scene: Scene, axis: _Axis, reaches: Sequence[_Reach]) -> Iterator[Finding]:
    """Moves that span more than an axis goes, by the one that goes farthest out."""
    if not reaches:
        return
    low, high = min(reach.low for reach in reaches), max(reaches, key=lambda reach: reach.high)
    span = high.high - low
    if span - axis.goes > scene.limits.level:
        tools = ", ".join(f"T{n}" for n in dict.fromkeys(reach.cut.tool for reach in reaches))
        what = (
            f"the moves of {tools} span {scene.say(span)} in {axis.words.rstrip(',')}, which goes "
            f"{scene.say(axis.goes)}{_at_change(scene, high.cut)}"
        )
        mend = f"retract less far in {axis.name}, or take a lathe that goes farther"
        amount = span - axis.goes
        yield scene.find("T802", "stop", what, by=high.cut, amount=amount, mend=mend)


def _at_change(scene: Scene, cut: Cut) -> str:
    """That the tool is changed where a cut ends, if it is."""
    when = (cut.when, cut.column)
    nexts = [other for other in scene.program.cuts if (other.when, other.column) > when]
    until = (nexts[0].when, nexts[0].column) if nexts else (math.inf, 0)
    changes = (c for c in scene.program.changes if c.kind in ("tool", "machine"))
    before = [c for c in changes if when < (c.when, c.column) <= until]
    return ", where the tool is changed" if before[:1] and before[0].kind == "tool" else ""


def _also(first: Cut, cuts: Iterable[Cut]) -> str:
    lines = {cut.line for cut in cuts} - {first.line}
    if len(lines) == 1:
        return f"; so does line {lines.pop()}"
    return f"; so do {len(lines)} more lines" if lines else ""


def _far_places(scene: Scene, axis: _Axis) -> Iterator[tuple[Change, float]]:
    """Places in machine coordinates that are farther from machine zero than an axis goes."""
    unit = Units(scene.program.units)
    for change in scene.program.changes:
        if change.kind != "machine" or not change.value.startswith("G53"):
            continue
        for name, value in _IN_MACHINE_AXES.findall(change.value):
            if name == axis.name and abs(unit.to_mm(float(value))) > axis.goes:
                yield change, unit.to_mm(float(value))


def _afar(scene: Scene, axis: _Axis, change: Change, value: float) -> Finding:
    what = (
        f"{axis.words} is sent to {scene.say(value)} in machine coordinates, farther from machine "
        f"zero than it goes: {scene.say(axis.goes)}"
    )
    mend = "send it to a place within the travel"
    amount = abs(value) - axis.goes
    return scene.find("T803", "stop", what, by=change, amount=amount, mend=mend)
