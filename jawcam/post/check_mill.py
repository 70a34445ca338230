"""What no single key of a mill's post can tell."""

from __future__ import annotations

from jawcam.post.check_words import check_seconds
from jawcam.post.fields import PLACE, Form
from jawcam.post.mill_tables import MillDialect

__all__ = ["check_mill"]

_NEEDS: dict[str, tuple[tuple[str, ...], ...]] = {
    "drill": (("hole",),),
    "dwell": (("hole",), ("dwell", "milliseconds")),
    "peck": (("hole",), ("peck",)),
    "peck_dwell": (("hole",), ("peck",), ("dwell", "milliseconds")),
}
"""What must stand in the words of each cycle: one of each group."""


def check_mill(dialect: MillDialect, form: Form) -> None:
    """Note the faults of keys that don't go together."""
    _check_cycles(dialect, form)
    _check_subprograms(dialect, form)
    arcs = dialect.arcs
    if arcs.centre == "unsigned" and arcs.full_circles:
        mend = "set it false and add split_at_quadrants to the passes"
        form.fault("centres without their signs can't say a full circle", "arcs.full_circles", mend)


def _check_cycles(dialect: MillDialect, form: Form) -> None:
    """A cycle that leaves out what it is for would drill something else."""
    used = False
    for key, groups in _NEEDS.items():
        words = getattr(dialect.cycles, key)
        used = used or bool(words)
        there = {place[1] for place in PLACE.finditer(words)}
        for names in groups if words else ():
            if not there & {*names}:
                missing = " or ".join(f"{{{name}}}" for name in names)
                form.fault(f"{missing} is missing", f"cycles.{key}", "add it, or leave no words")
        if "dwell" in there:
            check_seconds(dialect, form, f"cycles.{key}")
    for key in ("retract", "off") if used else ():
        if not getattr(dialect.cycles, key):
            form.fault("a cycle needs this", f"cycles.{key}", "add its word")


def _check_subprograms(dialect: MillDialect, form: Form) -> None:
    """A body is cut at the height of each of its calls, so it may not tell one."""
    words, program = dialect.subprograms, dialect.program
    if "repeats_to_calls" not in dialect.passes:
        return
    if dialect.passes[-1] != "repeats_to_calls":
        what = "a pass after 'repeats_to_calls' would not look into what is called"
        form.fault(what, "passes", "name 'repeats_to_calls' last")
    if "coordinates" not in dialect.blocks.modal:
        what = "what is called may not tell its height, and each block tells all its coordinates"
        form.fault(what, "blocks.modal", "add 'coordinates', or drop 'repeats_to_calls'")
    for key, lines in (("call", (words.call,)), ("head", words.head)):
        if not any(place[1] == "subprogram" for line in lines for place in PLACE.finditer(line)):
            form.fault("{subprogram} is missing", f"subprograms.{key}", "add its word")
    if not words.end:
        form.fault("a subprogram needs its return", "subprograms.end", "add its word")
    if words.first > words.largest:
        what = "the first number of a subprogram is beyond the largest"
        form.fault(what, "subprograms.first", "lower it, or allow larger ones")
    elif words.first <= max(program.number, program.largest_number):
        what = "a program could be called like one of its own subprograms"
        form.fault(what, "subprograms.first", "lower program.largest_number, or start beyond it")
