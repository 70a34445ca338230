"""What a lathe's job doesn't tell of what can crash, and how it is taken: for the report."""

from __future__ import annotations

from collections.abc import Iterator

from jawcam.proof.turning.scene import Scene
from jawcam.tools.turner import Turner

__all__ = ["unjudged", "untold"]


def untold(scene: Scene) -> tuple[str, ...]:
    """What is assumed, in words, each as ``what: how it is taken``; tools that the program doesn't
    use are left out."""
    return (*_of_the_holding(scene), *_of_the_travel(scene), *_of_the_rapids(scene))


def unjudged(scene: Scene) -> tuple[str, ...]:
    """What isn't judged, as the job tells nothing of it."""
    goes = scene.machine.lathe_travel
    none = [axis.upper() for axis in "xz" if getattr(goes, axis) is None]
    blocks = [f"T{tool.number}" for tool in _used(scene) if tool.overhang is None]
    return (
        *((f"the blocks that hold {', '.join(blocks)}",) if blocks else ()),
        *((f"the travel of {', '.join(none)}",) if none else ()),
    )


def _used(scene: Scene) -> list[Turner]:
    return list(dict.fromkeys(move.tool for move in scene.moves))


def _of_the_holding(scene: Scene) -> Iterator[str]:
    held = [f"T{tool.number}" for tool in _used(scene) if "drill" not in tool.kind]
    if held:
        yield f"holders of {', '.join(held)}: as wide as their shanks all along"
    if not scene.section.keep_off.is_empty:
        yield "the chuck and its jaws: full rings"


def _of_the_travel(scene: Scene) -> Iterator[str]:
    goes, at = scene.machine.lathe_travel, scene.target.travel_at
    told = [axis for axis in "xz" if getattr(goes, axis) is not None]
    if span := [axis.upper() for axis in told if getattr(at, axis) is None]:
        yield f"where the origin stands in {', '.join(span)}: only the span of the moves is judged"
    off = [f"T{tool.number}" for tool in _used(scene) if tool.tip is None]
    if told and off:
        yield f"how far the tips of {', '.join(off)} stand off: only the span of each is judged"


def _of_the_rapids(scene: Scene) -> Iterator[str]:
    if scene.program.rapids == "either":
        yield "whether rapids bend: they may, and both ways are judged"
