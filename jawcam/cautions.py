"""What a person must be told before a program is run. Common practice, no source, but for the
guards, which 29 CFR 1910.212 asks for at the point of operation."""

from __future__ import annotations

__all__ = ["SHORT"]

SHORT = (
    "Proven on paper only: a qualified person checks it for this machine",
    "Start with the tool clear above everything; check units, offsets, tools",
    "Dry run well above the jaws, then single block, rapids turned down",
    "Guards closed, eyes protected, spindle stopped before hands go in",
    "Local codes and the machine builder's documents come first",
)
"""One line each, at the head of every program and on the picture."""
