"""What must hold between the values of a part: an outline, a table of diameters or a half profile,
and the layers of an outline.
"""

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
_OF_A_PROFILE = ("axis", "end_a")
_SHAPES = {
    "outline": "an outline",
    "turned": "a table of diameters",
    "profile": "a half profile",
}


def _one_of_the_shapes(job: Values, _units: Units) -> Iterator[Broken]:
    part = job.get("part", {})
    if not all(shape in part for shape in _SHAPES):
        return
    given = [shape for shape in _SHAPES if part[shape]]
    for shape in given[1:]:
        what = f"a part has either {_SHAPES[given[0]]} or {_SHAPES[shape]}, not both"
        yield ("part", shape), what, "leave one of the two out"
    if not given:
        what = "the part has neither an outline nor a table of diameters, and no half profile"
        mend = 'add outline = "part.dxf", the drawing\'s file name, or turned = [ { dia = ..., '
        mend += 'len = ... } ], or profile = "spindle.dxf"'
        yield ("part", "outline"), what, mend


def _shape(job: Values) -> str:
    """Say what the part has of `_SHAPES`; "" if that is at fault itself."""
    part = job.get("part", {})
    named = [shape for shape in _SHAPES if shape not in part or part[shape]]
    return named[0] if len(named) == 1 and "turned" in part else ""


def _goes_with_turned(job: Values, units: Units) -> Iterator[Broken]:
    if _shape(job) != "turned":
        return
    part = job["part"]
    for name in (*_OF_A_DRAWING, *_OF_A_PROFILE):
        if part.get(name):
            what = f"a turned part has no drawing, and so no {name}"
            if name in _OF_A_PROFILE:
                what = f"a table of diameters has no {name}, only a half profile has"
            yield ("part", name), what, "leave it out"
    if part.get("thickness") is not None:
        lengths = [piece.get("len", 0.0) for piece in part["turned"]]
        what = f"a turned part is as high as its lengths together, here {units.say(sum(lengths))}"
        yield ("part", "thickness"), what, "leave it out"


def _goes_with_profile(job: Values, _units: Units) -> Iterator[Broken]:
    if _shape(job) != "profile":
        return
    part = job["part"]
    if part.get("layers"):
        what = "a half profile has no heights, and so no layers"
        yield ("part", "layers"), what, "name the one that it is on as layer"
    if part.get("thickness") is not None:
        what = "a turned part is as high as its half profile is long"
        yield ("part", "thickness"), what, "leave it out"


def _goes_with_outline(job: Values, _units: Units) -> Iterator[Broken]:
    if _shape(job) != "outline":
        return
    part = job["part"]
    for name in _OF_A_PROFILE:
        if part.get(name) is not None:
            what = f"an outline has no {name}, only a half profile of a turned part has"
            yield ("part", name), what, "leave it out"
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
    _one_of_the_shapes,
    _goes_with_turned,
    _goes_with_profile,
    _goes_with_outline,
    _layer_heights,
    _layers_fill_the_part,
    _layers_differ,
)
"""What is asked of each part."""
