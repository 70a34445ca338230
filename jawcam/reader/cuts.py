"""What a program says, read back: plain moves with the place in the text that each came from."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal, NamedTuple

__all__ = ["Change", "Cut", "Program", "ReadFault"]

Point3 = tuple[float, float, float]


class Cut(NamedTuple):
    """One move of the tool tip, in mm and the program's own axes (work offset not added).

    kind: rapid, line or arc (an arc that also moves along the third axis is a helix).
    start, end: an axis whose position the program has not yet told is nan.
    centre: in the plane's two axes (XY: x, y; XZ: z, x; YZ: y, z); turn: the signed sweep in
    radians, positive counter-clockwise seen from the plane's positive third axis.
    feed: mm/min, 0 when none was given; rpm: of the spindle, 0 when none was given.
    On a lathe x is a radius and y 0; per_turn: feed is in mm per turn; surface: constant surface
    speed in m/min, 0 when it is off; clamp: the highest rpm told, 0 if none was; lead: of a thread
    pass, mm a turn along Z, 0 for any other move.
    step: where there are subprograms, whose lines are run more than once, which of the lines run
    made it, from 1, else 0; calls: the lines of the calls that led to its line, the first in the
    main program.
    """

    kind: Literal["rapid", "line", "arc"]
    start: Point3
    end: Point3
    centre: tuple[float, float] | None
    turn: float
    plane: Literal["XY", "XZ", "YZ"]
    feed: float
    rpm: float
    spindle: Literal["off", "cw", "ccw"]
    tool: int
    length_offset: int
    work_offset: int
    side: Literal["off", "left", "right"]
    register: int
    line: int
    column: int
    per_turn: bool = False
    surface: float = 0.0
    clamp: float = 0.0
    lead: float = 0.0
    step: int = 0
    calls: tuple[int, ...] = ()

    @property
    def when(self) -> int:
        """Greater for what is run later."""
        return self.step or self.line


class Change(NamedTuple):
    """Something that is not a move: ``tool``, ``spindle``, ``clamp`` (the highest speed),
    ``coolant``, ``dwell``, ``stop``, ``end``, ``machine`` (a move in machine coordinates), and its
    value in words. step, calls: as of a cut."""

    kind: str
    value: str
    line: int
    column: int
    step: int = 0
    calls: tuple[int, ...] = ()

    @property
    def when(self) -> int:
        """Greater for what is run later."""
        return self.step or self.line


class ReadFault(NamedTuple):
    """A block that the control would refuse: a code, what is wrong and how to mend it. calls: of
    the first time that it is run, as of a cut."""

    code: str
    what: str
    mend: str
    line: int
    column: int
    calls: tuple[int, ...] = ()


@dataclass(frozen=True)
class Program:
    """A whole text, read. `units`: the last unit word, mm or inch; `ended`: an end word was met;
    `rapids`: how the control runs them, `x`: what a lathe's X words are, both as its kind does (see
    `Control`)."""

    name: str
    lines: tuple[str, ...]
    cuts: tuple[Cut, ...]
    changes: tuple[Change, ...] = ()
    faults: tuple[ReadFault, ...] = ()
    comments: tuple[tuple[int, str], ...] = field(default=())
    units: Literal["mm", "inch"] = "mm"
    ended: bool = False
    rapids: Literal["straight", "dog-leg", "either"] = "either"
    x: Literal["length", "diameter"] = "diameter"
