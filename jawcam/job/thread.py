"""Designations of screw threads, as far as a job needs them: their form and their diameter.

ISO metric threads are written as in ISO 965-1, inch threads as in ASME B1.1.
"""

from __future__ import annotations

import re
from fractions import Fraction

from jawcam.job.words import WrongValueError, quoted
from jawcam.units import MM_PER_INCH

__all__ = ["is_inside", "majors"]

_METRIC = re.compile(
    r"""M (?P<dia> [0-9]+ (?:\.[0-9]+)? )
    (?: [ ]? [x\N{MULTIPLICATION SIGN}] [ ]? (?P<pitch> [0-9]*\.?[0-9]+ ) )?
    (?: [ -] (?P<class> (?:[0-9]+[a-z]){1,2} | (?:[0-9]+[A-Z]){1,2} ) )?""",
    re.VERBOSE,
)
_INCH = re.compile(
    r"""(?: \#(?P<gauge> [0-9]+ )
        | (?: (?P<whole> [0-9]+ )[ -] )? (?P<part> [0-9]+/[0-9]*[1-9][0-9]* )
        | (?P<dia> [0-9]*\.?[0-9]+ )
    )
    - (?P<per_inch> [0-9]+ (?:\.[0-9]+)? )
    [ ] UN (?: R? (?: C | F | EF )? | S )
    (?: [ -] (?P<class> [123][AB] ) )?""",
    re.VERBOSE,
)
_MEND = 'write it such as "M20x2.5 6g" or "1/2-13 UNC 2A"'
_MOST_GAUGE = 12


def majors(designation: str) -> tuple[float, ...]:
    """Give the major diameter in mm; two where a number may be of inches or of a gauge.

    ``1-64 UNC`` is such a one: gauge numbers run from 0 to 12, and n stands for 0.060 + 0.013 n
    inches (ASME B1.1). Raises WrongValueError if the designation can't be read.
    """
    if metric := _METRIC.fullmatch(designation):
        dia, pitch = float(metric["dia"]), metric["pitch"]
        if dia > 0 and (pitch is None or 0 < float(pitch) < dia):
            return (dia,)
    elif inch := _INCH.fullmatch(designation):
        found = tuple(size * MM_PER_INCH for size in _inches(inch) if size > 0)
        if found and float(inch["per_inch"]) > 0:
            return found
    raise WrongValueError(f"{quoted(designation)} is no designation of a thread", _MEND)


def _inches(match: re.Match[str]) -> tuple[float, ...]:
    if match["gauge"]:
        gauge = int(match["gauge"])
        return (_of_gauge(gauge),) if gauge <= _MOST_GAUGE else ()
    if match["part"]:
        return (int(match["whole"] or 0) + float(Fraction(match["part"])),)
    size = match["dia"]
    if size.isdigit() and int(size) <= _MOST_GAUGE:
        return float(size), _of_gauge(int(size))
    return (float(size),)


def _of_gauge(number: int) -> float:
    return 0.060 + 0.013 * number


def is_inside(designation: str) -> bool | None:
    """Tell by its class whether a thread is an inside one; None if it states no class."""
    match = _METRIC.fullmatch(designation) or _INCH.fullmatch(designation)
    if not match or not match["class"]:
        return None
    if designation.startswith("M"):
        return match["class"][-1].isupper()
    return match["class"][-1] == "B"
