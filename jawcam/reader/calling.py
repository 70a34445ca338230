"""Kinds of control that call subprograms, made of those that don't."""

from __future__ import annotations

from dataclasses import replace

from jawcam.reader.control import Control, Subprograms

__all__ = ["calling"]


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
