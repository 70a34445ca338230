"""Reads a DXF drawing: which units, which layer, which entities."""

from __future__ import annotations

import difflib
import logging
import pathlib
import re
from collections import Counter
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass

from jawcam.errors import Fault, FaultList, InputError, Place
from jawcam.geometry.shapes import Path
from jawcam.part.blocks import Hidden, Shown, named, unfolded
from jawcam.part.entities import READERS, CantReadError, Entity, Scale
from jawcam.part.outline import Drawing
from jawcam.tolerance import Tolerance
from jawcam.units import MM_PER_INCH, Units

__all__ = ["read_dxf"]

_STATED = {
    1: ("inch", MM_PER_INCH, Units.INCH),
    2: ("feet", 12 * MM_PER_INCH, Units.INCH),
    4: ("mm", 1.0, Units.MM),
    5: ("cm", 10.0, Units.MM),
    6: ("m", 1000.0, Units.MM),
    9: ("thousandths of an inch", MM_PER_INCH / 1000, Units.INCH),
    14: ("dm", 100.0, Units.MM),
}
"""$INSUNITS -> its name, mm per unit, and what to speak to the person in (DXF reference)."""

_CURVES = ("ELLIPSE", "SPLINE")


@dataclass(frozen=True)
class _Found:
    """What the entities gave: paths; layers that have any; how many of what kind was not used; the
    curves and how many segments stand in for each.
    """

    pieces: tuple[Path, ...]
    layers: tuple[str, ...]
    unused: Counter[str]
    curves: tuple[tuple[str, int], ...]


def read_dxf(
    path: pathlib.Path,
    *,
    shown: str,
    layer: str | None,
    units: Units | None,
    tolerance: Tolerance,
) -> Drawing:
    """The outline entities of a DXF file (ASCII or binary), in mm.

    shown: the file's name as the person typed it; layer: the one to take, in upper or lower
    case, None for all that are neither off nor frozen; units: what it is drawn in, needed if the
    file does not say and heeded even if it does. Raises InputError with all that is wrong.
    """
    data = _bytes(path, shown)
    document = _document(path, shown)
    faults = FaultList()
    factor, spoken, notes = _units(document, data, shown, units, faults)
    hidden = _hidden(document) if layer is None else Hidden()
    everything = list(unfolded(document.modelspace(), shown, faults, hidden))
    table = {entry.dxf.name.casefold(): entry.dxf.name for entry in document.layers}
    chosen = _chosen(everything, layer, table, shown, faults)
    faults.raise_if_any()
    found = _read(everything, chosen, Scale(factor, tolerance), shown, faults)
    if not found.pieces and not faults.faults:
        _say_empty(found, layer, shown, faults)
    faults.raise_if_any()
    return Drawing(found.pieces, shown, spoken, found.layers, (*notes, *_notes(found, tolerance)))


# --- the file --------------------------------------------------------------------------------


def _bytes(path: pathlib.Path, shown: str) -> bytes:
    place = Place(shown)
    try:
        data = path.read_bytes()
    except FileNotFoundError:
        near = [p.name for p in path.parent.iterdir()] if path.parent.is_dir() else []
        alike = difflib.get_close_matches(path.name, sorted(near), n=1)
        mend = f"did you mean {alike[0]!r}?" if alike else "check the name and the folder"
        raise InputError(Fault("there is no such drawing", place, mend)) from None
    except IsADirectoryError:
        raise InputError(Fault("it is a folder", place, "name the drawing in it")) from None
    except OSError as error:
        why = (error.strerror or str(error)).lower()
        mend = "see that the file may be read"
        raise InputError(Fault(f"the drawing can't be read: {why}", place, mend)) from None
    if not data.strip():
        raise InputError(Fault("the file is empty", place, "export the drawing again"))
    return data


def _document(path: pathlib.Path, shown: str) -> Entity:
    """The library's document, which takes no damaged file: what it would guess may be wrong."""
    from ezdxf.filemanagement import readfile  # takes 0.6 s, so only when needed
    from ezdxf.lldxf.const import DXFError  # as above

    mend = "export the drawing again as DXF, R12 or later"
    try:
        with _silent("ezdxf"):
            return readfile(str(path))
    except OSError:
        raise InputError(Fault("it is no DXF file", Place(shown), mend)) from None
    except Exception as error:  # noqa: BLE001 - whatever damage may raise deep in the library
        # Only the library's own exceptions say something about the file.
        text = str(error).removeprefix("DXFStructureError: ") if isinstance(error, DXFError) else ""
        what = f"the drawing is damaged ({text or 'it breaks off or is out of order'})"
        line = re.search(r"line:? ?(\d+)", text)
        place = Place(shown, line=int(line[1]) if line else 0)
        raise InputError(Fault(what, place, mend)) from None


@contextmanager
def _silent(name: str) -> Iterator[None]:
    """Keep a library's log lines off the screen for a while."""
    logger, handler = logging.getLogger(name), logging.NullHandler()
    logger.addHandler(handler)
    try:
        yield
    finally:
        logger.removeHandler(handler)


def _units(
    document: Entity, data: bytes, shown: str, units: Units | None, faults: FaultList
) -> tuple[float, Units, list[str]]:
    """Millimetres per drawing unit, the unit to speak in, and what to note about them.

    Without a header the library makes one up that says metres; only what the file says counts.
    """
    header = data.partition(b"ENDSEC")[0]
    written = b"HEADER" in header and b"$INSUNITS" in header
    stated = _STATED.get(document.units) if written else None
    if units is not None:
        if stated is None or stated[1] == units.in_mm:
            return units.in_mm, units, []
        return units.in_mm, units, [f"the drawing says {stated[0]}, read as {units.value} as told"]
    if stated is None:
        what = "the drawing does not say what units it is in"
        faults.add(
            what,
            Place(shown),
            'say so: drawing_units = "mm" or "inch" under [part] of the job, or --units',
        )
        return 1.0, Units.MM, []
    name, factor, spoken = stated
    notes = [] if factor == spoken.in_mm else [f"the drawing is in {name}"]
    return factor, spoken, notes


# --- layers ----------------------------------------------------------------------------------


def _hidden(document: Entity) -> Hidden:
    layers = [(entry.dxf.name.casefold(), entry) for entry in document.layers]
    return Hidden(
        off=frozenset(name for name, entry in layers if entry.is_off()),
        frozen=frozenset(name for name, entry in layers if entry.is_frozen()),
    )


def _chosen(
    everything: Sequence[Shown],
    layer: str | None,
    table: dict[str, str],
    shown: str,
    faults: FaultList,
) -> list[Shown]:
    """What lies on the layer asked for."""
    if layer is None:
        return list(everything)
    known = {entry.layer.casefold(): entry.layer for entry in everything} | table
    if layer.casefold() not in known:
        names = sorted(known.values())
        alike = difflib.get_close_matches(layer.casefold(), sorted(known), n=1)
        mend = f"did you mean {known[alike[0]]!r}? " if alike else ""
        mend += f"the layers are: {', '.join(names)}"
        faults.add(f"there is no layer {layer!r}", Place(shown), mend)
    return [entry for entry in everything if entry.layer.casefold() == layer.casefold()]


# --- entities --------------------------------------------------------------------------------


def _read(
    everything: Sequence[Shown],
    chosen: Sequence[Shown],
    scale: Scale,
    source: str,
    faults: FaultList,
) -> _Found:
    pieces: list[Path] = []
    unused: Counter[str] = Counter()
    curves: list[tuple[str, int]] = []
    for entry in chosen:
        kind = entry.entity.dxftype()
        reader = READERS.get(kind)
        if reader is None:
            unused[kind] += 1
            continue
        try:
            paths = reader(entry.entity, scale)
        except CantReadError as error:
            place = Place(source, key=named(entry.entity, entry.layer))
            faults.add(str(error), place, "redraw it, flat in the XY plane, or delete it")
            continue
        if not paths:
            unused[f"{kind} without size"] += 1
        if kind in _CURVES:
            curves += [(kind, len(path.segments)) for path in paths]
        pieces += paths
    layers = sorted({e.layer for e in everything if e.entity.dxftype() in READERS})
    return _Found(tuple(pieces), tuple(layers), unused, tuple(curves))


def _say_empty(found: _Found, layer: str | None, source: str, faults: FaultList) -> None:
    what = "there is nothing to use in the drawing"
    if layer is not None:
        what = f"there is nothing to use on layer {layer!r}"
    if found.unused:
        what += f", only {_listed(found.unused)}"
    mend = "draw the outline with lines, arcs, circles, polylines, ellipses or splines"
    if found.layers:
        mend = f"choose a layer that has lines or arcs: {', '.join(found.layers)}"
    faults.add(what, Place(source), mend)


def _notes(found: _Found, tolerance: Tolerance) -> Iterator[str]:
    if found.unused:
        yield f"left out: {_listed(found.unused)}"
    for kind in _CURVES:
        counts = [count for name, count in found.curves if name == kind]
        if counts:
            yield (
                f"{len(counts)} {kind} replaced by {sum(counts)} arcs or lines "
                f"within {tolerance.fit:g} mm"
            )


def _listed(counts: Counter[str]) -> str:
    return ", ".join(f"{count} {kind}" for kind, count in sorted(counts.items()))
