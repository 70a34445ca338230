"""Where in a TOML text each key and each value stands, which tomllib does not tell.

A key path is a tuple of names and of places in a list, which count from 1; in words it looks like
``setup[1].jaws.gap``: the gap of the first setup.
"""

from __future__ import annotations

import bisect
import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field

from jawcam.errors import Place

__all__ = ["KeyPath", "Places", "path_words", "places"]

KeyPath = tuple[str | int, ...]
_Spots = Mapping[KeyPath, tuple[int, int]]

_SPACE = re.compile(r"(?:[ \t\n,]|#[^\n]*)*")  # commas too: where they must stand is known to be so
_BARE = re.compile(r"[A-Za-z0-9_-]+")
_KEY = re.compile(r"""[ \t]*([A-Za-z0-9_-]+|"(?:\\.|[^"\\\n])*"|'[^'\n]*')[ \t]*(\.?)""")
_PLAIN = re.compile(
    r'''"""(?:\\.|[^\\])*?"{3,5}(?!")|\'\'\'.*?\'{3,5}(?!\')'''
    r"""|"(?:\\.|[^"\\\n])*"|'[^'\n]*'|[^,\]}#\n]*""",
    re.DOTALL,
)


@dataclass(frozen=True)
class Places:
    """keys, values: key path -> line and column, from 1, of the key or header and of the value."""

    file: str
    text: str
    keys: _Spots
    values: _Spots

    def of_key(self, path: KeyPath) -> Place:
        """The place of a key; of the table that it should stand in if it is not there."""
        return self._place(path, (self.keys, self.values))

    def of_value(self, path: KeyPath, within: str = "", column: int = 1) -> Place:
        """The place of a value; in a text `within` that stands in the file just as it is, the
        place of its character `column`.
        """
        place = self._place(path, (self.values, self.keys))
        line = self.text.split("\n")[place.line - 1] if within else ""
        if within and line[place.column :].startswith(within):
            return Place(place.file, place.line, place.column + column, place.key)
        return place

    def _place(self, path: KeyPath, spots: tuple[_Spots, _Spots]) -> Place:
        for size in range(len(path), 0, -1):
            for known in spots:
                if path[:size] in known:
                    return Place(self.file, *known[path[:size]], key=path_words(path))
        return Place(self.file, key=path_words(path))

    def lines(self) -> tuple[tuple[str, int], ...]:
        """Each key path in words and the line it stands on, in the order of the file."""
        found = {**self.values, **self.keys}
        return tuple(
            (path_words(path), found[path][0])
            for path in sorted(found, key=lambda path: found[path])
        )


def path_words(path: KeyPath) -> str:
    """A key path in words, such as ``setup[1].jaws.gap``."""
    words = ""
    for step in path:
        if isinstance(step, int):
            words += f"[{step}]"
        else:
            name = step if _BARE.fullmatch(step) else repr(step)
            words += f".{name}" if words else name
    return words


def places(file: str, text: str) -> Places:
    """Find the places of all keys and values in a text that tomllib has read without a fault."""
    scan = _Scan(text.replace("\r\n", "\n"))
    scan.run()
    return Places(file, scan.text, scan.keys, scan.values)


@dataclass
class _Scan:
    """A walk through a TOML text; at: the next character."""

    text: str
    at: int = 0
    keys: dict[KeyPath, tuple[int, int]] = field(default_factory=dict)
    values: dict[KeyPath, tuple[int, int]] = field(default_factory=dict)
    counts: dict[KeyPath, int] = field(default_factory=dict)  # [[...]] headers so far
    starts: list[int] = field(default_factory=list)  # of lines

    def run(self) -> None:
        self.starts = [0, *(newline.end() for newline in re.finditer("\n", self.text))]
        table: KeyPath = ()
        while self._skip() < len(self.text):
            before = self.at
            if self.text[self.at] == "[":
                table = self._header()
            else:
                self._pair(table)
            if self.at == before:
                return

    def _skip(self) -> int:
        self.at = _end(_SPACE.match(self.text, self.at), self.at)
        return self.at

    def _spot(self) -> tuple[int, int]:
        line = bisect.bisect_right(self.starts, self.at)
        return line, self.at - self.starts[line - 1] + 1

    def _names(self) -> list[str]:
        """The parts of a dotted key."""
        names: list[str] = []
        while part := _KEY.match(self.text, self.at):
            self.at = part.end()
            name = part[1]
            names.append(tomllib.loads(f"k = {name}")["k"] if name[0] in "\"'" else name)
            if not part[2]:
                break
        return names

    def _header(self) -> KeyPath:
        spot, several = self._spot(), self.text.startswith("[[", self.at)
        self.at += 2 if several else 1
        path: KeyPath = ()
        *around, last = self._names() or [""]
        for name in around:
            path = self._within((*path, name))
            self.keys.setdefault(path, spot)
        path = (*path, last)
        self.keys.setdefault(path, spot)
        if several:
            self.counts[path] = self.counts.get(path, 0) + 1
            path = self._within(path)
            self.keys[path] = spot
        self.at += 2 if several else 1
        return path

    def _within(self, path: KeyPath) -> KeyPath:
        """The path of the last table of a list of tables, or that of the table itself."""
        return (*path, self.counts[path]) if path in self.counts else path

    def _pair(self, table: KeyPath) -> None:
        spot, path = self._spot(), table
        for name in self._names():
            path = (*path, name)
            self.keys.setdefault(path, spot)
        if self.text.startswith("=", self.at):
            self.at += 1
            self._value(path)

    def _value(self, path: KeyPath) -> None:
        self._skip()
        self.values[path] = self._spot()
        opening = self.text[self.at : self.at + 1]
        if opening not in ("[", "{"):
            self.at = _end(_PLAIN.match(self.text, self.at), self.at)
            return
        self.at += 1
        count = 0
        while self._skip() < len(self.text) and self.text[self.at] not in "]}":
            before, count = self.at, count + 1
            if opening == "[":
                self._value((*path, count))
            else:
                self._pair(path)
            if self.at == before:
                return
        self.at += 1


def _end(match: re.Match[str] | None, otherwise: int) -> int:
    return match.end() if match else otherwise
