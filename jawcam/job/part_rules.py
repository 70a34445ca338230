"""What must hold between the values of a part: an outline or a turned one, and its layers."""

from __future__ import annotations

from collections.abc import Iterator

from jawcam.job.check import Values
from jawcam.job.lookup import Broken, Rule, items
from jawcam.job.places import path_words
from jawcam.job.words import quoted
from jawcam.units import Units

__all__ = ["PART_RULES"]

_NEAR = 1e-6  # mm; what arithmetic leaves between heights that are meant to be the same
_OF_A_DRAWING = ("layer", "layers", "drawing_units")


def _outline_or_turned(job: Values, _units: Units) -> Iterator[Broken]:
    part = job.get("part", {})
    if "outline" not in part or "turned" not in part:
        return
    if part["outline"] is not None and part["turned"]:
        what = "a part either has an outline or is turned, not both"
        yield ("part", "turned"), what, "leave one of the two out"
    elif part["outline"] is None and not part["turned"]:
        what = "the part has neither an outline nor a table of diameters"
        mend = 'add outline = "part.dxf", the drawing\'s file name, or turned = [ { dia = ..., '
        yield ("part", "outline"), what, mend + "len = ... } ]"


def _one_shape(job: Values) -> str:
    """Say what the part is, "outline" or "turned"; "" if that is at fault itself."""
    part = job.get("part", {})
    if "turned" not in part or (
        "outline" in part and bool(part["outline"]) == bool(part["turned"])
    ):
        return ""
    return "turned" if part["turned"] else "outline"


def _goes_with_turned(job: Values, units: Units) -> Iterator[Broken]:
    if _one_shape(job) != "turned":
        return
    part = job["part"]
    for name in _OF_A_DRAWING:
        if part.get(name):
            what = f"a turned part has no drawing, and so no {name}"
            yield ("part", name), what, "leave it out"
    if part.get("thickness") is not None:
        lengths = [piece.get("len", 0.0) for piece in part["turned"]]
        what = f"a turned part is as high as its lengths together, here {units.say(sum(lengths))}"
        yield ("part", "thickness"), what, "leave it out"


def _goes_with_outline(job: Values, _units: Units) -> Iterator[Broken]:
    if _one_shape(job) != "outline":
        return
    part = job["part"]
    if part.get("bore"):
        what = "only a turned part has a bore; one with an outline has its holes in the drawing"
        yield ("part", "bore"), what, "leave it out"
    if part.get("layers"):
        if part.get("layer") is not None:
            yield ("part", "layer"), "the part has layers already", "leave one of the two out"
        if part.get("thickness") is not None:
            what = "the layers say already how high the part is"
            yield ("part", "thickness"), what, "leave it out"
    elif "layers" in part and part.get("thickness", 0) is None:
        what = 'the key "thickness" is missing'
        yield ("part", "thickness"), what, "add thickness = ..., the part's height, or layers"


def _layer_heights(job: Values, units: Units) -> Iterator[Broken]:
    part = job.get("part", {})
    for path, layer in items(part, "layers"):
        bottom, top = layer.get("bottom"), layer.get("top")
        if bottom is not None and top is not None and top <= bottom:
            what = f"this layer ends no higher than it begins, {units.say(bottom)}"
            yield ("part", *path, "top"), what, "make top more than bottom"


def _whole(part: Values) -> list[tuple[int, Values]]:
    """The layers by number, lowest first; none of them if any is at fault."""
    layers = list(enumerate(part.get("layers", ()), 1))
    if not all(len(one) == 3 and one["bottom"] < one["top"] for _, one in layers):
        return []
    return sorted(layers, key=lambda numbered: (numbered[1]["bottom"], numbered[0]))


def _layers_fill_the_part(job: Values, units: Units) -> Iterator[Broken]:
    layers, reached = _whole(job.get("part", {})), 0.0
    for number, layer in layers:
        if layer["bottom"] > reached + _NEAR:
            place = ("part", "layers", number, "bottom")
            if (number, layer) == layers[0]:
                what = "no layer begins at 0, the part's underside"
                yield place, what, "measure heights from the underside up"
            else:
                low, high = units.say(reached), units.say(layer["bottom"])
                what = f"no layer fills the part from {low} to {high}"
                yield place, what, "let each layer begin where one below it ends"
        reached = max(reached, layer["top"])


def _layers_differ(job: Values, _units: Units) -> Iterator[Broken]:
    layers = _whole(job.get("part", {}))
    ends: dict[str, tuple[int, float]] = {}
    for number, layer in layers:
        name = layer["layer"].casefold()
        before, end = ends.get(name, (0, 0.0))
        if before and layer["bottom"] < end - _NEAR:
            first, second = sorted((before, number))
            what = f"{path_words(('part', 'layers', first))} has the layer {quoted(layer['layer'])}"
            mend = "give a layer that is listed twice heights that don't overlap"
            yield ("part", "layers", second), f"{what} at these heights already", mend
        if layer["top"] > end:
            ends[name] = (number, layer["top"])


PART_RULES: tuple[Rule, ...] = (
    _outline_or_turned,
    _goes_with_turned,
    _goes_with_outline,
    _layer_heights,
    _layers_fill_the_part,
    _layers_differ,
)
"""What is asked of each part."""
