"""What no single key of a mill's post can tell."""

from __future__ import annotations

from jawcam.post.check_words import check_seconds, needs
from jawcam.post.fields import Form
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
    _check_circles(dialect, form)


def _check_circles(dialect: MillDialect, form: Form) -> None:
    arcs = dialect.arcs
    if not form.sound("arcs.centre", "arcs.full_circles"):
        return
    if arcs.centre == "unsigned" and arcs.full_circles:
        what = "centres without their signs can't say a full circle"
        mend = "set it false and add split_at_quadrants to the passes"
        form.fault(what, "arcs.full_circles", mend)


def _check_cycles(dialect: MillDialect, form: Form) -> None:
    """A cycle that leaves out what it is for would drill something else."""
    used = False
    for key, groups in _NEEDS.items():
        if not form.sound(f"cycles.{key}"):
            continue
        words = getattr(dialect.cycles, key)
        used = used or bool(words)
        if "{dwell}" in words:
            check_seconds(dialect, form, f"cycles.{key}")
        needs(form, f"cycles.{key}", (words,), *groups)
    for key in ("retract", "off") if used else ():
        if form.sound(f"cycles.{key}") and not getattr(dialect.cycles, key):
            form.fault("a cycle needs this", f"cycles.{key}", "add its word")


def _check_subprograms(dialect: MillDialect, form: Form) -> None:
    """A body is cut at the height of each of its calls, so it may not tell one."""
    if not form.sound("passes") or "repeats_to_calls" not in dialect.passes:
        return
    if dialect.passes[-1] != "repeats_to_calls":
        what = "a pass after 'repeats_to_calls' would not look into what is called"
        form.fault(what, "passes", "name 'repeats_to_calls' last")
    if form.sound("blocks.modal") and "coordinates" not in dialect.blocks.modal:
        what = "what is called may not tell its height, and each block tells all its coordinates"
        form.fault(what, "blocks.modal", "add 'coordinates', or drop 'repeats_to_calls'")
    for name in ("call", "head", "end"):
        key = f"subprograms.{name}"
        if form.sound(key) and not getattr(dialect.subprograms, name):
            form.fault("'repeats_to_calls' among the passes needs this", key, "add its words")
    if form.sound("subprograms.call", "subprograms.head"):
        needs(form, "subprograms.call", (dialect.subprograms.call,), ("subprogram",))
        needs(form, "subprograms.head", dialect.subprograms.head, ("subprogram",))
    _check_subprogram_numbers(dialect, form)


def _check_subprogram_numbers(dialect: MillDialect, form: Form) -> None:
    words, program = dialect.subprograms, dialect.program
    if not form.sound("subprograms.first", "subprograms.largest"):
        return
    if words.first > words.largest:
        what = "the first number of a subprogram is beyond the largest"
        form.fault(what, "subprograms.first", "lower it, or allow larger ones")
        return
    if not form.sound("program.number", "program.largest_number"):
        return
    if words.first <= max(program.number, program.largest_number):
        what = "a program could be called like one of its own subprograms"
        mend = "lower program.largest_number, or start beyond it"
        form.fault(what, "subprograms.first", mend)
