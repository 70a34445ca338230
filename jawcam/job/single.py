"""Single values from a job file checked against their key: numbers, texts, choices, names, fits."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import NamedTuple, cast, get_args

from jawcam.job.expression import references
from jawcam.job.key import PER_TURN, Key, KeyKind
from jawcam.job.names import quantity_of
from jawcam.job.quantity import KINDS, Kind, Quantity, measure
from jawcam.job.thread import majors
from jawcam.job.words import WrongValueError, listing, nearest, quoted, type_words
from jawcam.tools.insert import DesignationError, parse
from jawcam.tools.turner import Insert
from jawcam.units import Units

__all__ = ["SINGLES", "DrillFeed", "Scope", "example"]

_LONGEST_TEXT = 500
_LONGEST_NAME = 100  # bytes, so that an ending fits behind it
_NOT_IN_A_NAME = '/\\:*?"<>|'
_DEVICES = ("CON", "PRN", "AUX", "NUL", "COM", "LPT")  # some systems let no file be called so
_CLASS = r"[A-Za-z]{1,2}[0-9]{1,2}"
_LETTERS = re.compile(rf" *({_CLASS})(?: */ *({_CLASS}))? *")


@dataclass(frozen=True)
class Scope:
    """What numbers are read by: the job's units and the values in [let], None for a faulty one.

    per_turn: whether a drill's bare feed is per turn, as where all setups are of the lathe.
    """

    units: Units
    names: Mapping[str, Quantity | None]
    per_turn: bool = False


class DrillFeed(NamedTuple):
    """The feed of a drill as it is given: in mm/min, or in mm per turn."""

    minute: float | None = None
    turn: float | None = None


def example(key: Key, units: Units) -> str:
    """Give a value for `key` as it would look in a job in `units`."""
    if units is Units.INCH and key.kind in _METRIC:
        return f'"{key.example} {_METRIC[key.kind]}"'
    return key.example


_METRIC: Mapping[KeyKind, str] = {
    **dict.fromkeys(("length", "diameter", "fit", "feed per turn"), "mm"),
    **dict.fromkeys(("feed", "drill feed"), "mm/min"),
    "surface speed": "m/min",
    "acceleration": "mm/s2",
}


def _number(value: object, key: Key, scope: Scope) -> float:
    kind = cast("Kind", key.kind)
    if isinstance(value, bool) or not isinstance(value, int | float | str):
        mend = f"write {key.says}, such as {example(key, scope.units)}"
        raise WrongValueError(f"this is {type_words(value)}, but {KINDS[kind][1]} is due", mend)
    number = measure(quantity_of(value, scope.names, scope.units), kind, scope.units)
    if broken := _broken(number, key, scope.units):
        found = f"this is {_say(number, kind, scope.units)}, but it must be {broken}"
        raise WrongValueError(found, f"write {key.says}, such as {example(key, scope.units)}")
    return int(number) if kind == "whole" else number


def _broken(number: float, key: Key, units: Units) -> str:
    """Say which limit of its key a number breaks; "" if none."""
    limits = key.limits
    if limits.over is not None and number <= limits.over:
        return f"more than {_say(limits.over, key.kind, units)}"
    if limits.least is not None and number < limits.least:
        return f"{_say(limits.least, key.kind, units)} or more"
    if limits.most is not None and number > limits.most:
        return f"{_say(limits.most, key.kind, units)} or less"
    return ""


def _say(number: float, kind: KeyKind, units: Units) -> str:
    """Say a number in mm, degrees, minutes, N and N m in the job's units."""
    mark = "in" if units is Units.INCH else "mm"
    if kind in ("length", "feed", "feed per turn", "acceleration"):
        per = {"feed": "/min", "feed per turn": " per turn", "acceleration": "/s2"}.get(kind, "")
        return f"{units.from_mm(number):.6g} {mark}{per}"
    if kind == "surface speed" and units is Units.INCH:
        return f"{units.from_mm(number * 1000) / 12:.6g} ft/min"
    return f"{number:.6g}" + _MARKS.get(kind, "")


_MARKS: Mapping[KeyKind, str] = {
    "angle": " deg",
    "speed": " rpm",
    "surface speed": " m/min",
    "force": " N",
    "torque": " N m",
    "power": " kW",
    "time": " s",
}


def _text(value: object, key: Key, scope: Scope) -> str:
    if not isinstance(value, str):
        mend = f"write {key.says} in quotation marks, such as {example(key, scope.units)}"
        raise WrongValueError(f"this is {type_words(value)}, but a text is due", mend)
    if not value.strip():
        raise WrongValueError("this is empty", f"write {key.says}")
    for column, letter in enumerate(value, 1):
        if unicodedata.category(letter) in ("Cc", "Cs", "Zl", "Zp"):
            raise WrongValueError("this has a control sign in it", "write it on one line", column)
    if len(value) > _LONGEST_TEXT:
        what = f"this has {len(value)} characters, and {_LONGEST_TEXT} are the most"
        raise WrongValueError(what, "make it shorter")
    return value


def _file_name(value: object, key: Key, scope: Scope) -> str:
    name = _text(value, key, scope)
    mend = "the program's file is called so: use letters, digits, - and _"
    for column, letter in enumerate(name, 1):
        if letter in _NOT_IN_A_NAME:
            raise WrongValueError(f"a file name can't hold {letter!r}", mend, column)
    if name[0] in ".- " or name[-1] in ". ":
        raise WrongValueError("a file name can't begin or end like this", mend)
    if name.split(".")[0].rstrip("0123456789").upper() in _DEVICES:
        raise WrongValueError("some systems keep this name for a device", mend)
    if len(name.encode()) > _LONGEST_NAME:
        raise WrongValueError("this is too long for a file name", mend)
    return name


def _flag(value: object, key: Key, _scope: Scope) -> bool:
    if isinstance(value, bool):
        return value
    bare = value in ("true", "false")
    mend = f"write {value} without quotation marks" if bare else f"write true or false: {key.says}"
    raise WrongValueError(f"this is {type_words(value)}, but true or false is due", mend)


def _choice(value: object, key: Key, _scope: Scope) -> str:
    choices = listing(map(quoted, key.choices))
    if not isinstance(value, str):
        what = f"this is {type_words(value)}, but a text is due"
        raise WrongValueError(what, f"choose from {choices}")
    if value in key.later:
        raise WrongValueError(f"{quoted(value)} is not made yet by this version", f"use {choices}")
    if value not in key.choices:
        mend = nearest(value, key.choices, f"choose from {choices}")
        raise WrongValueError(f"{quoted(value)} is not known here", mend)
    return value


def _fit(value: object, key: Key, scope: Scope) -> float | str:
    """A length, or letters such as H7/g6; a name in [let] that is spelled so wins."""
    letters = _LETTERS.fullmatch(value) if isinstance(value, str) else None
    if not letters or any(name in scope.names for name in references(letters[0])):
        return _number(value, replace(key, kind="length"), scope)
    pocket, part = letters[1], letters[2] or ""
    if pocket.isupper() and part == part.lower():
        return f"{pocket}/{part}" if part else pocket
    if pocket.islower() and part.isupper():
        pocket, part = part, pocket
    what = f"{quoted(letters[0])} is no fit: the pocket's class comes first, in capitals"
    better = f"{pocket.upper()}/{part.lower()}".rstrip("/")
    raise WrongValueError(what, f"write {quoted(better)}, or name a length so in [let]")


def _thread(value: object, key: Key, scope: Scope) -> str:
    text = _text(value, key, scope)
    majors(text)
    return text


def _insert(value: object, key: Key, scope: Scope) -> Insert:
    try:
        return parse(_text(value, key, scope))
    except DesignationError as error:
        first, *more = [WrongValueError(slip.what, slip.mend, slip.column) for slip in error.slips]
        first.more = tuple(more)
        raise first from error


def _drill_feed(value: object, key: Key, scope: Scope) -> DrillFeed:
    """A feed per minute or, by its unit, per turn; the scope tells what a bare number is."""
    minute = replace(key, kind="feed")
    if isinstance(value, bool) or not isinstance(value, int | float | str):
        return DrillFeed(minute=_number(value, minute, scope))
    quantity = quantity_of(value, scope.names, scope.units)
    if scope.per_turn if quantity.bare else quantity.dims in _OF_TURNS:
        turn = replace(key, kind="feed per turn", limits=PER_TURN, example="0.1")
        return DrillFeed(turn=_number(value, turn, scope))
    return DrillFeed(minute=_number(value, minute, scope))


_OF_TURNS = (KINDS["length"][0], KINDS["feed per turn"][0])

SINGLES: Mapping[KeyKind, Callable[[object, Key, Scope], object]] = {
    **dict.fromkeys(get_args(Kind), _number),
    "text": _text,
    "path": _text,
    "file name": _file_name,
    "flag": _flag,
    "choice": _choice,
    "fit": _fit,
    "thread": _thread,
    "insert": _insert,
    "drill feed": _drill_feed,
}
"""Kind of key -> its check: a value from the file in, the value in mm, degrees, minutes, N and N m
out; raises WrongValueError."""
