"""What a person must be told before a program is run. Common practice, no source, but for the
guards, which 29 CFR 1910.212 asks for at the point of operation, and the length that may stand out
of a chuck unsupported, which is a trade guide's."""

from __future__ import annotations

__all__ = ["ON_LATHE", "ON_MILL"]

_FIRST = "Proven on paper only: a qualified person checks it for this machine"
_LAST = (
    "Guards closed, eyes protected, spindle stopped before hands go in",
    "Local codes and the machine builder's documents come first",
)

ON_MILL = (
    _FIRST,
    "Start with the tool clear above everything; check units, offsets, tools",
    "Dry run well above the jaws, then single block, rapids turned down",
    *_LAST,
)
"""One line each, at the head of every program of a mill and on its picture."""

ON_LATHE = (
    _FIRST,
    "Start with the tool clear of chuck and work; check units, offsets, tools",
    "Chuck key out first; check the jaws' screws, grip and opening",
    "No faster than chuck, jaws, balance allow; the clamp is told first",
    "Tailstock or steady where more than 3 times the diameter stands out",
    "Dry run well off the chuck, then single block, rapids turned down",
    *_LAST,
)
"""Likewise for a lathe."""
