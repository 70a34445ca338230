"""The functions that an expression may use, such as ``max(3 mm, 1/8 in)``."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import replace

from jawcam.job.quantity import Dims, Quantity, alike, measure
from jawcam.job.words import WrongValueError
from jawcam.units import Units

__all__ = ["FUNCTIONS"]


def _root(values: list[Quantity], _units: Units) -> Quantity:
    (one,) = values
    if one.value < 0:
        raise WrongValueError(f"there is no square root of {one.value:g}")
    if any(power % 2 for power in one.dims):
        mend = "take the root of a plain number or of an area"
        raise WrongValueError(f"there is no square root of {one.words}", mend)
    return Quantity(math.sqrt(one.value), Dims(*(n // 2 for n in one.dims)), one.bare)


def _wave(work: Callable[[float], float]) -> Callable[[list[Quantity], Units], Quantity]:
    def of(values: list[Quantity], units: Units) -> Quantity:
        degrees = measure(values[0], "angle", units)
        if work is math.tan and degrees % 180 == 90:
            raise WrongValueError(f"there is no tangent of {degrees:g} degrees")
        return Quantity(work(math.radians(degrees)))

    return of


def _absolute(values: list[Quantity], _units: Units) -> Quantity:
    return replace(values[0], value=abs(values[0].value))


def _choose(
    work: Callable[[float, float], float],
) -> Callable[[list[Quantity], Units], Quantity]:
    def of(values: list[Quantity], units: Units) -> Quantity:
        best = values[0]
        for one in values[1:]:
            best = alike(best, one, units, "compared", work)
        return best

    return of


FUNCTIONS: Mapping[str, tuple[Callable[[list[Quantity], Units], Quantity], bool]] = {
    "sqrt": (_root, False),
    "sin": (_wave(math.sin), False),
    "cos": (_wave(math.cos), False),
    "tan": (_wave(math.tan), False),
    "abs": (_absolute, False),
    "min": (_choose(min), True),
    "max": (_choose(max), True),
}
"""Name -> the function, and whether it takes several values."""
