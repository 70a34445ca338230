"""Small pieces of what is said about a fault."""

from __future__ import annotations

import difflib
from collections.abc import Iterable

__all__ = ["WrongValueError", "guess", "listing", "nearest", "quoted", "type_words"]

_TYPES: tuple[tuple[type | tuple[type, ...], str], ...] = (
    (bool, "true or false"),
    ((int, float), "a number"),
    (str, "a text"),
    (list, "a list"),
    (dict, "a table"),
)


class WrongValueError(Exception):
    """A value that can't be: what is wrong, how to mend it, and at which character (from 1) of
    its text, 0 if it is wrong as a whole. more: what else is wrong with it.
    """

    def __init__(
        self,
        what: str,
        mend: str = "",
        column: int = 0,
        more: tuple[WrongValueError, ...] = (),
    ) -> None:
        super().__init__(what)
        self.what, self.mend, self.column, self.more = what, mend, column, more


def guess(word: str, known: Iterable[str]) -> str | None:
    """Guess the known word that is meant by `word`, upper and lower case being the same."""
    folded = {one.casefold(): one for one in known}
    near = difflib.get_close_matches(word.casefold(), folded, n=1)
    begins = [one for one in folded if len(one) > 2 and word.casefold().startswith(one)]
    return folded[[*near, *begins][0]] if near or begins else None


def nearest(word: str, known: Iterable[str], otherwise: str) -> str:
    """Make a mend of the known word that is meant; `otherwise` if there is none."""
    meant = guess(word, known)
    return otherwise if meant is None else f"did you mean {meant}?"


def listing(words: Iterable[str]) -> str:
    """Join words as ``a, b and c``."""
    *most, last = list(words) or [""]
    return f"{', '.join(most)} and {last}" if most else last


def quoted(text: str) -> str:
    """Put a text in quotation marks, its middle left out if it is long."""
    if len(text) > 60:
        text = f"{text[:40]} ... {text[-12:]}"
    return '"' + "".join(c if c.isprintable() else f"\\u{ord(c):04x}" for c in text) + '"'


def type_words(value: object) -> str:
    """Say what a TOML value is, such as ``a text``."""
    return next((words for kind, words in _TYPES if isinstance(value, kind)), "a date or time")
