"""Looking values up in a checked job, from which those at fault are missing."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from jawcam.job.check import Values
from jawcam.job.places import KeyPath
from jawcam.units import Units

__all__ = ["Broken", "Rule", "at", "items", "tools"]

Broken = tuple[KeyPath, str, str]
"""Where, what is wrong, and how to mend it."""

Rule = Callable[[Values, Units], Iterator[Broken]]
"""Finds in a checked job what does not fit together; units: those to say lengths in."""


def items(values: Values, name: str) -> Iterator[tuple[KeyPath, Values]]:
    """Give each table of a list with its key path from `values` on."""
    for number, one in enumerate(values.get(name, []), 1):
        yield (name, number), one


def tools(job: Values) -> dict[float | None, Values]:
    """Give the tools by number, without those whose number is at fault; the first where two have
    the same. There is none for None, so that what names no tool finds none.
    """
    found: dict[float | None, Values] = {}
    for _, tool in items(job, "tool"):
        if "number" in tool:
            found.setdefault(tool["number"], tool)
    return found


def at(values: Values, *way: str) -> float | None:
    """Give the number at the end of a way through tables; None if it is not there."""
    *tables, key = way
    for table in tables:
        values = values.get(table) or {}
    number: float | None = values.get(key)
    return number
