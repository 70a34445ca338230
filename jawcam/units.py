"""Millimetres inside; the only place that knows the inch (25.4 mm, ISO 31-1 and NIST SP 811)."""

from __future__ import annotations

from enum import Enum

__all__ = ["MM_PER_INCH", "Units"]

MM_PER_INCH = 25.4


class Units(Enum):
    """A length unit of a job, a drawing or a program."""

    MM = "mm"
    INCH = "inch"

    @property
    def in_mm(self) -> float:
        """Millimetres per unit."""
        return MM_PER_INCH if self is Units.INCH else 1.0

    def to_mm(self, value: float) -> float:
        """A length in this unit -> mm."""
        return value * self.in_mm

    def from_mm(self, value: float) -> float:
        """A length in mm -> this unit."""
        return value / self.in_mm

    def say(self, value: float) -> str:
        """A length in mm -> words in this unit, such as ``12.5 mm`` or ``0.4921 in``."""
        digits, mark = (4, "in") if self is Units.INCH else (3, "mm")
        return f"{self.number(value, digits)} {mark}"

    def number(self, value: float, digits: int) -> str:
        """A length in mm -> a number in this unit without trailing zeros."""
        text = f"{self.from_mm(value):.{digits}f}"
        if "." in text:
            text = text.rstrip("0").rstrip(".")
        return "0" if text == "-0" else text

    def point(self, x: float, y: float, z: float | None = None) -> str:
        """A point in mm -> words in this unit, such as ``X 3.2 Y -1``."""
        digits = 4 if self is Units.INCH else 3
        words = [f"X {self.number(x, digits)}", f"Y {self.number(y, digits)}"]
        if z is not None:
            words.append(f"Z {self.number(z, digits)}")
        return " ".join(words)
