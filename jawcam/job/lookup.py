"""Looking values up in a checked job, from which those at fault are missing."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from jawcam.job.check import Values
from jawcam.job.key import CHUCK_JAWS, TURNED
from jawcam.job.places import KeyPath
from jawcam.units import Units

__all__ = ["Broken", "Rule", "at", "bored", "items", "milled", "on_lathe", "tools", "turned"]

Broken = tuple[KeyPath, str, str]
"""Where, what is wrong, and how to mend it."""

Rule = Callable[[Values, Units], Iterator[Broken]]
"""Finds in a checked job what does not fit together; units: those to say lengths in."""


def items(values: Values, name: str) -> Iterator[tuple[KeyPath, Values]]:
    """Give each table of a list with its key path from `values` on."""
    for number, one in enumerate(values.get(name, []), 1):
        yield (name, number), one


def on_lathe(setup: Values) -> bool:
    """Tell whether a setup is one of the lathe, or is meant to be one though its cut is at fault:
    then some table that only those have stands in it, by default if not by hand.
    """
    meant = "cut" not in setup and any(table in setup for table in _ONLY_ON_LATHES)
    return meant or bool(setup.get("cut") in (TURNED, CHUCK_JAWS))


_ONLY_ON_LATHES = ("speeds", "groove", "thread")


def turned(job: Values) -> Iterator[tuple[KeyPath, Values]]:
    """Give each setup of the lathe with its key path."""
    return (one for one in items(job, "setup") if on_lathe(one[1]))


def bored(job: Values) -> Iterator[tuple[KeyPath, Values]]:
    """Give each setup that bores a chuck's jaws with its key path; `turned` gives it too."""
    return (one for one in items(job, "setup") if one[1].get("cut") == CHUCK_JAWS)


def milled(job: Values) -> Iterator[tuple[KeyPath, Values]]:
    """Give each setup of the mill with its key path; those whose cut is at fault too."""
    return (one for one in items(job, "setup") if not on_lathe(one[1]))


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
