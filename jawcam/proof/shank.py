"""Shanks and holders: what of a tool is above its flutes meets neither the blanks nor what stands
beside them. Only what the job tells is followed; the rest is `reach`'s affair."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np
import shapely

from jawcam.proof.bodies import RUB, Block, Body, bodies_of, meeting, nearest
from jawcam.proof.move import Move
from jawcam.proof.needs import relieved
from jawcam.proof.report import Finding
from jawcam.proof.scene import Place, Scene
from jawcam.proof.standing import Met, first_met, rise
from jawcam.proof.sweep import path
from jawcam.tools.cutter import Cutter

__all__ = ["place_of", "shanks", "worst"]


def shanks(scene: Scene) -> list[Finding]:
    """One finding for each tool, each part of it and each thing that it meets."""
    found: list[Finding] = []
    for cutter in dict.fromkeys(move.cutter for move in scene.moves):
        own = [move for move in scene.moves if move.cutter == cutter]
        bodies = bodies_of(_told(scene, cutter))
        found += _thick_bite(scene, cutter)
        found += _shank(scene, own, [body for body in bodies if body.name == "shank"])
        found += _holder(scene, own, [body for body in bodies if body.name == "holder"])
    return found


def _told(scene: Scene, cutter: Cutter) -> Cutter:
    """A cutter with its shank. Where the job doesn't tell it is as thick as the cutter: in a pocket
    it is `reach` that judges it then, by the depth alone; round a part there is more room."""
    if scene.seated and cutter.shank is None:
        return replace(cutter, shank=cutter.dia)
    return cutter


def _thick_bite(scene: Scene, cutter: Cutter) -> Iterator[Finding]:
    """What a tool with a thin shank cuts deeper than its flutes are long, in one go: the shank
    passes, but the flutes leave standing what is above them."""
    if cutter.flute_len is None or not relieved(cutter):
        return
    bitten = scene.bitten
    rows = bitten.by(cutter.number)
    over = bitten.depth[rows] - cutter.flute_len
    deep = np.flatnonzero(over > scene.limits.level)
    if not len(deep):
        return
    row, most = int(rows[deep[0]]), float(over.max())
    what = (
        f"T{cutter.number} cuts {scene.say(cutter.flute_len + most)} deep in one go with flutes of "
        f"{scene.say(cutter.flute_len)}"
    )
    by, at, mend = bitten.move(row), bitten.place(row), "cut in more steps, or with longer flutes"
    yield scene.find("P801", "stop", what, by=by, at=at, amount=most, mend=mend)


def _shank(scene: Scene, own: Sequence[Move], shanks: Sequence[Body]) -> Iterator[Finding]:
    tool, level = f"T{own[0].cutter.number}", scene.limits.level
    mend = "take a cutter with longer flutes, or with a thinner shank"
    for body in shanks:
        wide = replace(body, radius=body.radius + RUB)
        met = first_met(scene.stock, own, wide, level)
        if met is not None:
            short = rise(scene.stock, own, wide.radius, level) - body.height
            what = (
                f"the shank of {tool} (dia {scene.say(2 * body.radius)}) rubs on {scene.stuff}: "
                f"its flutes are {scene.say(short)} too short"
            )
            at = place_of(met, body)
            yield scene.find("P803", "stop", what, by=met[0], at=at, amount=short, mend=mend)
    # one no thicker than the cutter hits no block that the cutter misses
    thick = [body for body in shanks if body.radius > own[0].radius]
    for left, block, body, by in worst(own, thick, scene.blocks):
        if left < 0:
            what = f"the shank of {tool} goes {scene.say(-left)} into {block.name}"
            at = meeting(by, body, block)
            yield scene.find("P803", "stop", what, by=by, at=at, amount=left, mend=mend)


def _holder(scene: Scene, own: Sequence[Move], steps: Sequence[Body]) -> Iterator[Finding]:
    """Where a holder hits something, and where it only comes too near."""
    cutter, keep, level = own[0].cutter, scene.limits.holder, scene.limits.level
    out = cutter.stickout
    if not steps or out is None or out >= (need := scene.stick_outs[cutter.number]) - level:
        return
    holder = f"the holder of T{cutter.number}"
    mend = f"let it stand out {scene.say(need)} at least, or take a slimmer holder"
    hit = _first(scene, own, steps, 0.0)
    if hit is not None:
        body, met = hit
        what = (
            f"{holder} (dia {scene.say(2 * body.radius)}) runs into {scene.stuff}: it stands out "
            f"{scene.say(need - out)} too little"
        )
        at, amount = place_of(met, body), need - out
        yield scene.find("P804", "stop", what, by=met[0], at=at, amount=amount, mend=mend)
    elif (close := _first(scene, own, steps, keep)) is not None:
        body, met = close
        what = f"{holder} passes {scene.stuff} by less than {scene.say(keep)}"
        at = place_of(met, body)
        yield scene.find("P805", "warn", what, by=met[0], at=at, amount=need - out, mend=mend)
    for left, block, body, by in worst(own, steps, scene.blocks):
        if left >= keep:
            continue
        at = meeting(by, body, block)
        if left < 0:
            what = f"{holder} goes {scene.say(-left)} into {block.name}"
            yield scene.find("P804", "stop", what, by=by, at=at, amount=left, mend=mend)
        else:
            what = f"{holder} passes {scene.say(left)} off {block.name}"
            yield scene.find("P805", "warn", what, by=by, at=at, amount=left, mend=mend)


def _first(
    scene: Scene, own: Sequence[Move], steps: Sequence[Body], keep: float
) -> tuple[Body, Met] | None:
    """The first move on which a step of a holder comes nearer to the blanks than `keep`."""
    found: list[tuple[Body, Met]] = []
    for body in steps:
        wide = replace(body, radius=body.radius + keep, height=body.height - keep)
        met = first_met(scene.stock, own, wide, scene.limits.level)
        if met is not None:
            found.append((body, met))
    return min(found, key=lambda one: one[1][0].index, default=None)


def worst(
    own: Sequence[Move], bodies: Sequence[Body], blocks: Sequence[Block]
) -> Iterator[tuple[float, Block, Body, Move]]:
    """For each thing, whose blocks have its name, the body that comes nearest on some moves, how
    near, to which block, and on which of them."""
    tracks = np.array([path(move) for move in own], dtype=object)
    for name in dict.fromkeys(block.name for block in blocks):
        rows = [
            (near.left, block, body, near.move)
            for block in blocks
            if block.name == name
            for body in bodies
            if (near := nearest(own, tracks, body, block)) is not None
        ]
        if rows:
            yield min(rows, key=lambda row: row[0])


def place_of(met: Met, body: Body) -> Place:
    """Where a body first meets something, as seen from the start of the move; at its underside."""
    move, area = met
    start = shapely.Point(move.start[:2])
    x, y = shapely.get_coordinates(shapely.shortest_line(area, start))[0]
    return float(x), float(y), move.low + body.height
