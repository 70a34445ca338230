"""What a job says of what stands round the cutter's work: frozen, in mm."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["Spacer", "Vise"]


@dataclass(frozen=True)
class Vise:
    """The vise round the blanks. top: the Z of its own jaws, which stand behind the blanks; width:
    of them along X; back: how far each reaches back from its blank; bed: the Z of its bed. None:
    wider and farther than anything, and right under the blanks."""

    top: float
    width: float | None = None
    back: float | None = None
    bed: float | None = None


@dataclass(frozen=True)
class Spacer:
    """What holds the blanks their gap apart while they are cut. top: its Z; x: where it begins and
    ends along X, None: it is longer than anything."""

    top: float
    x: tuple[float, float] | None = None
