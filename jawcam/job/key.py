"""What one key of a job file is, declared as data.

Limits and defaults are in mm, degrees, minutes, N and N m; of surface speeds in m/min.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from jawcam.job import quantity

__all__ = [
    "ANYWHERE",
    "CHUCK_JAWS",
    "FEED",
    "MODEL",
    "NOT_NEGATIVE",
    "PER_TURN",
    "SIZE",
    "SURFACE",
    "TOOL_NUMBER",
    "TURNED",
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
        "insert",
        "drill feed",
        "lengths",
        "diameter",
        "fit",
        "thread",
        "table",
        "tables",
    ]
)
"""A diameter is one length or a pair of them, at start and end; a fit is a length or ISO 286
letters; an insert is its designation; a drill's feed is per minute or per turn."""

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
TURNED = "turned profile"
"""The cut of a setup on a lathe."""

CHUCK_JAWS = "chuck jaws"
"""The cut of a setup on a lathe that bores the chuck's own jaws to the part."""

FEED = Limits(over=0, most=100000)  # mm/min
PER_TURN = Limits(over=0, most=5)  # mm
SURFACE = Limits(over=0, most=5000)  # m/min
TOOL_NUMBER = Limits(least=1, most=9999)


@dataclass(frozen=True)
class Key:
    """One key. says: what it means, in words that follow "write"; example: how it looks in a
    job in mm, "" for a table; choices: the texts it may be; later: those still to come; count: how
    many lengths; keys: those of the table, or of each table in a list; a table without them
    takes any; filled: the list must not be empty.

    forms: what the keys of such a table are in place of `keys` where its key `by` has a certain
    value.

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
    by: str = ""
    forms: tuple[tuple[str, tuple[Key, ...]], ...] = ()
