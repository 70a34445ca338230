"""Limits of size of screw threads: ISO 965-1 metric, ASME B1.1 unified.

The tabled values of ISO 965-1 win over its formulas. What is marked so is written down from
memory; the tests hold it against the formulas and against limits that are in print.
"""

from __future__ import annotations

import itertools
import math
import re
from dataclasses import dataclass

from jawcam.part.threads import UNIFIED, ThreadError, ThreadSize
from jawcam.units import MM_PER_INCH

__all__ = ["Span", "ThreadLimits", "limits_of", "r40"]

_MICRON = 1e-3
_INCHES = 1e-4  # unified tolerances are whole ten-thousandths of an inch


@dataclass(frozen=True)
class Span:
    """The least and the most that a diameter may be, mm; None where nothing is laid down."""

    least: float | None
    most: float | None


@dataclass(frozen=True)
class ThreadLimits:
    """The limits of a thread's diameters in mm. minor: at the root's flat, which the other
    thread's crest must clear (outside), or of the bore (inside); root: across an outside thread's
    rounded root, ISO's d3 or that of a UNR thread."""

    major: Span
    pitch: Span
    minor: Span
    root: Span


_FREE = Span(None, None)

# Micrometres by pitch: the deviation g (and G, upwards) and the tolerances of grade 6: of an
# outside thread's major diameter and of a bore. Compared with reprints of ISO 965-1: g and the
# major diameter for 0.5 and 0.8 to 3, g for 0.7 too, the bore for 1.5; the others are from memory.
_TABLE = (
    (0.35, 19, 85, 100),
    (0.4, 19, 95, 112),
    (0.45, 20, 100, 125),
    (0.5, 20, 106, 140),
    (0.6, 21, 125, 160),
    (0.7, 22, 140, 180),
    (0.75, 22, 140, 190),
    (0.8, 24, 150, 200),
    (1.0, 26, 180, 236),
    (1.25, 28, 212, 265),
    (1.5, 32, 236, 300),
    (1.75, 34, 265, 335),
    (2.0, 38, 280, 375),
    (2.5, 42, 335, 450),
    (3.0, 48, 375, 500),
    (3.5, 53, 425, 560),
    (4.0, 60, 475, 600),
    (4.5, 63, 500, 670),
    (5.0, 71, 530, 710),
    (5.5, 75, 560, 750),
    (6.0, 80, 600, 800),
)
_G = {pitch: g for pitch, g, _, _ in _TABLE}
_MAJOR = {pitch: major for pitch, _, major, _ in _TABLE}
_BORE = {pitch: bore for pitch, _, _, bore in _TABLE}
_PITCH = {(3.96, 0.5): 75}  # from memory: the formula gives 80 for M3 to M5 with pitch 0.5
_STEPS = (0.99, 1.4, 2.8, 5.6, 11.2, 22.4, 45.0, 90.0, 180.0, 355.0)

# What a grade's tolerance is, as a multiple of grade 6's: 4 and 8 as reprints of ISO 965-1 give
# them, the others from memory; those of an inside pitch diameter of an outside one's grade 6.
_MAJOR_GRADES = {4: 0.63, 6: 1.0, 8: 1.6}
_PITCH_GRADES = {3: 0.5, 4: 0.63, 5: 0.8, 6: 1.0, 7: 1.25, 8: 1.6, 9: 2.0}
_BORE_GRADES = {4: 0.63, 5: 0.8, 6: 1.0, 7: 1.25, 8: 1.6}
_INSIDE_GRADES = {4: 0.85, 5: 1.06, 6: 1.32, 7: 1.7, 8: 2.12}

# The same for classes 1 to 3 of ASME B1.1 (2A in print, the others from memory).
_CLASSES = {"1A": 1.5, "2A": 1.0, "3A": 0.75, "1B": 1.95, "2B": 1.3}
_BY_DIAMETER = (4.0, 6.0, 8.0)  # threads per inch: UN threads whose engagement is D, from memory


def limits_of(size: ThreadSize, *, inside: bool | None = None) -> ThreadLimits:
    """Work out the limits of a thread in mm.

    inside: asked only where the class doesn't tell; without a class 6g and 6H, 2A and 2B are
    taken. Raises ThreadError for a class or a size that the tables don't hold.
    """
    bore = bool(inside) if size.inside is None else size.inside
    if size.metric:
        grade = size.grade or ("6H" if bore else "6g")
        return _metric_inside(size, grade) if bore else _metric_outside(size, grade)
    grade = size.grade or ("2B" if bore else "2A")
    if grade not in _CLASSES:
        raise _no_class(size, grade, "1A, 2A, 3A, 1B or 2B")
    return _unified_inside(size, grade) if bore else _unified_outside(size, grade)


def r40(value: float) -> float:
    """Round to the nearest of the preferred numbers R40 (ISO 3), as ISO 965-1 does; in whole
    units from 10 on."""
    decade, place = divmod(round(40 * math.log10(value)), 40)
    found = _R40[place] * 10.0**decade
    return float(math.floor(found + 0.5)) if found >= 10 else found


_R40 = (
    *(1.0, 1.06, 1.12, 1.18, 1.25, 1.32, 1.4, 1.5, 1.6, 1.7, 1.8, 1.9, 2.0, 2.12, 2.24, 2.36),
    *(2.5, 2.65, 2.8, 3.0, 3.15, 3.35, 3.55, 3.75, 4.0, 4.25, 4.5, 4.75, 5.0, 5.3, 5.6, 6.0),
    *(6.3, 6.7, 7.1, 7.5, 8.0, 8.5, 9.0, 9.5),
)


def _metric_outside(size: ThreadSize, grade: str) -> ThreadLimits:
    pitch_grade, pitch_letter, major_grade, letter = _grades(size, grade)
    if pitch_letter != letter or letter not in "gh":
        raise _no_class(size, grade, "g or h, such as 6g")
    upper = -_deviation(size.pitch) if letter == "g" else 0.0
    width = _of_grade(_major_six(size.pitch), major_grade, _MAJOR_GRADES, size, grade)
    pitch_width = _of_grade(_pitch_six(size), pitch_grade, _PITCH_GRADES, size, grade)
    pitch = Span(size.pitch_diameter + upper - pitch_width, size.pitch_diameter + upper)
    # ISO 965-1: the least rounding of the root is 0.125 P, which gives d3 = d2 - H + P/4
    root = Span(
        size.pitch_diameter + upper - pitch_width - size.height + size.pitch / 4, size.root + upper
    )
    major = Span(size.major + upper - width, size.major + upper)
    return ThreadLimits(major, pitch, Span(None, size.minor + upper), root)


def _metric_inside(size: ThreadSize, grade: str) -> ThreadLimits:
    pitch_grade, pitch_letter, bore_grade, letter = _grades(size, grade)
    if pitch_letter != letter or letter not in "GH":
        raise _no_class(size, grade, "G or H, such as 6H")
    lower = _deviation(size.pitch) if letter == "G" else 0.0
    width = _of_grade(_bore_six(size.pitch), bore_grade, _BORE_GRADES, size, grade)
    pitch_width = _of_grade(_pitch_six(size), pitch_grade, _INSIDE_GRADES, size, grade)
    pitch = Span(size.pitch_diameter + lower, size.pitch_diameter + lower + pitch_width)
    minor = Span(size.minor + lower, size.minor + lower + width)
    return ThreadLimits(Span(size.major + lower, None), pitch, minor, _FREE)


def _grades(size: ThreadSize, grade: str) -> tuple[int, str, int, str]:
    """Take a class apart: the pitch diameter's grade and letter, and those of the crest."""
    found = re.findall(r"([0-9]+)([a-zA-Z])", grade)
    if not found:
        raise _no_class(size, grade, "6g or 6H")
    first, last = found[0], found[-1]
    return int(first[0]), first[1], int(last[0]), last[1]


def _no_class(size: ThreadSize, grade: str, mend: str) -> ThreadError:
    return ThreadError(
        f"there are no limits here for class {grade} of {size.designation}", f"take {mend}"
    )


def _of_grade(
    six: float, grade: int, factors: dict[int, float], size: ThreadSize, name: str
) -> float:
    """A grade's tolerance in mm from that of grade 6 in micrometres."""
    if grade not in factors:
        raise _no_class(size, name, f"a grade of {', '.join(map(str, factors))}")
    factor = factors[grade]
    return (six if factor == 1 else r40(six * factor)) * _MICRON


def _deviation(pitch: float) -> float:
    """The fundamental deviation g: ISO 965-1, clause 13, 15 + 11 P, in mm."""
    return (_G[pitch] if pitch in _G else r40(15 + 11 * pitch)) * _MICRON


def _major_six(pitch: float) -> float:
    """Td(6): ISO 965-1, clause 13."""
    if pitch in _MAJOR:
        return _MAJOR[pitch]
    return r40(180 * pitch ** (2 / 3) - 3.15 / math.sqrt(pitch))


def _bore_six(pitch: float) -> float:
    """TD1(6): ISO 965-1, clause 13, from memory."""
    if pitch in _BORE:
        return _BORE[pitch]
    return r40(433 * pitch - 190 * pitch**1.22 if pitch < 1 else 230 * pitch**0.7)


def _pitch_six(size: ThreadSize) -> float:
    """Td2(6): ISO 965-1, clause 13; by the geometric mean of the diameter's step."""
    for least, most in itertools.pairwise(_STEPS):
        if least < size.major <= most:
            mean = math.sqrt(least * most)
            tabled = _PITCH.get((round(mean, 2), size.pitch))
            return tabled or r40(90 * size.pitch**0.4 * mean**0.1)
    raise ThreadError(
        f"there are no limits for a thread of {size.major:g} mm",
        f"they are laid down for more than {_STEPS[0]:g} and up to {_STEPS[-1]:g} mm",
    )


def _unified_outside(size: ThreadSize, grade: str) -> ThreadLimits:
    per_inch, height = MM_PER_INCH / size.pitch, size.height / MM_PER_INCH
    # ASME B1.1: 0.3 of the rounded tolerance of 2A, itself rounded, halves to even; 3A has none
    allowance = 0 if grade == "3A" else round(3 * _tolerance(size, 1.0) / 10)
    crest = round(600 * per_inch ** (-2 / 3) * (1.5 if grade == "1A" else 1.0))
    top = size.major / MM_PER_INCH - allowance * _INCHES
    pitch = size.pitch_diameter / MM_PER_INCH - allowance * _INCHES
    return ThreadLimits(
        _inches(top - crest * _INCHES, top),
        _inches(pitch - _tolerance(size, _CLASSES[grade]) * _INCHES, pitch),
        _inches(None, pitch - height / 2),
        _inches(None, pitch - 5 / 8 * height),
    )


def _unified_inside(size: ThreadSize, grade: str) -> ThreadLimits:
    major, minor, step = (mm / MM_PER_INCH for mm in (size.major, size.minor, size.pitch))
    pitch = size.pitch_diameter / MM_PER_INCH
    # ASME B1.1, from memory
    if major < 0.25:
        bore = min(0.05 * step ** (2 / 3) + 0.03 * step / major - 0.002, 0.394 * step)
    else:
        bore = 0.15 * step if step >= 0.25 else 0.25 * step - 0.4 * step**2
    return ThreadLimits(
        _inches(major, None),
        _inches(pitch, pitch + _tolerance(size, _CLASSES[grade]) * _INCHES),
        _inches(minor, minor + bore),
        _FREE,
    )


def _inches(least: float | None, most: float | None) -> Span:
    return Span(*(None if inch is None else inch * MM_PER_INCH for inch in (least, most)))


def _tolerance(size: ThreadSize, factor: float) -> int:
    """A pitch diameter's tolerance: ASME B1.1, 5.8: 0.0015 (D^1/3 + LE^1/2 + 10 P^2/3) for 2A, in
    ten-thousandths of an inch. The engagement LE is D in the coarse and the fine series and 9 P
    elsewhere (the latter from memory)."""
    major, step = size.major / MM_PER_INCH, size.pitch / MM_PER_INCH
    by_diameter = round(1 / step, 6) in (
        *_BY_DIAMETER,
        *(UNIFIED[series].get(round(major, 6)) for series in ("UNC", "UNF")),
    )
    engaged = major if by_diameter else 9 * step
    terms = (math.cbrt(major), math.sqrt(engaged), 10 * math.cbrt(step) ** 2)
    return round(15 * sum(terms) * factor)
