"""The entities of a drawing with every block reference replaced by what it shows."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from jawcam.errors import Fault, FaultList, InputError, Place
from jawcam.part.entities import Entity

__all__ = ["Hidden", "Shown", "named", "unfolded"]

_MOST = 100_000  # entities; a small file can nest blocks into far more
_INSERT = "INSERT"


@dataclass(frozen=True)
class Shown:
    """An entity where the drawing shows it, upright, and the layer that it counts for: its own,
    or the block reference's if it was drawn on layer 0 of a block.
    """

    entity: Entity
    layer: str


@dataclass(frozen=True)
class Hidden:
    """The layers that are off or frozen, in lower case."""

    off: frozenset[str] = frozenset()
    frozen: frozenset[str] = frozenset()

    def hides(self, entity: Entity, layer: str) -> bool:
        """Whether an entity is not to be seen. A block reference on a layer that is off still
        shows what its block has on other layers; on a frozen one it shows nothing.
        """
        if entity.dxf.is_supported("invisible") and entity.dxf.get("invisible", 0):
            return True
        frozen = layer.casefold() in self.frozen
        return frozen or (entity.dxftype() != _INSERT and layer.casefold() in self.off)


@dataclass(frozen=True)
class _Task:
    source: str
    faults: FaultList
    hidden: Hidden


def unfolded(
    entities: Iterable[Entity], source: str, faults: FaultList, hidden: Hidden
) -> Iterator[Shown]:
    """All visible entities, block references (nested, mirrored, in rows and columns) taken apart.

    References that lead nowhere or into themselves are noted in `faults`. Raises InputError if
    it never seems to end.
    """
    opened = _opened(entities, "", (), _Task(source, faults, hidden))
    for count, shown in enumerate(opened):
        if count >= _MOST:
            raise InputError(
                Fault(
                    f"its block references unfold into more than {_MOST} entities",
                    Place(source),
                    "draw the outline without rows and columns of blocks",
                )
            )
        yield shown


def named(entity: Entity, layer: str) -> str:
    """What to call an entity in a message, such as ``LINE 2F on layer PROFILE``."""
    handle = f" {entity.dxf.handle}" if entity.dxf.handle else ""
    return f"{entity.dxftype()}{handle} on layer {layer}"


def _opened(
    entities: Iterable[Entity], inherited: str, inside: tuple[str, ...], task: _Task
) -> Iterator[Shown]:
    from ezdxf.upright import upright  # takes 0.6 s, so only when needed

    for entity in entities:
        own = entity.dxf.layer if entity.dxf.is_supported("layer") else "0"
        layer = inherited if inside and own == "0" else own
        if task.hidden.hides(entity, layer):
            continue
        if entity.dxftype() != _INSERT:
            upright(entity)
            yield Shown(entity, layer)
            continue
        place = Place(task.source, key=named(entity, layer))
        name = entity.dxf.name.casefold()
        if name in inside:
            what = f"the block {entity.dxf.name!r} holds itself"
            task.faults.add(what, place, "redraw it without itself")
            continue
        for copy in _copies(entity):
            parts = _parts(copy, place, task.faults)
            yield from _opened(parts, layer, (*inside, name), task)


def _copies(insert: Entity) -> Iterator[Entity]:
    if insert.mcount > 1:
        yield from insert.multi_insert()
    else:
        yield insert


def _parts(insert: Entity, place: Place, faults: FaultList) -> list[Entity]:
    """What a block reference shows, at its place, turned and scaled."""
    from ezdxf.lldxf.const import DXFError  # as above

    what, mend = "", "take the block apart in the drawing"
    block, lost, parts = insert.block(), [], []
    if block is None:
        what, mend = "is missing from the drawing", "export the drawing with its blocks"
    elif block.block.is_xref:
        what, mend = "lies in another file", "bind the outside reference into the drawing"
    else:
        try:
            shown = insert.virtual_entities(skipped_entity_callback=lambda e, _: lost.append(e))
            parts = list(shown)
        except (DXFError, ArithmeticError, ValueError) as error:
            what = f"can't be placed: {error}"
    if lost:
        kinds = ", ".join(sorted({entity.dxftype() for entity in lost}))
        what = f"can't be turned or scaled as asked: {kinds}"
    if what:
        faults.add(f"the block {insert.dxf.name!r} {what}", place, mend)
    return parts
