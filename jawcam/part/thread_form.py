"""What a stretch with a thread is turned or bored to, and how deep its thread is cut.

A straight thread gets the middle of its limits (thread_limits); a tapered pipe thread its basic
sizes (pipe_threads); a metric or unified thread on a taper its basic profile, square to the axis.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from jawcam.part.piece import Piece
from jawcam.part.pipe_threads import TAPER, PipeThread, pipe_thread
from jawcam.part.thread_limits import Span, limits_of
from jawcam.part.threads import ThreadSize, readings, thread_of
from jawcam.units import Units

__all__ = ["ThreadFitError", "ThreadForm", "form_of", "majors", "thread_side"]

OFF = 0.02
"""mm that a diameter may be rounded from that of its thread."""

STEEPEST = 15.0
"""Degrees between the axis and a cone that a metric or unified thread is cut on: half of what a
flank leans (common practice, no source)."""

_NEAR = 1e-6  # mm; what arithmetic leaves between sizes that are meant to be the same
_LAST_DIGIT = 0.006  # mm by which a printed limit may be rounded

_OUTSIDE = "give it the class of an outside thread, such as 6g or 2A; of pipe threads R"
_INSIDE = "give it the class of an inside thread, such as 6H or 2B; of pipe threads Rc"


class ThreadFitError(ValueError):
    """A thread that doesn't go with its stretch: at which `key` of it, `what` is wrong and how to
    `mend` it."""

    def __init__(self, key: str, what: str, mend: str) -> None:
        super().__init__(f"{key}: {what}: {mend}")
        self.key, self.what, self.mend = key, what, mend


@dataclass(frozen=True)
class ThreadForm:
    """A thread as it is made. first, last: the diameters across its crests, which its stretch is
    turned or bored to, at the stretch's beginning and end; depth: from crest to root on radius,
    square to the axis; flanks: the angle between them, degrees; all else in mm."""

    first: float
    last: float
    depth: float
    pitch: float
    starts: int
    flanks: float


def thread_side(designation: str) -> bool | None:
    """Whether a designation is of an inside thread; None where it doesn't tell. Raises
    ThreadError."""
    piped = pipe_thread(designation)
    return thread_of(designation).inside if piped is None else piped.inside


def majors(designation: str) -> tuple[float, ...]:
    """The major diameter in mm, of a pipe thread that in the gauge plane; two where a number may
    be of inches or of a gauge, the likelier one first. Raises ThreadError."""
    piped = pipe_thread(designation)
    if piped is not None:
        return (piped.major,)
    return tuple(size.major for size in readings(designation))


def form_of(piece: Piece, *, inside: bool, units: Units) -> ThreadForm:
    """How the thread of a piece is made.

    On the outside the piece's diameter is the thread's major one. In a bore it is either that too,
    and the bore gets the middle of the limits of the minor one, or a diameter within these limits,
    which the bore then gets. A thread without a class is taken for 6g or 6H, 2A or 2B; `limits` of
    the piece are kept. The depth is that of a point like the standard's own root: rounded by H/6
    outside (ISO 68-1, DIN 13), an eighth of the pitch wide inside.

    Raises ThreadFitError where the two don't go together, ThreadError for a thread that can't be
    read and for one whose limits the tables lack.
    """
    side = thread_side(piece.thread)
    if side is not None and side != inside:
        what = f"{piece.thread} is a thread {'inside a bore' if side else 'on the outside'}"
        raise ThreadFitError("thread", what, _INSIDE if inside else _OUTSIDE)
    piped = pipe_thread(piece.thread)
    if piped is not None:
        return _piped(piece, piped, inside=inside, units=units)
    sizes = readings(piece.thread)
    if abs(piece.start - piece.end) > _NEAR:
        return _coned(piece, sizes, inside=inside, units=units)
    made = _bored if inside else _turned
    return made(piece, sizes, units)


def _turned(piece: Piece, sizes: tuple[ThreadSize, ...], units: Units) -> ThreadForm:
    found = [size for size in sizes if abs(size.major - piece.start) <= OFF + _NEAR]
    if not found:
        named = " or ".join(units.say(size.major) for size in sizes)
        what = f"the major diameter of {piece.thread} is {named}"
        raise ThreadFitError("dia", what, "give it as dia, or name another thread")
    limits = limits_of(found[0], inside=False)
    crest = _middle(limits.major) if piece.limits is None else piece.start + sum(piece.limits) / 2
    # the rounded root lies H/3 below the pitch diameter
    root = _middle(limits.pitch) - 2 / 3 * found[0].height
    return _straight(found[0], crest, crest - root)


def _bored(piece: Piece, sizes: tuple[ThreadSize, ...], units: Units) -> ThreadForm:
    for size in sizes:
        limits = limits_of(size, inside=True)
        # the root is an eighth of the sharp triangle's height short of that triangle's corner
        root = _middle(limits.pitch) + 3 / 4 * size.height
        if abs(size.major - piece.start) <= OFF + _NEAR and piece.limits is None:
            crest = _middle(limits.minor)
            return _straight(size, crest, root - crest)
        least, most = _both(limits.minor)
        if least - _LAST_DIGIT <= piece.start <= most + _LAST_DIGIT:
            crest = piece.start + sum(piece.limits or (0.0, 0.0)) / 2
            return _straight(size, crest, root - crest)
    least, most = _both(limits.minor)
    what = f"the bore of {piece.thread} is {units.say(least)} to {units.say(most)} before its "
    what += f"thread is cut, not {units.say(piece.start)}"
    mend = f"give such a dia, or {units.say(sizes[0].major)}, the thread's own, for the middle"
    raise ThreadFitError("dia", what, mend)


def _straight(size: ThreadSize, crest: float, deep: float) -> ThreadForm:
    return ThreadForm(crest, crest, abs(deep) / 2, size.pitch, size.starts, size.flanks)


def _coned(
    piece: Piece, sizes: tuple[ThreadSize, ...], *, inside: bool, units: Units
) -> ThreadForm:
    """A metric or unified thread on a taper: the limits of its class are those of cylinders."""
    small, large = sorted((piece.start, piece.end))
    if sizes[0].grade:
        bare = piece.thread.removesuffix(sizes[0].grade).rstrip(" -")
        what = f"class {sizes[0].grade} has limits for a cylinder, not for a taper"
        raise ThreadFitError("thread", what, f'leave it out, "{bare}", or give one dia')
    slope = (large - small) / 2 / piece.length
    if slope > math.tan(math.radians(STEEPEST)):
        what = f"a thread on a taper of {math.degrees(math.atan(slope)):.1f} degrees to the axis"
        raise ThreadFitError("dia", f"{what} is not cut", f"make it {STEEPEST:g} at most")
    for size in sizes:
        own = size.minor if inside else size.major
        if small - OFF <= own <= large + OFF:
            depth = size.inside_depth if inside else size.outside_depth
            return ThreadForm(piece.start, piece.end, depth, size.pitch, size.starts, size.flanks)
    named = " or ".join(units.say(size.minor if inside else size.major) for size in sizes)
    what = f"the taper nowhere has the {'minor' if inside else 'major'} diameter of {piece.thread}"
    raise ThreadFitError("dia", f"{what}, {named}", "let it begin or end there, or name another")


def _piped(piece: Piece, pipe: PipeThread, *, inside: bool, units: Units) -> ThreadForm:
    small, large = pipe.crests(piece.length, inside=inside)
    if not inside and piece.length < pipe.gauge_length - _NEAR:
        what = f"{pipe.designation} is {units.say(pipe.gauge_length)} long up to its gauge plane"
        raise ThreadFitError("len", what, "make it that long or longer")
    ends = (small, large) if piece.start < piece.end else (large, small)
    off = max(abs(a - b) for a, b in zip(ends, (piece.start, piece.end), strict=True))
    if off > OFF + _NEAR:
        digits = 4 if units is Units.INCH else 3
        right = ", ".join(units.number(dia, digits) for dia in (small, large))
        what = f"{pipe.designation} tapers 1 in {1 / TAPER:g}: over {units.say(piece.length)} its "
        what += f"{'bore goes' if inside else 'crests go'} from {right.replace(',', ' to')} across"
        raise ThreadFitError("dia", what, f"give dia = [{right}], or the two the other way round")
    return ThreadForm(*ends, pipe.depth, pipe.pitch, 1, pipe.flanks)


def _middle(span: Span) -> float:
    return sum(_both(span)) / 2


def _both(span: Span) -> tuple[float, float]:
    assert span.least is not None
    assert span.most is not None
    return span.least, span.most
