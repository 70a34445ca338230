"""What a person must be told before a program is run. Common practice, no source, but for the
first line of the long form: 29 CFR 1910.212 asks for guards at the point of operation."""

from __future__ import annotations

__all__ = ["LONG", "SHORT"]

SHORT = (
    "Proven on paper only: a qualified person checks it for this machine",
    "Start with the tool clear above everything; check units, offsets, tools",
    "Dry run well above the jaws, then single block, rapids turned down",
    "Guards closed, eyes protected, spindle stopped before hands go in",
    "Local codes and the machine builder's documents come first",
)
"""One line each, at the head of every program and on the picture."""

LONG = (
    *SHORT,
    "Tighten the jaw screws to the vise maker's torque; cut the jaws clamped as they will hold",
    "Check grip length, tool lengths and stick-out; nothing here knows the real holder",
    "First part at reduced feed, with a hand on feed hold and the distance to go in view",
    "Mind chips, coolant and fire (magnesium and titanium fines burn)",
)
"""For the sheet and the README."""
