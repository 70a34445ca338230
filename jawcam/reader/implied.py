"""Numbers of controls that read no decimal point: the format of each letter says where it is.

With leading zeros suppressed the last digit has its place (of four decimals 15 is 0.0015), with
trailing zeros suppressed the first one has (of three digits left of the point 15 is 150).
"""

from __future__ import annotations

from collections.abc import Sequence
from math import isnan, nan
from typing import Literal

from jawcam.reader.control import Control, Implied
from jawcam.reader.faults import BlockError
from jawcam.reader.modal import Group
from jawcam.reader.tokens import Word

__all__ = ["pointed"]


def pointed(
    words: Sequence[Word], control: Control, units: Literal["mm", "inch"], faults: list[BlockError]
) -> list[Word]:
    """The words of a block with the point put into their numbers; units: in force before it.

    A unit word in the block counts for all of its words. What doesn't fit its format becomes nan,
    and a fault.
    """
    units = _units_of(words, control, units)
    out = []
    for word in words:
        form = control.implied.get(word.letter)
        if form is None or isnan(word.value):
            out.append(word)
            continue
        try:
            out.append(word._replace(value=_value(word, form, units)))
        except BlockError as error:
            faults.append(error)
            out.append(word._replace(value=nan))
    return out


def _units_of(
    words: Sequence[Word], control: Control, units: Literal["mm", "inch"]
) -> Literal["mm", "inch"]:
    group: Group = next(group for group in control.groups if group.name == "units")
    meanings = {float(word[1:]): meaning for word, meaning in group.codes.items()}
    for word in words:
        meaning = meanings.get(word.value) if word.letter == "G" else None
        if meaning is not None:
            units = "inch" if meaning == "inch" else "mm"
    return units


def _value(word: Word, form: Implied, units: Literal["mm", "inch"]) -> float:
    left, right = form.inch if units == "inch" else form.mm
    digits = word.text.lstrip("+-")
    text = f"{word.letter}{word.text}"
    if "." in digits:
        what = f"{text} with a decimal point, which this kind of control puts in by itself"
        raise BlockError("R113", what, "write digits alone", word.column)
    most = left + right
    if len(digits) > most or (form.suppressed == "none" and len(digits) < most):
        what = f"{text} has {len(digits)} digits, the format of {word.letter} {most}"
        raise BlockError("R113", what, _mend(form, left, right), word.column)
    if form.suppressed == "trailing":
        digits = digits.ljust(most, "0")
    value = int(digits) / float(10**right)
    return -value if word.text.startswith("-") else value


def _mend(form: Implied, left: int, right: int) -> str:
    whole = "all of them" if form.suppressed == "none" else f"no {form.suppressed} zeros"
    return f"write {left} before the point that isn't written and {right} after it, {whole}"
