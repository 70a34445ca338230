"""What the job doesn't tell of what can crash, and how it is taken: for the report."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from jawcam.proof.dogleg import bends
from jawcam.proof.scene import Scene
from jawcam.tools.cutter import Cutter

__all__ = ["unjudged", "untold"]

_TOOLS: tuple[tuple[Callable[[Cutter], bool], str], ...] = (
    (lambda c: c.flute_len is None, "flutes of {}: long enough"),
    (lambda c: c.shank is None, "shank of {}: as thick as the cutter"),
    (lambda c: c.stickout is None, "stick-out of {}: far enough"),
    (
        lambda c: not c.holder and c.stickout is not None,
        "holder of {}: wider than anything, so it has to stay at the clearance",
    ),
)


def untold(scene: Scene) -> tuple[str, ...]:
    """What is assumed, in words, each as ``what: how it is taken``; tools that the program doesn't
    use are left out."""
    own = _of_the_part(scene) if scene.seated else _of_the_spacers(scene)
    return (*_of_tools(scene), *_of_the_vise(scene), *own, *_of_the_machine(scene))


def unjudged(scene: Scene) -> tuple[str, ...]:
    """What isn't judged, as the job tells nothing of it."""
    goes = scene.machine.travel
    none = [axis.upper() for axis in "xyz" if getattr(goes, axis) is None]
    rows = (
        (scene.seated, "what is left of the part, and whether it stays gripped"),
        (scene.target.vise is None, "the vise's own jaws and its bed"),
        (bool(none), f"the travel of {', '.join(none)}"),
    )
    return tuple(words for silent, words in rows if silent)


def _of_the_part(_scene: Scene) -> Iterator[str]:
    yield "the part: solid, all of its silhouette from its underside up to its top"
    yield "the pocket: cut as drawn, its jaws shut until they meet the part"


def _of_tools(scene: Scene) -> Iterator[str]:
    used = dict.fromkeys(move.cutter for move in scene.moves)
    for silent, words in _TOOLS:
        numbers = [f"T{cutter.number}" for cutter in used if silent(cutter)]
        if numbers:
            yield words.format(", ".join(numbers))


def _of_the_vise(scene: Scene) -> Iterator[str]:
    vise = scene.target.vise
    if vise is None:
        return
    if vise.width is None:
        yield "the vise's own jaws: wider than anything"
    if vise.back is None:
        yield "the vise's own jaws: reach back without end"
    if vise.bed is None:
        yield "the vise's bed: right under the blanks"


def _of_the_spacers(scene: Scene) -> Iterator[str]:
    spacers = scene.target.spacers
    if not spacers and scene.target.blanks.gap > 0:
        yield "the spacer in the gap: lower than any cut"
    numbers = [str(n) for n, spacer in enumerate(spacers, start=1) if spacer.x is None]
    if numbers:
        which = "the spacer" if len(spacers) == 1 else f"spacer {', '.join(numbers)}"
        yield f"how long {which} is: longer than the jaws"


def _of_the_machine(scene: Scene) -> Iterator[str]:
    goes, at = scene.machine.travel, scene.target.travel_at
    axes = ("x", "y", "z")
    told = (axis for axis in axes if getattr(goes, axis) is not None)
    if span := [axis.upper() for axis in told if getattr(at, axis) is None]:
        yield f"where the origin stands in {', '.join(span)}: only the span of the moves is judged"
    used = dict.fromkeys(move.cutter for move in scene.moves)
    unknown = [f"T{cutter.number}" for cutter in used if cutter.length is None]
    if goes.z is not None and at.z is not None and unknown:
        yield f"length of {', '.join(unknown)} with its holder: only the span of Z is judged"
    if scene.machine.change_height is None:
        yield "the height where tools are changed: the clearance is enough"
    if bends(scene) == "either":
        yield "whether rapids bend: they may, and both ways are judged"
