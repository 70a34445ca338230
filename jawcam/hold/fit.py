"""The clearance of a pocket that is asked for by the letters of an ISO 286 fit."""

from __future__ import annotations

from dataclasses import dataclass

from jawcam.errors import Fault, FaultList, InputError, InternalError, Place
from jawcam.job.model import Fit
from jawcam.part.fits import FitError, Zone, limits_of_fit, zone
from jawcam.units import Units

__all__ = ["FAR_OFF", "Fitted", "fitted"]

FAR_OFF = 0.5
"""mm; where the part is drawn further off the fit's size than this, a person is told (common
practice, no source)."""

_ANY = 10.0  # mm; a size to look a class up at where none is known
_HAIR = 1e-9  # mm; what is left of the floating point's noise


@dataclass(frozen=True)
class Fitted:
    """grip: by how much the outline, as it is drawn, grows all round, in mm; notes: a line each."""

    grip: float
    notes: tuple[str, ...]


def fitted(fit: Fit, held: float | None, units: Units, place: Place) -> Fitted:
    """Work out the clearance all round of a pocket whose size is drawn at the middle of its
    limits.

    held: the diameter of the part where it is held, as drawn, in mm; None for an outlined part,
    whose outline is drawn at the fit's own size. A fit without letters is taken as it is. Raises
    InputError at `place` for letters or a size that the tables of ISO 286 lack, and for a pocket
    that would be smaller than the part is drawn.
    """
    if not fit.letters:
        return Fitted(fit.grip, ())
    size = held if fit.size is None else fit.size
    faults = FaultList()
    if size is None:
        what = f"the fit {fit.letters} lacks the size that it is for: an outline has no diameter"
        faults.add(what, place, "give size, or the clearance as grip in figures")
    try:
        hole, notes = _told(fit.letters, size or _ANY, units)
    except FitError as error:
        mend = f"{error.mend}, or give the clearance as grip in figures"
        faults.add(error.what, place, mend)
    faults.raise_if_any()
    if size is None:
        raise InternalError("a fit without a size was let through")
    drawn = size if held is None else held
    grip = (size + hole.middle - drawn) / 2
    if grip < -_HAIR:
        raise InputError(_smaller(fit.letters, size + hole.middle, drawn, units, place))
    if abs(drawn - size) > FAR_OFF:
        far = f"where it is held the part is drawn at {units.say(drawn)}"
        notes += (f"caution: the fit is for {units.say(size)}, but {far}",)
    return Fitted(max(grip, 0.0), notes)


def _told(letters: str, size: float, units: Units) -> tuple[Zone, tuple[str, ...]]:
    """The pocket's zone, and the fit in words."""
    inches = units is Units.INCH
    heading = f"fit {letters} on {units.number(size, 5 if inches else 4)} {_mark(units)}: pocket"
    if "/" not in letters:
        if not letters.strip()[:1].isupper():
            raise FitError(
                f'"{letters}" is no class for a pocket',
                "write it in capitals, such as H7, or both the pocket's and the part's: H7/g6",
            )
        hole = zone(size, letters)
        return hole, (f"{heading} {_limits(hole, size, units)}, {_middle(hole, size, units)}",)
    both = limits_of_fit(size, letters)
    line = (
        f"{heading} {_limits(both.hole, size, units)}, part {_limits(both.shaft, size, units)}, "
        f"play {_fine(both.least, units)} to {_say(both.most, units)}, "
        f"{_middle(both.hole, size, units)}"
    )
    if both.least >= -_HAIR:
        return both.hole, (line,)
    caution = (
        f"caution: the part may be up to {_say(-both.least, units)} larger than the pocket, "
        f"and then bears on the pocket's rims only"
    )
    return both.hole, (line, caution)


def _smaller(letters: str, pocket: float, drawn: float, units: Units, place: Place) -> Fault:
    return Fault(
        f"the pocket would be smaller than the part: {letters} makes it {_say(pocket, units)}, "
        f"and the part is drawn at {_say(drawn, units)} where it is held",
        place,
        "leave size out to take the diameter held, or choose a looser fit",
    )


def _limits(limits: Zone, size: float, units: Units) -> str:
    return f"{_fine(size + limits.lower, units)} to {_say(size + limits.upper, units)}"


def _middle(limits: Zone, size: float, units: Units) -> str:
    return f"cut to {_say(size + limits.middle, units)}"


def _say(value: float, units: Units) -> str:
    return f"{_fine(value, units)} {_mark(units)}"


def _mark(units: Units) -> str:
    return "in" if units is Units.INCH else "mm"


def _fine(value: float, units: Units) -> str:
    """A length (mm) to the micrometre, half of one if need be, or to 0.00001 in."""
    number = round(units.from_mm(value), 9) + 0.0
    if units is Units.INCH:
        return f"{number:.5f}"
    return f"{number:.4f}".removesuffix("0")
