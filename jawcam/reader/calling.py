"""Kinds of control made of others: that call subprograms, or choose the units by other words."""

from __future__ import annotations

from dataclasses import replace

from jawcam.reader.control import Control, Subprograms
from jawcam.reader.modal import Group

__all__ = ["calling", "choosing_by_g20"]


def calling(row: Control) -> Control:
    """A kind of control that reads the same and calls subprograms besides: M98 P calls that of a
    number, which its head and M99 enclose; four deep at most; no repeats by L. ISO 6983 leaves both
    words to the control: common practice, no source."""
    return replace(
        row,
        name=f"{row.name}-subprograms",
        title=f"{row.title}; subprograms by M98 P and M99",
        groups=tuple(
            replace(group, codes={**group.codes, "M98": "call", "M99": "return"})
            if group.name == "stop"
            else group
            for group in row.groups
        ),
        subprograms=Subprograms(letter="P", largest=9999, deepest=4),
    )


def choosing_by_g20(row: Control, name: str) -> Control:
    """A kind of control that reads the same, subprograms too, and chooses inch and mm by G20 and
    G21, which ISO 6983 leaves to the control; its G80 ends a cycle and may stand beside a word for
    the motion: common practice, no source."""
    kind = calling(row)
    return replace(
        kind,
        name=name,
        title=f"{row.title}; G20 and G21 for the units, subprograms by M98 P and M99",
        groups=tuple(
            Group("units", "units", {"G20": "inch", "G21": "mm"})
            if group.name == "units"
            else group
            for group in kind.groups
        ),
        off_beside=True,
    )
