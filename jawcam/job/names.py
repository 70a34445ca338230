"""The values that a job names in [let]: each worked out once, in whatever order they stand."""

from __future__ import annotations

import math
import re
from collections import deque
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from jawcam.job.expression import UnknowableError, evaluate, references
from jawcam.job.functions import FUNCTIONS
from jawcam.job.quantity import UNITS, Quantity
from jawcam.job.words import WrongValueError, quoted
from jawcam.units import Units

__all__ = ["MAX_NAMES", "Names", "name_values", "quantity_of"]

MAX_NAMES = 500

_NAME = re.compile(r"[A-Za-z_][A-Za-z0-9_]*")


@dataclass(frozen=True)
class Names:
    """values: name -> what it stands for, None for a faulty one; faults: (name, what is wrong
    with it), in the order of the file.
    """

    values: Mapping[str, Quantity | None]
    faults: tuple[tuple[str, WrongValueError], ...] = ()


def quantity_of(value: object, names: Mapping[str, Quantity | None], units: Units) -> Quantity:
    """Work out a number or an expression from the file. Raises WrongValueError."""
    if isinstance(value, str):
        return evaluate(value, names, units)
    if isinstance(value, bool) or not isinstance(value, int | float):
        mend = 'write a number, a quantity such as "3/8 in", or an expression over [let]'
        raise WrongValueError("this must be a number", mend)
    if abs(value) > 1e300 or not math.isfinite(value):
        raise WrongValueError("this is far too large, or no number at all", "write a number")
    return Quantity(float(value), bare=True)


def name_values(let: Mapping[str, object], units: Units) -> Names:
    """Work out all of [let]. Bare numbers stay bare until they are used."""
    if len(let) > MAX_NAMES:
        what = f"these are {len(let)} names, and {MAX_NAMES} are the most"
        return Names(dict.fromkeys(let), ((next(iter(let)), WrongValueError(what)),))
    faults = {name: fault for name in let if (fault := _misnamed(name))}
    needs = {name: _needs(value, let) for name, value in let.items()}
    values: dict[str, Quantity | None] = dict.fromkeys(let)
    waiting = list(let)
    while ready := _ready(waiting, needs):
        done = set(ready)
        for name in ready:
            try:
                values[name] = quantity_of(let[name], values, units)
            except UnknowableError:
                pass  # told already, where the name it uses is at fault
            except WrongValueError as error:
                faults.setdefault(name, error)
        waiting = [name for name in waiting if name not in done]
    for ring in _rings(waiting, needs):
        what = "these go round in a circle: " + " -> ".join([*ring, ring[0]])
        faults.setdefault(ring[0], WrongValueError(what, "give one of them a number"))
    return Names(values, tuple((name, faults[name]) for name in let if name in faults))


def _misnamed(name: str) -> WrongValueError | None:
    if name in UNITS or name in FUNCTIONS:
        taken = "a unit" if name in UNITS else "a function"
        return WrongValueError(
            f"{quoted(name)} is {taken} and can't be a name", "choose another name"
        )
    if not _NAME.fullmatch(name):
        better = re.sub(r"[^A-Za-z0-9_]+", "_", name)
        mend = f"write {better}" if _NAME.fullmatch(better) else "choose another name"
        what = f"{quoted(name)} can't be used in an expression: a name is letters, digits and _"
        return WrongValueError(what, mend)
    return None


def _needs(value: object, let: Mapping[str, object]) -> list[str]:
    return [used for used in references(value) if used in let] if isinstance(value, str) else []


def _ready(waiting: list[str], needs: Mapping[str, list[str]]) -> list[str]:
    open_names = set(waiting)
    return [name for name in waiting if open_names.isdisjoint(needs[name])]


def _rings(names: list[str], needs: Mapping[str, list[str]]) -> Iterator[list[str]]:
    """Find the circles among `names`: each the shortest through its first name, no name in two."""
    told: set[str] = set()
    for start in names:
        ring = None if start in told else _ring(start, needs)
        if ring:
            told.update(ring)
            yield ring


def _ring(start: str, needs: Mapping[str, list[str]]) -> list[str] | None:
    ways, seen = deque([[start]]), {start}
    while ways:
        way = ways.popleft()
        for used in needs[way[-1]]:
            if used == start:
                return way
            if used not in seen:
                seen.add(used)
                ways.append([*way, used])
    return None
