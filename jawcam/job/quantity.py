"""Numbers with a unit: what they are, how they combine, and what may stand where.

While they combine, lengths are in mm, angles in degrees, feeds in mm/min and forces in N, so that
torques are in N mm; they come out in N m, powers in kW, times in seconds and accelerations in
mm/s2. A number without a unit is *bare*: it has yet to become a plain number or something in the
job's own units, whichever is due where it is used. Added to a length it is a length, multiplied
with one it is a plain number. What comes of two lengths divided, or of a sine, is a plain number
for good and is no length.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Literal, NamedTuple

from jawcam.job.words import WrongValueError
from jawcam.units import MM_PER_INCH, Units

__all__ = [
    "KINDS",
    "UNITS",
    "Dims",
    "Kind",
    "Quantity",
    "add",
    "alike",
    "divide",
    "measure",
    "multiply",
    "negative",
    "subtract",
]

Kind = Literal[
    "length",
    "number",
    "whole",
    "angle",
    "feed",
    "feed per turn",
    "surface speed",
    "speed",
    "force",
    "torque",
    "power",
    "acceleration",
    "time",
]


class Dims(NamedTuple):
    """The powers of length, angle, time, force and turns in a quantity."""

    length: int = 0
    angle: int = 0
    time: int = 0
    force: int = 0
    turn: int = 0


_NONE, _LENGTH, _ANGLE = Dims(), Dims(length=1), Dims(angle=1)
_FEED, _SPEED = Dims(length=1, time=-1), Dims(time=-1)
_PER_TURN = Dims(length=1, turn=-1)
_FORCE, _TORQUE = Dims(force=1), Dims(length=1, force=1)
_POWER = Dims(length=1, force=1, time=-1)
_ACCELERATION, _TIME = Dims(length=1, time=-2), Dims(time=1)

_N_PER_LBF = 4.4482216152605  # NIST SP 811, appendix B.8, exact
_N_MM_PER_N_M = 1000.0
_N_MM_PER_MIN_PER_KW = 60e6
_KW_PER_HP = 0.7456999  # NIST SP 811, appendix B.8, of 550 ft lbf/s
_MM_PER_M = 1000.0
_MM_PER_FOOT = 12 * MM_PER_INCH
_MINUTES_PER_S = 1 / 60
_PER_S2 = 60.0**2  # mm/min2 for each mm/s2

_WORDS: Mapping[Dims, str] = {
    _NONE: "a plain number",
    _LENGTH: "a length",
    _ANGLE: "an angle",
    _FEED: "a feed",
    _PER_TURN: "a feed per turn",
    _SPEED: "a spindle speed",
    _FORCE: "a force",
    _TORQUE: "a torque",
    _POWER: "a power",
    _ACCELERATION: "an acceleration",
    _TIME: "a time",
    Dims(length=2): "an area",
    Dims(length=3): "a volume",
    Dims(length=-1): "a number divided by a length",
}

UNITS: Mapping[str, tuple[float, Dims]] = {
    "mm": (1.0, _LENGTH),
    "cm": (10.0, _LENGTH),
    "um": (0.001, _LENGTH),
    "in": (MM_PER_INCH, _LENGTH),
    "inch": (MM_PER_INCH, _LENGTH),
    '"': (MM_PER_INCH, _LENGTH),
    "thou": (MM_PER_INCH / 1000, _LENGTH),
    "deg": (1.0, _ANGLE),
    "°": (1.0, _ANGLE),
    "mm/min": (1.0, _FEED),
    "in/min": (MM_PER_INCH, _FEED),
    "m/min": (_MM_PER_M, _FEED),
    "ft/min": (_MM_PER_FOOT, _FEED),
    "mm/rev": (1.0, _PER_TURN),
    "in/rev": (MM_PER_INCH, _PER_TURN),
    "rpm": (1.0, _SPEED),
    "N": (1.0, _FORCE),
    "kN": (1000.0, _FORCE),
    "lbf": (_N_PER_LBF, _FORCE),
    "N m": (_N_MM_PER_N_M, _TORQUE),
    "Nm": (_N_MM_PER_N_M, _TORQUE),
    "lbf in": (_N_PER_LBF * MM_PER_INCH, _TORQUE),
    "lbf ft": (_N_PER_LBF * MM_PER_INCH * 12, _TORQUE),
    "kW": (_N_MM_PER_MIN_PER_KW, _POWER),
    "W": (_N_MM_PER_MIN_PER_KW / 1000, _POWER),
    "hp": (_N_MM_PER_MIN_PER_KW * _KW_PER_HP, _POWER),
    "mm/s2": (_PER_S2, _ACCELERATION),
    "m/s2": (_PER_S2 * _MM_PER_M, _ACCELERATION),
    "in/s2": (_PER_S2 * MM_PER_INCH, _ACCELERATION),
    "s": (_MINUTES_PER_S, _TIME),
}
"""Unit -> its size in mm, degrees, minutes and N, and its dimensions. Where one has a blank in it,
several may stand."""

KINDS: Mapping[Kind, tuple[Dims, str, str]] = {
    "length": (_LENGTH, "a length", "give it the unit of a length, such as 3 mm or 1/8 in"),
    "number": (_NONE, "a plain number", "leave the unit out, or divide by a length"),
    "whole": (_NONE, "a whole number", "write a whole number without a unit"),
    "angle": (_ANGLE, "an angle", "give it in degrees, such as 30 or 30 deg"),
    "feed": (_FEED, "a feed", "give it the unit of a feed, such as 800 mm/min or 30 in/min"),
    "feed per turn": (
        _PER_TURN,
        "a feed per turn",
        "give it as a length per turn, such as 0.2 mm or 0.008 in",
    ),
    "surface speed": (
        _FEED,
        "a surface speed",
        "give it the unit of a surface speed, such as 200 m/min or 600 ft/min",
    ),
    "speed": (_SPEED, "a spindle speed", "give it in rpm, such as 6000 or 6000 rpm"),
    "force": (_FORCE, "a force", "give it the unit of a force, such as 12 kN or 2700 lbf"),
    "torque": (_TORQUE, "a torque", "give it the unit of a torque, such as 40 N m or 350 lbf in"),
    "power": (_POWER, "a power", "give it the unit of a power, such as 2.2 kW or 3 hp"),
    "acceleration": (
        _ACCELERATION,
        "an acceleration",
        "give it the unit of an acceleration, such as 2000 mm/s2 or 80 in/s2",
    ),
    "time": (_TIME, "a time in seconds", "give it in seconds, such as 10 or 10 s"),
}
"""What may be due somewhere -> its dimensions, its name, and how to mend what isn't."""


_GIVEN_IN: Mapping[Kind, float] = {
    "torque": _N_MM_PER_N_M,
    "power": _N_MM_PER_MIN_PER_KW,
    "surface speed": _MM_PER_M,
    "acceleration": _PER_S2,
    "time": _MINUTES_PER_S,
}


@dataclass(frozen=True)
class Quantity:
    """A value in mm, degrees, minutes and N. bare: it has no unit yet."""

    value: float
    dims: Dims = _NONE
    bare: bool = False

    @property
    def words(self) -> str:
        """What it is, such as ``a length``."""
        return _WORDS.get(self.dims, "a mixture of units")


def measure(quantity: Quantity, kind: Kind, units: Units) -> float:
    """Give the value where `kind` is due, in mm, degrees, minutes, N and N m; a power in kW, a
    surface speed in m/min, an acceleration in mm/s2, a time in seconds.

    A bare number counts in `units`, degrees, `units` per minute, rpm, N, N m or kW; as a surface
    speed in m/min, or ft/min where `units` are inches; as an acceleration in `units` per second
    squared, as a time in seconds. A length will do for a feed per turn. Raises
    WrongValueError.
    """
    dims, due, mend = KINDS[kind]
    if kind == "feed per turn" and quantity.dims == _LENGTH:
        quantity = replace(quantity, dims=dims)
    if kind == "surface speed" and quantity.bare:
        size = _MM_PER_FOOT if units is Units.INCH else _MM_PER_M
        quantity = Quantity(quantity.value * size, dims)
    if not quantity.bare and quantity.dims != dims:
        if quantity.dims == Dims(length=-1):
            mend = "write a fraction without blanks in it, such as 3/8 in"
        raise WrongValueError(f"this comes to {quantity.words}, but {due} is due", mend)
    value = _as(quantity, dims, units)
    if kind == "whole" and value != round(value):
        raise WrongValueError(f"this is {value:g}, but {due} is due", mend)
    return value / _GIVEN_IN.get(kind, 1.0)


def add(a: Quantity, b: Quantity, units: Units) -> Quantity:
    """Work out a + b. A bare one counts in `units` if the other is a length or a feed, in N or N m
    if it is a force or a torque. Raises WrongValueError if they are not of a kind.
    """
    return alike(a, b, units, "added", lambda x, y: x + y)


def subtract(a: Quantity, b: Quantity, units: Units) -> Quantity:
    """Work out a - b, likewise."""
    return alike(a, b, units, "subtracted", lambda x, y: x - y)


def alike(
    a: Quantity, b: Quantity, units: Units, done: str, work: Callable[[float, float], float]
) -> Quantity:
    """`work` on two quantities of the same dimensions; a bare one takes on the other's. done: the
    verb of messages. Raises WrongValueError if they are not of a kind.
    """
    if a.dims != b.dims and not (a.bare or b.bare):
        what = f"{a.words} and {b.words} can't be {done}"
        raise WrongValueError(what, "give both the same kind of unit")
    dims = a.dims if b.bare else b.dims
    value = work(_as(a, dims, units), _as(b, dims, units))
    return _finite(Quantity(value, dims, a.bare and b.bare))


def multiply(a: Quantity, b: Quantity, _units: Units) -> Quantity:
    """Work out a * b."""
    dims = Dims(*(m + n for m, n in zip(a.dims, b.dims, strict=True)))
    return _finite(Quantity(a.value * b.value, dims, (a.bare or b.bare) and dims == _NONE))


def divide(a: Quantity, b: Quantity, _units: Units) -> Quantity:
    """Work out a / b. Raises WrongValueError if b is 0."""
    if b.value == 0:
        raise WrongValueError("this divides by zero")
    dims = Dims(*(m - n for m, n in zip(a.dims, b.dims, strict=True)))
    return _finite(Quantity(a.value / b.value, dims, a.bare and dims == _NONE))


def negative(a: Quantity) -> Quantity:
    """Turn the sign of a quantity."""
    return replace(a, value=-a.value)


def _as(quantity: Quantity, dims: Dims, units: Units) -> float:
    """Give the value, a bare one as a quantity of `dims` in the job's units."""
    factor = _bare_size(dims, units) if quantity.bare else 1.0
    return _finite(replace(quantity, value=quantity.value * factor)).value


def _bare_size(dims: Dims, units: Units) -> float:
    """How large a bare 1 is where `dims` is due: lengths, feeds and accelerations follow the job's
    units."""
    if dims.force:
        return {_TORQUE: _N_MM_PER_N_M, _POWER: _N_MM_PER_MIN_PER_KW}.get(dims, 1.0)
    size = _PER_S2 if dims == _ACCELERATION else _MINUTES_PER_S if dims == _TIME else 1.0
    return size * units.in_mm**dims.length


def _finite(quantity: Quantity) -> Quantity:
    if not math.isfinite(quantity.value):
        raise WrongValueError("the result is too large")
    return quantity
