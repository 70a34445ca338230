"""The threads of a turned part: what their stretches are turned or bored to, and what is cut."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from jawcam.errors import FaultList, Place
from jawcam.hold.turn_target import Thread
from jawcam.part.piece import Piece
from jawcam.part.pipe_threads import pipe_thread
from jawcam.part.table import stretches
from jawcam.part.thread_form import ThreadFitError, ThreadForm, form_of
from jawcam.part.thread_limits import limits_of
from jawcam.part.threads import ThreadError, ThreadSize, readings
from jawcam.units import Units

__all__ = ["Threaded", "thread_words", "threaded", "threads_of"]


@dataclass(frozen=True)
class Threaded:
    """A table whose stretches with threads have the diameters that they are turned or bored to.

    pieces: its stretches; those of straight outside threads keep their nominal diameter and have
    the deviation from it as their limits, so that they make no corner beside the same nominal
    one. forms: of their threads, None for those without. inside: a bore's.
    """

    pieces: tuple[Piece, ...] = ()
    forms: tuple[ThreadForm | None, ...] = ()
    inside: bool = False


def threaded(
    pieces: Sequence[Piece], *, inside: bool, units: Units, place: Callable[[str], Place]
) -> Threaded:
    """Give the stretches of a table the diameters that their threads want. place: makes the place
    of a key such as ``bore[1].thread``. Raises InputError for threads that can't be made."""
    found, faults = [], FaultList()
    table = "bore" if inside else "turned"
    for number, piece in enumerate(pieces, 1):
        where = f"{table}[{number}]"
        try:
            found.append(form_of(piece, inside=inside, units=units) if piece.thread else None)
        except ThreadFitError as misfit:
            faults.add(misfit.what, place(f"{where}.{misfit.key}"), misfit.mend)
        except ThreadError as error:
            faults.add(error.what, place(f"{where}.thread"), error.mend)
    faults.raise_if_any()
    made = (
        piece if form is None else _made(piece, form, inside=inside)
        for piece, form in zip(pieces, found, strict=True)
    )
    whole = Threaded(tuple(made), tuple(found), inside)
    for number, what in _blocked(whole, units):
        mend = "turn its two diameters round, or what is beyond it"
        faults.add(what, place(f"{table}[{number}].dia"), mend)
    faults.raise_if_any()
    return whole


def _blocked(table: Threaded, units: Units) -> Iterator[tuple[int, str]]:
    """The tapered threads that nothing can be screwed on to or into, and why: on the outside that
    goes from their small end, in a bore from their large one."""
    rows = stretches(table.pieces)
    for k, (row, form) in enumerate(zip(rows, table.forms, strict=True)):
        if form is None or abs(form.first - form.last) < 1e-9:
            continue
        to_a = (form.first < form.last) != table.inside
        beyond = rows[:k] if to_a else rows[k + 1 :]
        own = (max if table.inside else min)(form.first, form.last)
        sizes = [2 * radius for one in beyond for radius in (one.first, one.last)]
        worst = (min if table.inside else max)(sizes, default=own)
        if (own - worst if table.inside else worst - own) > 1e-6:
            what = f"{row.piece.thread} is to be screwed together from end {'A' if to_a else 'B'}, "
            what += f"where it is {units.say(own)} across, and beyond that it is {units.say(worst)}"
            yield row.number, what


def _made(piece: Piece, form: ThreadForm, *, inside: bool) -> Piece:
    """A stretch as wide as the crests of its thread."""
    if inside or form.first != form.last:
        return replace(piece, start=form.first, end=form.last, limits=None)
    off = form.first - piece.start
    return replace(piece, limits=(off, off))


def threads_of(table: Threaded, length: float, *, free: str) -> Iterator[tuple[int, Thread]]:
    """The threads of a table and the numbers of their stretches, from the free end on, as they lie
    with that end at Z 0. length: of the part."""
    rows = zip(stretches(table.pieces), table.forms, strict=True)
    for row, form in rows if free == "A" else reversed(list(rows)):
        if form is None:
            continue
        ends = (-row.begin, -row.end) if free == "A" else (row.end - length, row.begin - length)
        crests = (form.first, form.last) if free == "A" else (form.last, form.first)
        yield (
            row.number,
            Thread(
                ends[0],
                ends[1],
                crests[0] / 2,
                crests[1] / 2,
                form.depth,
                form.pitch,
                form.starts,
                inside=table.inside,
                designation=row.piece.thread,
                flanks=form.flanks,
            ),
        )


def thread_words(thread: Thread, units: Units) -> str:
    """What the person should know of a thread before it is cut."""
    say, crests = units.say, [2 * thread.first, 2 * thread.last]
    across = f"{say(crests[0])} across"
    if abs(crests[0] - crests[1]) > 1e-6:
        across = f"{say(crests[0])} to {say(crests[1])} across, a taper"
    lead = f", {thread.starts} starts, lead {say(thread.starts * thread.pitch)}"
    what = "bore" if thread.inside else "crests"
    size = _straight(thread)
    helix = f", helix {size.lead_angle:.1f} degrees" if size else ""
    return (
        f"{thread.designation}{lead * (thread.starts > 1)}: its {what} {across}, "
        f"{say(thread.depth)} deep on radius for an insert of its own profile{helix}; try it with "
        f"a gauge{_wire_words(size, thread, units)}"
    )


def _straight(thread: Thread) -> ThreadSize | None:
    """The standard sizes of a thread on a cylinder; None of one on a taper."""
    if abs(thread.first - thread.last) > 1e-9 or pipe_thread(thread.designation) is not None:
        return None
    sizes = readings(thread.designation)
    return min(sizes, key=lambda size: abs(size.major - 2 * thread.first))


def _wire_words(size: ThreadSize | None, thread: Thread, units: Units) -> str:
    """What an outside thread measures over three wires."""
    if size is None or thread.inside:
        return ""
    pitch = limits_of(size, inside=False).pitch
    told = " to ".join(units.say(size.over_wires(d)) for d in (pitch.least, pitch.most) if d)
    return f", or over three wires of {units.say(size.wire)}: {told}"
