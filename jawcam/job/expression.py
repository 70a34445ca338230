"""Expressions such as ``gap / 2 + 0.5 mm``: a small parser that works them out as it goes.

    expression = value { ("+" | "-" | "*" | "/") value }        the usual precedence
    value      = number [unit] | name | function "(" expression { "," expression } ")"
               | "(" expression ")" | ("-" | "+") value
    number     = 12 | 9.5 | 1e-3 | 1 1/4 | 3/8 before a unit, without blanks round the stroke

A fraction before a unit is one number, so ``3/8 in`` is 0.375 in. A unit may be two words, so
``40 N m`` is one number too. Nothing else can be said in this language, so nothing in a job file
can run.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import partial

from jawcam.job.functions import FUNCTIONS
from jawcam.job.quantity import (
    UNITS,
    Quantity,
    add,
    divide,
    multiply,
    negative,
    subtract,
)
from jawcam.job.words import WrongValueError, nearest
from jawcam.units import Units

__all__ = ["MAX_DEPTH", "MAX_LENGTH", "UnknowableError", "evaluate", "references"]

MAX_LENGTH = 200  # characters in an expression
MAX_DEPTH = 32  # brackets and signs within each other

_OPERATORS: Mapping[str, tuple[int, Callable[[Quantity, Quantity, Units], Quantity]]] = {
    "+": (1, add),
    "-": (1, subtract),
    "*": (2, multiply),
    "/": (2, divide),
}
_SIGN_BINDS = 3

_NAME = re.compile(r"[A-Za-z_][A-Za-z0-9_]*")
_BLANK = re.compile(r"[ \t]*")
_DECIMAL = re.compile(r"(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][+-]?[0-9]+)?")
_MIXED = re.compile(r"([0-9]+)[ \t]+([0-9]+)/([0-9]+)(?![0-9.])")
_UNIT_WORDS = "|".join(
    r"[ \t]+".join(map(re.escape, unit.split())) for unit in sorted(UNITS, key=len, reverse=True)
)
# mm/min is a unit, but 5 mm/min(a, b) divides by the smaller of two.
_UNIT = re.compile(rf"[ \t]*({_UNIT_WORDS})(?![A-Za-z0-9_]|(?<=/min)[ \t]*\()")
_FRACTION = re.compile(rf"()([0-9]+)/([0-9]+)(?={_UNIT.pattern})")


class UnknowableError(WrongValueError):
    """The expression uses a name that is itself at fault, which is told already."""


@dataclass(frozen=True)
class _Token:
    """kind: number, name, sign or end; column: its place in the expression, from 1."""

    kind: str
    text: str
    column: int
    number: Quantity | None = None


def evaluate(text: str, names: Mapping[str, Quantity | None], units: Units) -> Quantity:
    """Work out an expression over `names`, in which None stands for a faulty one.

    Raises WrongValueError with the column, UnknowableError for a faulty name.
    """
    return _Parser(text, names, units).run()


def references(text: str) -> tuple[str, ...]:
    """Name what an expression refers to, in order; nothing if it can't be read."""
    found: dict[str, None] = {}
    try:
        tokens = list(_tokens(text))
    except WrongValueError:
        return ()
    for token, after in itertools.pairwise(tokens):
        if token.kind == "name" and after.text != "(":
            found[token.text] = None
    return tuple(found)


# --- tokens ----------------------------------------------------------------------------------


def _tokens(text: str) -> Iterator[_Token]:
    if len(text) > MAX_LENGTH:
        what = f"this has {len(text)} characters, and {MAX_LENGTH} are the most"
        raise WrongValueError(what, "name parts of it in [let]", MAX_LENGTH + 1)
    at = 0
    while (at := _end(_BLANK.match(text, at))) < len(text):
        column = at + 1
        if text[at] in "0123456789" or _DECIMAL.match(text, at):
            number, end = _number(text, at)
            yield _Token("number", text[at:end], column, number)
        elif name := _NAME.match(text, at):
            end = name.end()
            yield _Token("name", name[0], column)
        elif text[at] in "+-*/(),":
            end = at + 1
            yield _Token("sign", text[at], column)
        else:
            raise WrongValueError(f"the sign {text[at]!r} has no meaning here", _known(), column)
        at = end
    yield _Token("end", "", len(text) + 1)


def _end(match: re.Match[str] | None) -> int:
    return match.end() if match else 0


def _number(text: str, at: int) -> tuple[Quantity, int]:
    """Read a number at `at`, with its unit if it has one, and where it ends."""
    if parts := _MIXED.match(text, at) or _FRACTION.match(text, at):
        if int(parts[3]) == 0:
            raise WrongValueError("this divides by zero", column=parts.start(3) + 1)
        value, end = int(parts[1] or 0) + int(parts[2]) / int(parts[3]), parts.end()
    else:
        decimal = _DECIMAL.match(text, at)
        end = _end(decimal)
        value = float(text[at:end])
    quantity = Quantity(value, bare=True)
    if unit := _UNIT.match(text, end):
        factor, dims = UNITS[" ".join(unit[1].split())]
        quantity, end = Quantity(value * factor, dims), unit.end()
    if quantity.value > 1e300:
        raise WrongValueError("this number is too large", column=at + 1)
    return quantity, end


def _known() -> str:
    return "use numbers with units, names from [let], + - * / ( ) and " + ", ".join(FUNCTIONS)


# --- parser ----------------------------------------------------------------------------------


class _Parser:
    """One expression being worked out."""

    def __init__(self, text: str, names: Mapping[str, Quantity | None], units: Units) -> None:
        self._tokens = list(_tokens(text))
        self._names, self._units = names, units
        self._at = self._depth = 0

    @property
    def _next(self) -> _Token:
        return self._tokens[self._at]

    def _take(self) -> _Token:
        token = self._next
        self._at += token.kind != "end"
        return token

    def run(self) -> Quantity:
        if self._next.kind == "end":
            raise WrongValueError("this is empty", "write a number", 1)
        result = self._expression(0)
        if self._next.kind != "end":
            raise self._stray(self._next)
        return result

    def _expression(self, binding: int) -> Quantity:
        self._depth += 1
        if self._depth > MAX_DEPTH:
            what = f"this is nested more than {MAX_DEPTH} deep"
            raise WrongValueError(what, "name parts of it in [let]", self._next.column)
        left = self._value()
        while self._next.text in _OPERATORS and _OPERATORS[self._next.text][0] > binding:
            sign = self._take()
            binds, work = _OPERATORS[sign.text]
            right = self._expression(binds)
            left = self._at_token(sign, partial(work, left, right, self._units))
        self._depth -= 1
        return left

    def _value(self) -> Quantity:
        token = self._take()
        if token.number is not None:
            return token.number
        if token.kind == "name":
            return self._function(token) if self._next.text == "(" else self._name(token)
        if token.text in ("-", "+"):
            value = self._expression(_SIGN_BINDS)
            return negative(value) if token.text == "-" else value
        if token.text == "(":
            value = self._expression(0)
            self._close(token)
            return value
        if token.kind == "end":
            raise WrongValueError("this stops short", "write what shall follow", token.column)
        power = token.text == "*" == self._tokens[self._at - 2].text
        mend = "write a power as a product, such as a * a" if power else ""
        raise WrongValueError(f"a value is missing before {token.text!r}", mend, token.column)

    def _name(self, token: _Token) -> Quantity:
        if token.text not in self._names:
            if token.text in FUNCTIONS:
                what = f"{token.text} needs its value in brackets"
                raise WrongValueError(what, f"write {token.text}(...)", token.column)
            mend = nearest(token.text, self._names, f"add {token.text} = ... to [let]")
            raise WrongValueError(f"there is no name {token.text!r} in [let]", mend, token.column)
        value = self._names[token.text]
        if value is None:
            raise UnknowableError(f"{token.text!r} is at fault itself", "", token.column)
        return value

    def _function(self, token: _Token) -> Quantity:
        if token.text not in FUNCTIONS:
            mend = nearest(token.text, FUNCTIONS, "choose from " + ", ".join(FUNCTIONS))
            raise WrongValueError(f"there is no function {token.text!r}", mend, token.column)
        work, several = FUNCTIONS[token.text]
        opening = self._take()
        values = [self._expression(0)]
        while self._next.text == ",":
            self._take()
            values.append(self._expression(0))
        self._close(opening)
        if len(values) > 1 and not several:
            what = f"{token.text} takes one value, and here are {len(values)}"
            raise WrongValueError(what, "write decimals with a point, such as 9.5", token.column)
        return self._at_token(token, partial(work, values, self._units))

    def _close(self, opening: _Token) -> None:
        if self._next.text == ")":
            self._take()
        elif self._next.kind == "end":
            raise WrongValueError("this bracket is never closed", "add a )", opening.column)
        else:
            raise self._stray(self._next)

    def _at_token(self, token: _Token, work: Callable[[], Quantity]) -> Quantity:
        """Do `work`; what is wrong with it is wrong at `token`."""
        try:
            return work()
        except WrongValueError as error:
            error.column = error.column or token.column
            raise

    def _stray(self, token: _Token) -> WrongValueError:
        """Tell what is wrong with a token where an operator or the end is due."""
        before = self._tokens[self._at - 1]
        if token.text == ",":
            mend = "write decimals with a point, such as 9.5"
            return WrongValueError("a comma can't stand here", mend, token.column)
        if token.text == ")":
            return WrongValueError("there is no ( for this )", "leave it out", token.column)
        known = token.text in self._names or token.text in UNITS
        if before.kind == "number" and token.kind == "name" and not known:
            mend = nearest(token.text, UNITS, "choose from " + ", ".join(UNITS))
            return WrongValueError(f"there is no unit {token.text!r}", mend, token.column)
        mend = "put + - * or / between the two"
        if token.text in UNITS:
            mend = f"a unit can only follow a number: write * 1 {token.text}"
        return WrongValueError(f"an operator is missing before {token.text!r}", mend, token.column)
