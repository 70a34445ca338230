"""What no single key of a lathe's post can tell."""

from __future__ import annotations

from jawcam.post.check_words import needs
from jawcam.post.fields import Form
from jawcam.post.lathe_tables import LatheDialect

__all__ = ["check_lathe"]


def check_lathe(dialect: LatheDialect, form: Form) -> None:
    """Note the faults of keys that don't go together."""
    _check_speeds(dialect, form)
    _check_threads(dialect, form)


def _check_speeds(dialect: LatheDialect, form: Form) -> None:
    """A speed that rises without a clamp could throw the work out of the chuck."""
    spindle = dialect.spindle
    if form.sound("spindle.surface", "spindle.clamp") and spindle.surface and not spindle.clamp:
        what = "constant surface speed needs a clamp that is told before it"
        form.fault(what, "spindle.clamp", "add its word, or leave spindle.surface empty")
    if form.sound("spindle.surface"):
        needs(form, "spindle.surface", (spindle.surface,), ("speed",), ("direction",))
    if form.sound("spindle.clamp"):
        needs(form, "spindle.clamp", (spindle.clamp,), ("clamp",))


def _check_threads(dialect: LatheDialect, form: Form) -> None:
    """Words of a thread that would be torn, or taken for others of the same block."""
    if not form.sound("thread", "moves.axes"):
        return
    thread, axes = dialect.thread, dialect.moves.axes
    if thread.word:
        _letter(form, "lead", thread.lead, axes)
    if thread.form != "cycle":
        return
    if not thread.cycle:
        mend = 'add its word, or choose the form "written out"'
        form.fault("passes as a cycle need its word", "thread.cycle", mend)
        return
    _letter(form, "cycle_lead", thread.cycle_lead, axes)
    if thread.cycle_taper:
        _letter(form, "cycle_taper", thread.cycle_taper, (*axes, thread.cycle_lead))


def _letter(form: Form, key: str, letter: str, others: tuple[str, ...]) -> None:
    name = "taper" if key == "cycle_taper" else "lead"
    if len(letter) != 1:
        form.fault(f"a thread needs the letter of its {name}", f"thread.{key}", "write one letter")
    elif letter in others:
        what = f"{letter} stands for something else in the same block"
        form.fault(what, f"thread.{key}", "write another letter")
