"""Tables read from TOML into frozen dataclasses, with every fault found named in one run.

A field's type says what the value must be; `Annotated` with `Within`, `OneOf` or `Braces` says
more.
"""

from __future__ import annotations

import dataclasses
import difflib
import re
import tomllib
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache, cached_property
from typing import Annotated, Generic, Literal, TypeVar, get_args, get_origin, get_type_hints

from jawcam.errors import FaultList, Place
from jawcam.toml_places import KeyPath, places
from jawcam.units import Units

__all__ = ["PLACE", "Braces", "Form", "OneOf", "PerUnit", "Within", "nearest", "parse"]

T = TypeVar("T")

PLACE = re.compile(r"\{([^{}:]*)(?::(\d))?\}")  # {tool}, or {tool:2} for at least two digits
_SAY: dict[object, str] = {
    bool: "true or false",
    int: "a whole number",
    float: "a number",
    str: "a text",
}
_DECODE_ERROR = re.compile(r"(.*) \(at (?:line (\d+), column (\d+)|end of document)\)", re.DOTALL)


@dataclass(frozen=True)
class PerUnit(Generic[T]):
    """One value for programs in mm and one for programs in inches."""

    mm: T
    inch: T

    def of(self, units: Units) -> T:
        """The one for `units`."""
        return self.inch if units is Units.INCH else self.mm


@dataclass(frozen=True)
class Within:
    """A number from `least` to `most`."""

    least: float
    most: float


@dataclass(frozen=True)
class OneOf:
    """One of these texts."""

    words: tuple[str, ...]


@dataclass(frozen=True)
class Braces:
    """A text in which these names may stand in braces."""

    names: tuple[str, ...]


def nearest(word: str, known: Iterable[str]) -> str:
    """A mend: the known word most like `word`, or all of them."""
    known = sorted(known)
    near = difflib.get_close_matches(word, known, n=1)
    return f"did you mean {near[0]!r}?" if near else "choose from " + ", ".join(known)


def parse(text: str, file: str, faults: FaultList) -> dict[str, object] | None:
    """TOML text -> its tables; None, and a fault with line and column, if it is no TOML."""
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        told = _DECODE_ERROR.fullmatch(str(error))
        what, line, column = told.groups() if told else (str(error), None, None)
        place = Place(file, int(line or text.count("\n") + 1), int(column or 0))
        faults.add(f"this is not TOML: {what[:1].lower()}{what[1:]}", place)
        return None


class Form:
    """One file being read against its dataclasses; `faults` collects what is wrong."""

    def __init__(self, text: str, file: str, faults: FaultList) -> None:
        self._text, self._file = text, file
        self._faults, self._wrong = faults, set[str]()
        self._homes: dict[str, str] = {}  # key -> the table that has it

    @cached_property
    def _spots(self) -> tuple[dict[str, tuple[int, int]], dict[str, tuple[int, int]]]:
        """Where the keys and the values stand, which only a fault asks for."""
        found = places(self._file, self._text)
        keys = {_words(path): spot for path, spot in found.keys.items()}
        return keys, {_words(path): spot for path, spot in found.values.items()}

    def fault(self, what: str, key: str, mend: str = "", *, at_key: bool = False) -> None:
        """Note a fault at the key path `key`, with the line and column of its value, or of the key
        itself; of the table around it if it doesn't stand there."""
        self._wrong.add(key)
        keys, values = self._spots
        spots = keys if at_key else {**keys, **values}
        path = key
        while path and path not in spots:
            path = path[: max(path.rfind("."), path.rfind("["), 0)]
        self._faults.add(what, Place(self._file, *spots.get(path, (0, 0)), key=key), mend)

    def sound(self, *keys: str) -> bool:
        """Whether no fault has been noted at any of these keys, nor inside or around them."""
        return not any(
            wrong == key or wrong.startswith((f"{key}.", f"{key}[")) or key.startswith(f"{wrong}.")
            for wrong in self._wrong
            for key in keys
        )

    def build(
        self,
        make: Callable[..., T],
        data: Mapping[str, object],
        path: str = "",
        **given: object,
    ) -> T:
        """`make`, a dataclass, from a table and the fields `given`; with faults where it can't be:
        None then stands for a missing value, and a wrong one as it is, so ask `sound` first."""
        hints = _hints(make)
        if not path:
            self._homes = dict(_homes(hints))
        wanted = {name: kind for name, kind in hints.items() if name not in given}
        values = self._entries(data, wanted, path)
        return make(**{**dict.fromkeys(wanted), **given, **values})

    def _entries(
        self, data: Mapping[str, object], wanted: Mapping[str, object], path: str
    ) -> dict[str, object]:
        inside = f"{path}." if path else ""
        for key in data:
            if key not in wanted:
                mend = nearest(key, wanted)
                if key in self._homes and "did you mean" not in mend:
                    mend = f"it belongs under [{self._homes[key]}]"
                self.fault("there is no such key", inside + key, mend, at_key=True)
        values: dict[str, object] = {}
        for key, kind in wanted.items():
            if key in data:
                values[key] = self._value(data[key], kind, None, inside + key)
            else:
                self.fault("this key is missing", inside + key, f"add it: {_say(kind)}")
        return values

    def _value(self, value: object, kind: object, rule: object, path: str) -> object:
        """`value` as `kind`; `rule` (of a list or a pair) holds for each of its parts."""
        origin, args = get_origin(kind), get_args(kind)
        if origin is Annotated:
            return self._value(value, args[0], args[1], path)
        if origin is PerUnit and isinstance(value, dict):
            kinds = dict.fromkeys(("mm", "inch"), Annotated[args[0], rule])
            both = self._entries(value, kinds, path)
            return PerUnit(both.get("mm"), both.get("inch"))
        if origin is tuple and isinstance(value, list):
            if args[-1] is not Ellipsis and len(value) != len(args):
                self.fault(f"this is {len(value)} values", path, f"write {_say(kind)}")
            parts = enumerate(value, 1)
            return tuple(self._value(part, args[0], rule, f"{path}[{n}]") for n, part in parts)
        if origin is Mapping and isinstance(value, dict):
            return {key: self._value(v, args[1], rule, f"{path}.{key}") for key, v in value.items()}
        if isinstance(kind, type) and dataclasses.is_dataclass(kind) and isinstance(value, dict):
            return self.build(kind, value, path)
        return self._single(value, kind, rule, path)

    def _single(self, value: object, kind: object, rule: object, path: str) -> object:
        if kind is float and type(value) is int:
            value = float(value)
        if get_origin(kind) is Literal:
            kind, rule = str, OneOf(get_args(kind))
        if type(value) is not kind:
            self.fault(f"this must be {_say(kind, rule)}", path)
        elif isinstance(value, str) and not value.isprintable():
            self.fault("this text holds a line break or a mark that can't be seen", path)
        elif isinstance(rule, OneOf) and value not in rule.words:
            self.fault(f"{value!r} is not known here", path, nearest(str(value), rule.words))
        elif isinstance(rule, Within) and isinstance(value, int | float):
            if not rule.least <= value <= rule.most:
                self.fault(f"{value} is out of range", path, f"write {_say(kind, rule)}")
        elif isinstance(rule, Braces):
            self._braces(str(value), rule.names, path)
        return value

    def _braces(self, text: str, names: Iterable[str], path: str) -> None:
        for name, _ in PLACE.findall(text):
            if name not in names:
                mend = nearest(name, names)
                self.fault(f"nothing can be put in place of {{{name}}} here", path, mend)
        if re.search(r"[{}]", PLACE.sub("", text)):
            self.fault("a brace stands alone", path, "write {name}, with both its braces")


@cache
def _hints(make: Callable[..., object]) -> Mapping[str, object]:
    """The types of a dataclass's fields, with what is annotated."""
    return get_type_hints(make, include_extras=True)


def _say(kind: object, rule: object = None) -> str:
    """What a value of this type looks like, in words."""
    origin, args = get_origin(kind), get_args(kind)
    if origin is Annotated:
        return _say(args[0], args[1])
    if origin is PerUnit:
        return f"{{ mm = ..., inch = ... }}, each {_say(args[0], rule)}"
    if origin is tuple:
        count = "" if args[-1] is Ellipsis else f"{len(args)} of these, "
        return f"a list, {count}each {_say(args[0], rule)}"
    if origin is Literal:
        rule = OneOf(args)
    if isinstance(rule, OneOf):
        return "one of " + ", ".join(repr(word) for word in sorted(rule.words))
    bounds = f" from {rule.least:.9g} to {rule.most:.9g}" if isinstance(rule, Within) else ""
    return _SAY.get(kind, "a table") + bounds


def _homes(hints: Mapping[str, object]) -> Iterator[tuple[str, str]]:
    """The keys of all tables, each with its table."""
    for table, kind in hints.items():
        if isinstance(kind, type) and dataclasses.is_dataclass(kind):
            for one in dataclasses.fields(kind):
                yield one.name, table


def _words(path: KeyPath) -> str:
    """A key path in words, its names as they are."""
    words = "".join(f"[{step}]" if isinstance(step, int) else f".{step}" for step in path)
    return words.removeprefix(".")
