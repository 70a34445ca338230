"""A table from a job file checked against the keys declared for it, every fault noted."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from jawcam.errors import FaultList
from jawcam.job.expression import UnknowableError
from jawcam.job.forms import form_of
from jawcam.job.key import MODEL, Key
from jawcam.job.keys import GONE
from jawcam.job.places import KeyPath, Places
from jawcam.job.single import SINGLES, Scope, example
from jawcam.job.words import WrongValueError, guess, listing, nearest, quoted, type_words

__all__ = ["Checker", "Values"]

Values = dict[str, Any]
"""Key -> its checked value in mm, degrees, minutes, N and N m. A faulty one is not there."""

_BAD = object()
_NOWHERE: Mapping[str, str] = {}


@dataclass(frozen=True)
class Checker:
    """Checks the tables of one file; `faults` collects what is wrong with them."""

    places: Places
    faults: FaultList
    scope: Scope

    def note(self, what: str, path: KeyPath, mend: str = "") -> None:
        """Note a fault of the value at `path`."""
        self.faults.add(what, self.places.of_value(path), mend)

    def note_wrong(self, error: WrongValueError, value: object, path: KeyPath) -> None:
        """Note what is wrong with `value` at `path`, and at which character of a text."""
        place, what = self.places.of_value(path), error.what
        if isinstance(value, str) and error.column:
            place = self.places.of_value(path, value, error.column)
            what = f"in {quoted(value)}, character {error.column}: {what}"
        self.faults.add(what, place, error.mend)

    def table(
        self,
        data: Mapping[str, object],
        keys: tuple[Key, ...],
        path: KeyPath,
        elsewhere: Mapping[str, str] = _NOWHERE,
    ) -> Values:
        """Check a table; what is right with it comes back, with defaults where it is silent.

        elsewhere: keys that are none here -> what to do about them.
        """
        written = {key.name: key.name for key in keys if key.name in data}
        for name in data:
            if name not in written:
                place = self.places.of_key((*path, name))
                mend = elsewhere.get(name) or _stray(name, keys)
                self.faults.add(f"there is no key {quoted(name)} here", place, mend)
                if name in elsewhere:
                    continue
                # Go on as if it were spelled right, so that its value is looked at too.
                written.setdefault(guess(name, [key.name for key in keys]) or name, name)
        values: Values = {}
        for key in keys:
            if key.name in written:
                found = written[key.name]
                value = self._value(data[found], key, (*path, found))
            else:
                value = self._missing(key, path)
            if value is not _BAD and value is not MODEL:
                values[key.name] = value
        return values

    def _missing(self, key: Key, path: KeyPath) -> object:
        if key.required:
            thing = "table" if key.keys else "key"
            place = self.places.of_key((*path, key.name))
            mend = f"add {self._form(key, path)}, {key.says}"
            self.faults.add(f"the {thing} {quoted(key.name)} is missing", place, mend)
            return _BAD
        return {} if key.kind == "table" and key.default is MODEL else key.default

    def _form(self, key: Key, around: KeyPath) -> str:
        """Say how a key and its value are written in the table at `around`, such as
        ``fit = { grip = ..., side = ... }``.
        """
        forms = [form for _, form in key.forms]
        needed = [part for part in key.keys if part.required]
        inside = [part.name for part in needed if all(part in form for form in forms)]
        values = f"{{ {', '.join(f'{name} = ...' for name in inside) or '...'} }}"
        if key.kind == "tables":
            within = f"{key.name} = [ {values} ]"
            return within if around else f"[[{key.name}]] with {listing(inside)}"
        if key.kind == "table":
            return f"{key.name} = {values}"
        return f"{key.name} = {example(key, self.scope.units)}"

    def _value(self, value: object, key: Key, path: KeyPath) -> object:
        if key.kind == "table":
            return self._one_table(value, key, path)
        if key.kind == "tables":
            return self._tables(value, key, path)
        if key.kind == "lengths":
            return self._lengths(value, key, path)
        if key.kind == "diameter":
            return self._diameter(value, key, path)
        try:
            return SINGLES[key.kind](value, key, self.scope)
        except UnknowableError:
            pass  # told already, where the name it uses is at fault
        except WrongValueError as error:
            for one in (error, *error.more):
                self.note_wrong(one, value, path)
        return _BAD

    def _one_table(self, value: object, key: Key, path: KeyPath) -> object:
        if isinstance(value, dict):
            return self._formed(value, key, path) if key.keys else value
        mend = f"write {self._form(key, path[:-1])}"
        if isinstance(value, list):
            mend = f"there is only one of it: write [{key.name}] in single brackets"
        self.note(f"this is {type_words(value)}, but a table is due", path, mend)
        return _BAD

    def _tables(self, value: object, key: Key, path: KeyPath) -> object:
        if not isinstance(value, list):
            mend = f"there may be several of it: write {self._form(key, path[:-1])}"
            if len(path) == 1:
                mend = f"there may be several of it: write [[{key.name}]] in double brackets"
            self.note(f"this is {type_words(value)}, but a list of tables is due", path, mend)
            return _BAD
        if key.filled and not value:
            self.note("this list is empty", path, f"write {self._form(key, path[:-1])}")
            return _BAD
        tables = []
        for number, one in enumerate(value, 1):
            place = (*path, number)
            if not isinstance(one, dict):
                self.note(f"this is {type_words(one)}, but a table is due", place)
            tables.append(self._formed(one, key, place) if isinstance(one, dict) else {})
        return tables

    def _formed(self, value: dict[str, object], key: Key, path: KeyPath) -> Values:
        """Check a table whose keys may depend on one of its values; where that is faulty, against
        those of the value meant.
        """
        keys, elsewhere = form_of(key, value)
        return self.table(value, keys, path, elsewhere)

    def _lengths(self, value: object, key: Key, path: KeyPath) -> object:
        if not isinstance(value, list) or len(value) != key.count:
            count = f" of {len(value)}" if isinstance(value, list) else ""
            what = f"this is {type_words(value)}{count}, but a list of {key.count} lengths is due"
            self.note(what, path, f"write {key.says}, such as {key.example}")
            return _BAD
        single = replace(key, kind="length", example="30" if key.kind == "diameter" else "0")
        found = [self._value(one, single, (*path, n)) for n, one in enumerate(value, 1)]
        return _BAD if _BAD in found else tuple(found)

    def _diameter(self, value: object, key: Key, path: KeyPath) -> object:
        """The diameters at start and end, of which one number gives both."""
        if isinstance(value, list):
            return self._lengths(value, replace(key, count=2, example="[25, 24]"), path)
        found = self._value(value, replace(key, kind="length"), path)
        return _BAD if found is _BAD else (found, found)


def _stray(name: str, keys: tuple[Key, ...]) -> str:
    """How to mend a key that is not known: the one meant, or the table it belongs in."""
    if name in GONE:
        return GONE[name]
    for table in keys:
        if table.kind == "table" and any(part.name == name for part in table.keys):
            return f"it belongs in the table {table.name}: {table.name} = {{ {name} = ... }}"
    known = [key.name for key in keys]
    return nearest(name, known, f"leave it out; the keys here are {listing(known)}")
