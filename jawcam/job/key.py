"""What one key of a job file is, declared as data.

Limits and defaults are in mm, degrees, minutes, N and N m.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from jawcam.job import quantity

__all__ = [
    "ANYWHERE",
    "FEED",
    "MODEL",
    "NOT_NEGATIVE",
    "SIZE",
    "TOOL_NUMBER",
    "Key",
    "KeyKind",
    "Limits",
]

KeyKind = (
    quantity.Kind
    | Literal[
        "text",
        "file name",
        "path",
        "flag",
        "choice",
        "lengths",
        "diameter",
        "fit",
        "thread",
        "table",
        "tables",
    ]
)
"""A diameter is one length or a pair of them, at start and end; a fit is a length or ISO 286
letters."""

MODEL = object()
"""The default of a key that leaves it to the model."""


@dataclass(frozen=True)
class Limits:
    """The least and the most a number may be; `over`: it must be more than this."""

    over: float | None = None
    least: float | None = None
    most: float | None = None


SIZE = Limits(over=0, most=10000)  # mm
NOT_NEGATIVE = Limits(least=0, most=10000)
ANYWHERE = Limits(least=-10000, most=10000)
FEED = Limits(over=0, most=100000)  # mm/min
TOOL_NUMBER = Limits(least=1, most=9999)


@dataclass(frozen=True)
class Key:
    """One key. says: what it means, in words that follow "write"; example: how it looks in a
    job in mm, "" for a table; choices: the texts it may be; later: those still to come; count: how
    many lengths; keys: those of the table, or of each table in a list; a table without them
    takes any; filled: the list must not be empty.

    default: what stands for it where a job is silent. A rule that must tell a silent key from a
    faulty one asks for the model's default here too.
    """

    name: str
    kind: KeyKind
    says: str
    example: str = ""
    required: bool = False
    default: object = MODEL
    limits: Limits = Limits()
    choices: tuple[str, ...] = ()
    later: tuple[str, ...] = ()
    count: int = 0
    keys: tuple[Key, ...] = ()
    filled: bool = False
