"""Reach: flutes as long as the cut is deep, and a holder that stays off the jaws.

So it is as long as the job doesn't tell the tool's shank, which is then taken to be as thick as the
cutter, or its holder, which is taken to be wider than anything. What it tells is `shank`'s affair,
and so are all shanks beside a seated part.
"""

from __future__ import annotations

from jawcam.proof.move import Move
from jawcam.proof.report import Finding
from jawcam.proof.scene import Scene

__all__ = ["reach"]


def reach(scene: Scene) -> list[Finding]:
    """Findings for each tool, by its deepest cut."""
    deepest: dict[int, Move] = {}
    top = scene.target.facing if scene.seated else 0.0
    for move in scene.low:
        if move.low >= top - scene.limits.level:
            continue
        known = deepest.get(move.cutter.number)
        if known is None or move.low < known.low:
            deepest[move.cutter.number] = move
    found = []
    for number, move in deepest.items():
        cutter, depth = move.cutter, top - move.low
        flutes = cutter.flute_len if cutter.shank is None and not scene.seated else None
        out = None if cutter.holder else cutter.stickout
        if flutes is not None and depth > flutes + scene.limits.level:
            what = (
                f"T{number} cuts {scene.say(depth)} deep with flutes of {scene.say(flutes)}; "
                "its shank rubs"
            )
            mend = "take a cutter with longer flutes"
            amount = depth - flutes
            found.append(scene.find("P801", "stop", what, by=move, amount=amount, mend=mend))
        need = scene.stick_outs[number]
        if out is not None and out < need - scene.limits.level:
            what = (
                f"T{number} stands out of its holder {scene.say(out)}, less than its depth and "
                f"the clearance, {scene.say(need)}"
            )
            mend = "let it stand out farther, or lower the clearance"
            amount = need - out
            found.append(scene.find("P802", "warn", what, by=move, amount=amount, mend=mend))
    return found
