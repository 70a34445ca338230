"""Rapids through material, holders in it, tools that cut on their way back, and crashes into the
jaws, the chuck or the tailstock."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

import shapely

from jawcam.proof.report import Finding, Grade
from jawcam.proof.telling import MOST
from jawcam.proof.turning.material import History, Met, first_met, thick
from jawcam.proof.turning.passage import passage
from jawcam.proof.turning.path import Move
from jawcam.proof.turning.scene import Scene
from jawcam.proof.turning.sweep import Shapes

__all__ = ["crashes", "holders", "rapids"]


def rapids(scene: Scene, past: History) -> list[Finding]:
    """One finding for each rapid that meets uncut material, or might if it bends: the job or the
    kind of control may say that it does, or that it doesn't."""
    met = [one for one in past.met if one.move.kind == "rapid"]
    if scene.program.rapids == "straight":
        met = [one for one in met if one.what != "bends"]
    met.sort(key=lambda one: (one.move.cut.line, one.move.cut.column))
    seen: Counter[tuple[bool, Grade]] = Counter()
    found = []
    for one in met:
        kind = (one.what == "bends", _grade(one.move, one.what))
        seen[kind] += 1
        found.append(_rapid(scene, one, measured=seen[kind] <= MOST))
    return found


def _rapid(scene: Scene, met: Met, *, measured: bool) -> Finding:
    """measured: whether to say how deep it goes, as of all that are told one by one."""
    move, what, at = met.move, met.what, met.at
    name = f"T{move.tool.number}"
    if what == "bends":
        said = (
            f"this rapid of {name} is clear only if its axes move in step; where each runs on "
            "its own, the path bends into uncut material"
        )
        mend = "move one axis at a time"
        bent: Grade = "stop" if scene.program.rapids == "dog-leg" else "warn"
        return scene.find("T502", bent, said, by=move, at=at, mend=mend)
    part = {"holder": " with its holder", "block": " with its holder's block"}.get(what, "")
    said = f"{name} goes through uncut material at rapid{part}"
    mend, grade = "go clear of the work first, or feed", _grade(move, what)
    if not measured:
        return scene.find("T501", grade, said, by=move, at=at, mend=mend)
    through = passage(scene, met)
    depth, length = scene.say(through.depth), scene.say(round(through.length, 2))
    said = f"{said}, {depth} deep on radius and along {length} of the way"
    return scene.find("T501", grade, said, by=move, at=at, amount=through.depth, mend=mend)


def holders(scene: Scene, past: History) -> list[Finding]:
    """Holders in material while a tool feeds, and edges that cut on the way back; the first of each
    stretch of moves."""
    found: list[Finding] = []
    before: dict[str, int] = {}
    for met in past.met:
        move, what = met.move, met.what
        if move.kind == "rapid":
            continue
        follows = before.get(what, -2) >= move.number - 1
        before[what] = move.number
        if not follows:
            found.append(_held(scene, met))
    return found


def _held(scene: Scene, met: Met) -> Finding:
    move, what, at = met.move, met.what, met.at
    name = f"T{move.tool.number}"
    if what == "back":
        way = "away from" if move.tool.hand == "right" else "towards"
        said = f"{name}, a {move.tool.hand}-hand tool, cuts on its way {way} the chuck"
        mend = "cut the other way, or take a tool of the other hand"
        return scene.find("T603", "warn", said, by=move, at=at, mend=mend)
    part = "holder" if what == "holder" else "holder's block"
    said = f"the {part} of {name} runs into the work"
    mend = "take a tool that reaches farther, or cut away what is in its way first"
    return scene.find("T602", _grade(move, what), said, by=move, at=at, mend=mend)


def crashes(scene: Scene) -> list[Finding]:
    """The first of each stretch of moves that run into the jaws, the chuck or the tailstock."""
    keep_off = scene.section.keep_off
    if keep_off.is_empty:
        return []
    shapely.prepare(keep_off)
    kinds: Sequence[tuple[str, Shapes]] = (
        ("edge", scene.cutting),
        ("holder", scene.bodies),
        ("block", scene.blocks),
    )
    found, before = [], -2
    for i, move in enumerate(scene.moves):
        for what, shapes in kinds:
            shape = shapes[i]
            if shape is None or not shapely.intersects(keep_off, shape):
                continue
            met = shapely.intersection(keep_off, shape)
            if not thick(met, scene.limits.rapid):
                continue
            if before != i - 1:
                found.append(_crash(scene, move, what, met))
            before = i
            break
    return found


def _crash(scene: Scene, move: Move, what: str, met: shapely.Geometry) -> Finding:
    name = f"T{move.tool.number}"
    part = {"edge": name, "holder": f"the holder of {name}"}.get(what, f"the block of {name}")
    said = f"{part} runs into the jaws, the chuck or the tailstock"
    mend = "end this move farther off, hold less of the work, or take a slimmer tool"
    at = first_met(move, met)
    return scene.find("T601", _grade(move, what), said, by=move, at=at, mend=mend)


def _grade(move: Move, what: str) -> Grade:
    """How wide an outside tool's block is nobody tells, so it only warns."""
    return "warn" if what == "block" and not move.tool.inside else "stop"
