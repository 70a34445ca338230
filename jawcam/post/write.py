"""The way from planned motions to a program's text."""

from __future__ import annotations

import math
from collections.abc import Sequence

from jawcam.errors import FaultList, Place
from jawcam.motion.moves import Motion, Point3
from jawcam.motion.passes import PASSES, ArcLimits, shifted
from jawcam.motion.repeats import expanded
from jawcam.motion.rounding import Grid, rounded
from jawcam.motion.short import merged
from jawcam.motion.thread_box import boxed
from jawcam.post.lathe_tables import LatheDialect
from jawcam.post.mill_tables import MillArcs, MillDialect
from jawcam.post.printer import printed
from jawcam.post.refuse import early_refusals, late_refusals, refusals
from jawcam.post.tables import Dialect
from jawcam.units import Units

__all__ = ["write"]


def write(
    motions: Sequence[Motion], dialect: Dialect, *, units: Units, zero: Point3 = (0.0, 0.0, 0.0)
) -> str:
    """The program for `motions` (mm, in the work's coordinates), written in `units` as seen from
    `zero`, a point as the motions have them: (X, Y, Z) of a mill, (Z, X, 0) of a lathe.

    Motions of several stations come here each seen from its own zero already.
    The same input gives the same text. Lines end in a line feed. Raises InputError, holding all
    that the dialect can't say.
    """
    limits = _limits(dialect, units)
    motions = shifted(motions, zero)
    early_refusals(motions, dialect, units).raise_if_any()
    for name in dialect.passes:
        motions = PASSES[name](motions, limits)
    refusals(tuple(expanded(motions)), dialect, units, limits).raise_if_any()
    motions = _regrouped(rounded(motions, _grid(dialect, units)), dialect, units)
    late_refusals(tuple(expanded(motions)), dialect, units).raise_if_any()
    text = printed(motions, dialect, units)
    _check_lengths(text, dialect)
    return text


def _regrouped(motions: Sequence[Motion], dialect: Dialect, units: Units) -> tuple[Motion, ...]:
    """The rounded motions with those together that the dialect writes as one."""
    match dialect:
        case MillDialect():
            shortest, chord = dialect.moves.shortest.of(units), dialect.moves.merge_chord.of(units)
            return merged(motions, units.to_mm(shortest), units.to_mm(chord))
        case LatheDialect() if dialect.thread.form == "cycle":
            return boxed(motions, tapered=bool(dialect.thread.cycle_taper))
    return tuple(motions)


def _limits(dialect: Dialect, units: Units) -> ArcLimits:
    arcs = dialect.arcs
    chord = arcs.chord.of(units)
    helix_chord = arcs.helix_chord.of(units) if isinstance(arcs, MillArcs) else chord
    return ArcLimits(
        largest_sweep=math.radians(arcs.largest_sweep),
        largest_radius=units.to_mm(arcs.largest_radius.of(units)),
        chord=units.to_mm(chord),
        helix_chord=units.to_mm(helix_chord),
    )


def _grid(dialect: Dialect, units: Units) -> Grid:
    return Grid(
        units=units,
        decimals=dialect.numbers.decimals.of(units),
        centre_decimals=dialect.numbers.centre_decimals.of(units),
        mismatch=dialect.arcs.mismatch.of(units),
        centre=dialect.arcs.centre,
        factors=dialect.factors,
    )


def _check_lengths(text: str, dialect: Dialect) -> None:
    """Raise InputError for lines that are too long (NISTIR 6556 section 3.3: 256 characters)."""
    faults, most = FaultList(), dialect.blocks.max_length
    for number, line in enumerate(text.splitlines(), 1):
        if len(line) > most:
            what = f"line {number} of the program has {len(line)} characters, {most} is the most"
            faults.add(what, Place(dialect.name), "shorten the name or the line in the post")
    faults.raise_if_any()
