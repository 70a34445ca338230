"""Parting off: the part hangs on nothing, and its far face is where it should be."""

from __future__ import annotations

import shapely

from jawcam.proof.report import Finding
from jawcam.proof.turning.material import History
from jawcam.proof.turning.scene import Scene
from jawcam.proof.turning.section import both_halves

__all__ = ["parted"]


def parted(scene: Scene, past: History) -> list[Finding]:
    """A finding if the part still hangs on the bar, or if too much is left behind its face (too
    little is a gouge)."""
    face = scene.target.parted
    if face is None:
        return []
    rim = scene.limits.left / 2
    solid = shapely.buffer(both_halves(past.remaining), -rim)
    pieces = shapely.get_parts(solid)
    own = scene.section.finished.representative_point()
    piece = next((p for p in pieces if shapely.intersects(p, own)), None)
    if piece is None:
        return []
    back = float(piece.bounds[0]) - rim
    if back <= scene.target.limit + scene.limits.gouge:
        neck = _neck(piece, face, scene.target.limit)
        what = f"the part isn't parted off, a neck of {scene.say(neck)} diameter holds it"
        mend = "part it off as far as the axis, or the bore, and a corner radius beyond"
        at = (face, neck / 2)
        return [scene.find("T701", "stop", what, at=at, amount=neck, mend=mend)]
    if face - back > scene.limits.left:
        over = face - back
        what = f"parting off leaves {scene.say(over)} too much behind the part's face"
        mend = "check the Z of the parting pass and the width of the tool"
        return [scene.find("T702", "stop", what, at=(back, 0.0), amount=over, mend=mend)]
    return []


def _neck(piece: shapely.Geometry, face: float, limit: float) -> float:
    """The diameter of the thinnest section between the part and the bar."""
    sizes = []
    count = 200
    for k in range(1, count):
        z = face + (limit - face) * k / count
        slit = shapely.intersection(piece, shapely.LineString([(z, 0.0), (z, 1e4)]))
        sizes.append(0.0 if slit.is_empty else 2 * float(slit.bounds[3]))
    return max(min(sizes), 0.0)
