"""What can be wrong with an input, and where.

    JawcamError
    ├── InputError      the input is wrong; holds every fault found (exit status 2)
    └── InternalError   jawcam itself is wrong; a bug to report (exit status 3)

A failed proof is no exception: it is a result (exit status 1).
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

__all__ = ["Fault", "FaultList", "InputError", "InternalError", "JawcamError", "Place"]


@dataclass(frozen=True)
class Place:
    """Where a fault is. Any part may be missing.

    file: name as the person typed it; line, column: from 1; key: a path such as
    ``setup[1].jaws.gap``; at: a point in words, in the job's units, such as ``X 3.2 Y -1``.
    """

    file: str = ""
    line: int = 0
    column: int = 0
    key: str = ""
    at: str = ""

    def __str__(self) -> str:
        spot = self.file
        if self.line:
            spot += f":{self.line}" + (f":{self.column}" if self.column else "")
        return ": ".join(part for part in (spot, self.key, self.at) if part)


@dataclass(frozen=True)
class Fault:
    """One thing that is wrong: what, where and how to mend it (a full clause, no stop)."""

    what: str
    place: Place = Place()
    mend: str = ""

    def __str__(self) -> str:
        where = str(self.place)
        text = f"{where}: {self.what}" if where else self.what
        return f"{text}\n    to mend: {self.mend}" if self.mend else text


class JawcamError(Exception):
    """The root of all exceptions that jawcam raises on purpose."""


class InputError(JawcamError):
    """The input is wrong. `faults` holds all that was found, at least one."""

    def __init__(self, faults: Fault | Iterable[Fault]) -> None:
        self.faults = (faults,) if isinstance(faults, Fault) else tuple(faults)
        super().__init__("\n".join(str(fault) for fault in self.faults))


class InternalError(JawcamError):
    """Something that must hold did not. Not the person's fault."""


@dataclass
class FaultList:
    """Collects faults so that one run names them all."""

    faults: list[Fault] = field(default_factory=list)

    def add(self, what: str, place: Place = Place(), mend: str = "") -> None:
        """Note one fault."""
        self.faults.append(Fault(what, place, mend))

    def raise_if_any(self) -> None:
        """Raise `InputError` with all the faults noted, if there are any."""
        if self.faults:
            raise InputError(self.faults)
