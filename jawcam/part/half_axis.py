"""The axis of a half profile in a drawing: told, drawn as a centre line, or an edge of a loop."""

from __future__ import annotations

import math
import pathlib
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from jawcam.errors import Fault, FaultList, InputError, Place
from jawcam.geometry.shapes import Arc, Line, Path, Point, Segment
from jawcam.geometry.tidy import tidied
from jawcam.part.blocks import Hidden, unfolded
from jawcam.part.dxf import read_dxf
from jawcam.part.entities import READERS, CantReadError, Entity, Scale
from jawcam.part.join import join
from jawcam.part.outline import Drawing
from jawcam.tolerance import Tolerance
from jawcam.units import Units

__all__ = ["ON_X", "Axis", "edge_axis", "framed", "told_axis"]

ON_X = "y = 0"
"""What the axis is called if it is the drawing's own X axis."""

_CHAIN_LINES = ("center", "centre", "dashdot")
"""What the line types of centre lines are called, in lower case (common practice, no source)."""


@dataclass(frozen=True)
class Axis:
    """A line: a point of it and its unit direction, towards larger x (or, upright, larger y)."""

    point: Point
    way: Point

    @staticmethod
    def along(line: Line) -> Axis:
        """The axis that runs along a drawn line."""
        start, end = sorted((line.start, line.end))
        size = math.dist(start, end)
        return Axis(start, ((end[0] - start[0]) / size, (end[1] - start[1]) / size))

    def seen(self, p: Point) -> Point:
        """A point of the drawing as its way along the axis and its height to the left of it."""
        dx, dy = p[0] - self.point[0], p[1] - self.point[1]
        ux, uy = self.way
        return dx * ux + dy * uy, dy * ux - dx * uy


def framed(path: Path, axis: Axis) -> Path:
    """A path of the drawing in the coordinates of an axis."""
    seen = axis.seen
    return Path(
        tuple(
            Arc(seen(s.start), seen(s.end), seen(s.centre), s.ccw)
            if isinstance(s, Arc)
            else Line(seen(s.start), seen(s.end))
            for s in path.segments
        )
    )


def told_axis(
    drawing: Drawing,
    path: pathlib.Path,
    *,
    layer: str | None,
    axis: str | None,
    units: Units | None,
    tolerance: Tolerance,
) -> tuple[Axis | None, tuple[Path, ...]]:
    """The axis that is told or drawn by itself, None if there is none; and the drawing's pieces
    without it.

    axis: ``y = 0``, or the name of the layer that holds one straight line; None: a straight line
    with the line type of a centre line, else one that has a layer to itself. Raises InputError
    when the layer holds something else or the centre lines don't agree.
    """
    if axis is not None and axis.replace(" ", "") == ON_X.replace(" ", ""):
        return Axis((0.0, 0.0), (1.0, 0.0)), drawing.pieces
    if axis is not None:
        own = read_dxf(path, shown=drawing.source, layer=axis, units=units, tolerance=tolerance)
        rest = tuple(piece for piece in drawing.pieces if piece not in own.pieces)
        return _one_line(own.pieces, drawing, tolerance, f"layer {axis!r}"), rest
    kinds = _kinds(path, drawing, layer, tolerance)
    counts = Counter(name for name, _ in kinds)
    pairs = list(zip(drawing.pieces, kinds, strict=True)) if kinds else []
    chain = [p for p, (_, centre) in pairs if centre and _straight(p)]
    alone = [p for p, (name, _) in pairs if len(counts) > 1 and counts[name] == 1 and _straight(p)]
    lines = chain or alone
    if not lines:
        return None, drawing.pieces
    rest = tuple(piece for piece in drawing.pieces if piece not in lines)
    return _one_line(lines, drawing, tolerance, "the drawing"), rest


def edge_axis(
    loop: Path, drawing: Drawing, fits: Callable[[Axis], bool], tolerance: Tolerance
) -> tuple[Axis, str]:
    """The edge of a loop that its part turns about, and a note of it.

    It is a straight edge that has nothing of the loop on its other side and about which the rest
    is a profile (`fits`): one on y = 0 before all others, otherwise the longest. Raises InputError
    when there is none or when two are equally long.
    """
    edges = [seg for seg in tidied(loop).segments if isinstance(seg, Line)]
    bare = [edge for edge in edges if _all_on_one_side(loop, Axis.along(edge), tolerance)]
    bare = [edge for edge in bare if fits(Axis.along(edge))] or bare
    on_x = [e for e in bare if max(abs(e.start[1]), abs(e.end[1])) <= tolerance.join]
    row = sorted(on_x or bare, key=lambda edge: -edge.length)
    point, say = drawing.units.point, drawing.units.say
    mend = f'say which layer holds the axis, or "{ON_X}", or draw a centre line on its own layer'
    if not row or (len(row) > 1 and row[0].length - row[1].length <= tolerance.join):
        what = "no edge of the loop can be its axis"
        if row:
            what = f"two edges of the loop, {say(row[0].length)} long, may be its axis"
        raise InputError(Fault(what, Place(drawing.source), mend))
    start, end = sorted((row[0].start, row[0].end))
    ends = f"{point(*start)} to {point(*end)}"
    return Axis.along(row[0]), f"its axis is taken to be the edge from {ends}"


def _all_on_one_side(loop: Path, axis: Axis, tolerance: Tolerance) -> bool:
    _, low, _, high = framed(loop, axis).box
    return low >= -tolerance.join or high <= tolerance.join


def _straight(path: Path) -> bool:
    return len(path.segments) == 1 and isinstance(path.segments[0], Line)


def _one_line(pieces: Sequence[Path], drawing: Drawing, tolerance: Tolerance, where: str) -> Axis:
    """The line that all the pieces lie on."""
    segments: list[Segment] = [seg for piece in pieces for seg in piece.segments]
    longest = max(segments, key=lambda seg: seg.length)
    faults, point = FaultList(), drawing.units.point
    if isinstance(longest, Line):
        axis = Axis.along(longest)
        ends = [axis.seen(end) for seg in segments for end in (seg.start, seg.end)]
        straight = all(isinstance(seg, Line) for seg in segments)
        if straight and all(abs(off) <= tolerance.join for _, off in ends):
            return axis
    found = join(pieces, tolerance.join)
    spots = [path.start for path in (*found.open, *found.closed)][:10]
    listed = "; ".join(point(*spot) for spot in spots)
    faults.add(
        f"{where} has more than one straight line that may be the axis: they begin at {listed}",
        Place(drawing.source),
        f'leave the axis alone on a layer and name that, or say "{ON_X}"',
    )
    raise InputError(faults.faults)


# --- line types ----------------------------------------------------------------------------------


def _kinds(
    path: pathlib.Path, drawing: Drawing, layer: str | None, tolerance: Tolerance
) -> list[tuple[str, bool]]:
    """The layer of each of the drawing's pieces, in their order, and whether it is drawn as a
    centre line; empty if they can't be told apart."""
    from ezdxf.filemanagement import readfile  # takes 0.6 s, so only when needed

    document = readfile(str(path))
    table = {entry.dxf.name.casefold(): entry for entry in document.layers}
    off = frozenset(name for name, entry in table.items() if entry.is_off())
    frozen = frozenset(name for name, entry in table.items() if entry.is_frozen())
    hidden = Hidden(off, frozen) if layer is None else Hidden()
    kinds: list[tuple[str, bool]] = []
    for entry in unfolded(document.modelspace(), drawing.source, FaultList(), hidden):
        reader = READERS.get(entry.entity.dxftype())
        name = entry.layer.casefold()
        if reader is None or (layer is not None and name != layer.casefold()):
            continue
        try:
            count = len(reader(entry.entity, Scale(1.0, tolerance)))
        except CantReadError:
            return []
        kinds += [(name, _is_chain(entry.entity, table.get(name)))] * count
    return kinds if len(kinds) == len(drawing.pieces) else []


def _is_chain(entity: Entity, layer: Entity | None) -> bool:
    kind = str(entity.dxf.get("linetype", "BYLAYER")).casefold()
    if kind == "bylayer" and layer is not None:
        kind = str(layer.dxf.get("linetype", "")).casefold()
    return kind.startswith(_CHAIN_LINES)
