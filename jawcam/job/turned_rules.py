"""What must hold between the diameters of a turned part and of its bore."""

from __future__ import annotations

import math
from collections.abc import Iterator

from jawcam.job.check import Values
from jawcam.job.lookup import Broken, Rule, items
from jawcam.part.piece import Piece
from jawcam.part.thread_form import ThreadFitError, form_of
from jawcam.part.threads import ThreadError
from jawcam.units import Units

__all__ = ["TURNED_RULES"]

_NEAR = 1e-6  # mm; what arithmetic leaves between sizes that are meant to be the same


def _pieces(job: Values) -> Iterator[tuple[tuple[str | int, ...], Values]]:
    part = job.get("part", {})
    for name in ("turned", "bore"):
        for path, piece in items(part, name):
            yield ("part", *path), piece


def _one_break(job: Values, _units: Units) -> Iterator[Broken]:
    for path, piece in _pieces(job):
        if piece.get("chamfer") and piece.get("round"):
            what = "these corners are chamfered already"
            yield (*path, "round"), what, "leave out round or chamfer"


def _taper(piece: Values) -> bool:
    start, end = piece.get("dia", (0.0, 0.0))
    return bool(abs(start - end) > _NEAR)


def _limits(job: Values, _units: Units) -> Iterator[Broken]:
    for path, piece in _pieces(job):
        if "limits" not in piece:
            continue
        upper, lower = piece["limits"]
        if _taper(piece):
            what = "a taper has no limits, only a cylinder has"
            yield (*path, "limits"), what, "leave them out, or give one dia"
        if upper < lower:
            what = "the upper deviation is less than the lower one"
            yield (*path, "limits"), what, "write the upper one first"


def _threads(job: Values, units: Units) -> Iterator[Broken]:
    for path, piece in _pieces(job):
        if piece.get("thread") is None or not ("dia" in piece and "len" in piece):
            continue
        try:
            form_of(_plain(piece), inside="bore" in path, units=units)
        except ThreadFitError as misfit:
            yield (*path, misfit.key), misfit.what, misfit.mend
        except ThreadError:
            pass  # its limits, which are told where it is cut


def _plain(piece: Values) -> Piece:
    """A stretch as far as its thread is concerned."""
    start, end = piece["dia"]
    limits, thread = piece.get("limits"), piece["thread"]
    return Piece(start, end, piece["len"], limits=limits, thread=thread)


def _lengths(pieces: list[Values]) -> list[float]:
    return [piece["len"] for piece in pieces]


def _sound(job: Values, name: str) -> list[Values]:
    """The pieces, none of them if one lacks its diameter or length."""
    pieces: list[Values] = job.get("part", {}).get(name, [])
    return pieces if all("dia" in one and "len" in one for one in pieces) else []


def _bore_length(job: Values, units: Units) -> Iterator[Broken]:
    outside, bore = _sound(job, "turned"), _sound(job, "bore")
    whole, deep = sum(_lengths(outside)), sum(_lengths(bore))
    if outside and deep > whole + _NEAR:
        what = f"the bore is {units.say(deep)} long, and the part only {units.say(whole)}"
        yield ("part", "bore"), what, "make it shorter, or the part longer"


def _bore_inside(job: Values, units: Units) -> Iterator[Broken]:
    outside = [
        (low, high, _to_root(piece, units, inside=False), piece)
        for low, high, piece in _spans(_sound(job, "turned"))
    ]
    for number, (begin, end, hole) in enumerate(_spans(_sound(job, "bore")), 1):
        wide = _to_root(hole, units, inside=True)
        for low, high, dia, piece in outside:
            ends = max(begin, low), min(end, high)
            if ends[1] - ends[0] <= _NEAR:
                continue
            around = [_between(dia, low, high, z) for z in ends]
            bored = [_between(wide, begin, end, z) for z in ends]
            if any(one >= other for one, other in zip(bored, around, strict=True)):
                root = ", threads counted" if hole.get("thread") or piece.get("thread") else ""
                what = f"the bore is as wide as the part is there, {units.say(min(around))}{root}"
                yield ("part", "bore", number, "dia"), what, "make it smaller, or shorter"
                break


def _to_root(piece: Values, units: Units, *, inside: bool) -> tuple[float, float]:
    """The diameters at both ends of a stretch; across the roots where it has a thread."""
    start, end = piece["dia"]
    if not piece.get("thread"):
        return start, end
    try:
        form = form_of(_plain(piece), inside=inside, units=units)
    except (ThreadFitError, ThreadError):
        return start, end  # which is told elsewhere
    off = 2 * form.depth if inside else -2 * form.depth
    return form.first + off, form.last + off


def _spans(pieces: list[Values]) -> Iterator[tuple[float, float, Values]]:
    """Each piece with where it begins and ends, from end A."""
    begin = 0.0
    for piece in pieces:
        yield begin, begin + piece["len"], piece
        begin += piece["len"]


def _between(dia: tuple[float, float], begin: float, end: float, z: float) -> float:
    start, last = dia
    return start + (last - start) * (z - begin) / (end - begin)


def _breaks(job: Values, units: Units) -> Iterator[Broken]:
    """Chamfers and radii must leave something of the piece and of the step beside them."""
    whole = sum(_lengths(_sound(job, "turned"))) or math.inf  # a drawing's length is not known
    for name in ("turned", "bore"):
        pieces = _sound(job, name)
        through = sum(_lengths(pieces)) > whole - _NEAR
        for number, piece in enumerate(pieces, 1):
            key = "chamfer" if piece.get("chamfer") else "round"
            size = piece.get(key)
            if not size:
                continue
            steps = _steps(pieces, number - 1, inside=name == "bore", through=through)
            what, mend = _break_fault(piece, size, steps, units)
            if what:
                yield ("part", name, number, key), what, mend


def _steps(pieces: list[Values], at: int, *, inside: bool, through: bool) -> list[float]:
    """How high the steps are at the outer corners of a piece, from none to two of them.

    The outside ends in steps down to the axis; a bore opens into the face of end A, and into that
    of end B if it goes through.
    """
    start, end = pieces[at]["dia"]
    sign = -1 if inside else 1
    before, after = (math.inf, math.inf if through else 0.0) if inside else (0.0, 0.0)
    if at > 0:
        before = pieces[at - 1]["dia"][1]
    if at < len(pieces) - 1:
        after = pieces[at + 1]["dia"][0]
    steps = (sign * (start - before) / 2, sign * (end - after) / 2)
    return [step for step in steps if step > _NEAR]


def _break_fault(piece: Values, size: float, steps: list[float], units: Units) -> tuple[str, str]:
    """Say what is wrong with the chamfer or the radius of a piece; "" if nothing is."""
    if not steps:
        return "this piece has no outer corner, as its neighbours are no smaller", "leave it out"
    if size >= piece["len"] / len(steps):
        both = "half its length, as both its corners are broken" if len(steps) > 1 else "its length"
        return f"this must be less than {both}, {units.say(piece['len'] / len(steps))}", _SMALLER
    if size >= min(piece["dia"]) / 2:
        return f"this must be less than the radius, {units.say(min(piece['dia']) / 2)}", _SMALLER
    if size > min(steps) + _NEAR:
        return f"the step beside it is only {units.say(min(steps))} high", _SMALLER
    return "", ""


_SMALLER = "make it smaller"

TURNED_RULES: tuple[Rule, ...] = (
    _one_break,
    _limits,
    _threads,
    _bore_length,
    _bore_inside,
    _breaks,
)
"""What is asked of each turned part."""
