"""A part from one outline, or from those of several drawing layers at their heights."""

from __future__ import annotations

import itertools
import pathlib
from collections.abc import Callable, Collection, Iterable, Sequence
from dataclasses import replace

from jawcam.errors import Fault, FaultList, InputError, Place
from jawcam.geometry.crossing import encloses
from jawcam.geometry.shapes import Path
from jawcam.part.formats import read_outlines
from jawcam.part.outline import Outline
from jawcam.part.solid import Slab, Slice, Solid
from jawcam.tolerance import Tolerance
from jawcam.units import Units

__all__ = ["Layered", "layered", "read_layers", "upright"]

Layered = tuple[Outline, float, float]
"""An outline that the part fills from a bottom to a top, heights in mm above its underside."""

_HAIR = 1e-6  # mm; heights that are equal on paper agree better


def upright(outline: Outline, thickness: float, *, edge: float = 0.0) -> Solid:
    """A part with upright walls, as thick as given. edge: how far its edges are broken, in mm."""
    return _stacked([(outline, 0.0, thickness)], [0.0, thickness], edge)


def layered(
    layers: Sequence[Layered],
    *,
    units: Units,
    place: Callable[[str], Place],
    edge: float = 0.0,
) -> Solid:
    """A part that fills each outline between its heights; where several do, all of them.

    A slab ends wherever a layer begins or ends. A hole is shown unless a layer that reaches higher
    covers its first point. place: makes a place from a key, ``layers`` or ``layers[2]`` for the
    second one. edge: how far the edges of its underside and of its top are broken, in mm. Raises
    InputError if a layer has no height, begins below the underside, or none fills the part
    somewhere below its top.
    """
    faults = FaultList()
    for number, (_, bottom, top) in enumerate(layers, 1):
        where = place(f"layers[{number}]")
        if bottom < -_HAIR:
            what = f"it begins {units.say(-bottom)} below the part's underside"
            faults.add(what, where, "count all heights from the underside up")
        if top <= bottom + _HAIR:
            what = f"it ends at {units.say(top)} but begins at {units.say(bottom)}"
            faults.add(what, where, "give it a top above its bottom")
    faults.raise_if_any()
    heights = _heights(layers)
    level = [(one, _nearest(heights, low), _nearest(heights, high)) for one, low, high in layers]
    for low, high in itertools.pairwise(heights):
        if not _at(level, low, high):
            faults.add(
                f"no layer fills the part from {units.say(low)} to {units.say(high)}",
                place("layers"),
                "let a layer begin where the one below it ends, the lowest at 0",
            )
    faults.raise_if_any()
    return _stacked(level, heights, edge)


def _heights(layers: Sequence[Layered]) -> list[float]:
    """The underside and all heights where a layer begins or ends, those that are equal but for
    rounding once."""
    heights = [0.0]
    for height in sorted(height for _, *ends in layers for height in ends):
        if height > heights[-1] + _HAIR:
            heights.append(height)
    return heights


def _nearest(heights: Sequence[float], height: float) -> float:
    return min(heights, key=lambda other: abs(other - height))


def _stacked(layers: Sequence[Layered], heights: Sequence[float], edge: float) -> Solid:
    slabs = tuple(
        Slab(low, high, _at(layers, low, high)) for low, high in itertools.pairwise(heights)
    )
    notes = dict.fromkeys(note for outline, *_ in layers for note in outline.notes)
    return Solid(
        slabs=slabs,
        silhouette=_once(outline.outer for outline, *_ in layers),
        holes=_holes(layers),
        slices=tuple(
            Slice(height, slab.outlines) for slab in slabs for height in (slab.bottom, slab.top)
        ),
        broken_below=edge,
        broken_above=edge,
        notes=tuple(notes),
    )


def _at(layers: Sequence[Layered], low: float, high: float) -> tuple[Path, ...]:
    """The outlines that the part fills all the way between two neighbouring heights."""
    return _once(outline.outer for outline, bottom, top in layers if bottom <= low and high <= top)


def _holes(layers: Sequence[Layered]) -> tuple[Path, ...]:
    return _once(
        hole
        for outline, _, top in layers
        for hole in outline.holes
        if not any(
            other_top > top and encloses(other.outer, hole.start) for other, _, other_top in layers
        )
    )


def _once(paths: Iterable[Path]) -> tuple[Path, ...]:
    """The paths in their order, none twice."""
    return tuple(dict.fromkeys(paths))


# --- reading ---------------------------------------------------------------------------------


def read_layers(
    path: pathlib.Path,
    layers: Sequence[tuple[str, float, float]],
    *,
    shown: str,
    units: Units | None,
    tolerance: Tolerance,
) -> tuple[Layered, ...]:
    """All outlines of several layers of one drawing, with their heights.

    layers: the name, bottom and top of each; shown, units, tolerance: as for `read_outlines`. The
    notes of each outline name its layer. Raises InputError with the faults of all the layers;
    those of a single layer name it.
    """
    found: list[Layered] = []
    faults: list[tuple[str, Fault]] = []
    for name, bottom, top in layers:
        try:
            outlines = read_outlines(
                path, shown=shown, layer=name, units=units, tolerance=tolerance
            )
        except InputError as error:
            faults += [(name, fault) for fault in error.faults]
            continue
        for outline in outlines:
            notes = tuple(f"layer {name}: {note}" for note in outline.notes)
            found.append((replace(outline, notes=notes), bottom, top))
    if faults:
        raise InputError(_told(faults, {name for name, *_ in layers}))
    return tuple(found)


def _told(faults: Sequence[tuple[str, Fault]], names: Collection[str]) -> list[Fault]:
    """Faults that all layers have are the drawing's own; the others tell their layer."""
    having: dict[Fault, dict[str, None]] = {}
    for name, fault in faults:
        having.setdefault(fault, {})[name] = None
    told = []
    for fault, those in having.items():
        if len(those) == len(names):
            told.append(fault)
        else:
            told += [replace(fault, place=_on(fault.place, name)) for name in those]
    return told


def _on(place: Place, layer: str) -> Place:
    """The place, with its layer named too."""
    return replace(place, key=place.key or f"layer {layer}")
