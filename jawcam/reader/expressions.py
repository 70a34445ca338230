"""Values: numbers, parameters, functions and expressions (NISTIR 6556 section 3.3.2)."""

from __future__ import annotations

import math
import operator
import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from jawcam.reader.faults import BlockError

__all__ = ["LARGEST", "Scan", "parameter_number", "value"]

LARGEST = 1e9
"""No value above this is taken for meant: it could only be a slip, and sums must stay exact."""

_DEEPEST = 30
_WHOLE = 1e-4
_NUMBER = re.compile(r"[+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)")
_OPERATOR = re.compile(r"\*\*|\*|/|MOD|\+|-|XOR|OR|AND")
_CALL = re.compile(r"([A-Z]+)\[")


@dataclass(slots=True)
class Scan:
    """The characters of a line without blanks, each with its column (from 0) in the line, and how
    far they are read. parameters: the values of those that have one; count: how many there are,
    0 for a control without expressions; depth: of the brackets round this place."""

    text: str
    columns: Sequence[int]
    parameters: Mapping[int, float]
    count: int
    at: int = 0
    depth: int = 0

    def peek(self) -> str:
        """The next character, or nothing."""
        return self.text[self.at : self.at + 1]

    def column(self, at: int) -> int:
        """The column, from 1, of the character `at`."""
        if at < len(self.columns):
            return self.columns[at] + 1
        return self.columns[-1] + 2 if self.columns else 1

    def error(self, code: str, what: str, mend: str, at: int | None = None) -> BlockError:
        """A fault at the character `at`, or here."""
        return BlockError(code, what, mend, self.column(self.at if at is None else at))

    def expect(self, mark: str, mend: str) -> None:
        """Step over `mark`; `BlockError` if something else stands here."""
        if self.peek() != mark:
            raise self.error("R108", f"{_shown(self.peek())} where {mark!r} must stand", mend)
        self.at += 1


def value(scan: Scan) -> float:
    """Read a value: a number, ``#`` and a value, an expression in brackets or a function of one.

    Raises `BlockError` if none stands here or it can't be worked out.
    """
    mark = scan.peek()
    if mark in ("#", "[") or (scan.count and _CALL.match(scan.text, scan.at)):
        if not scan.count:
            what = f"{_shown(mark)} opens a value that this kind of control doesn't work out"
            raise scan.error("R111", what, "write the number itself")
        return _nested(scan)
    found = _NUMBER.match(scan.text, scan.at)
    if found is None:
        raise scan.error("R103", f"{_shown(mark)} where a number must stand", "write a number")
    begin, scan.at = scan.at, found.end()
    if scan.peek() == ".":
        raise scan.error("R103", "a number with two decimal points", "leave one of them", begin)
    return _sane(float(found[0]), scan, begin)


def parameter_number(scan: Scan) -> int:
    """Read ``#`` and the number of a parameter, from 1 (NISTIR 6556 section 3.3.3)."""
    begin = scan.at
    scan.at += 1
    number = value(scan)
    if abs(number - round(number)) > _WHOLE or not 1 <= round(number) <= scan.count:
        what = f"there is no parameter #{number:g}"
        raise scan.error("R110", what, f"take a whole number from 1 to {scan.count}", begin)
    return round(number)


def _nested(scan: Scan) -> float:
    begin = scan.at
    scan.depth += 1
    if scan.depth > _DEEPEST:
        what = f"more than {_DEEPEST} brackets and signs inside each other"
        raise scan.error("R108", what, "take it apart into parameters")
    if scan.peek() == "[":
        result = _expression(scan)
    elif scan.peek() == "#":
        number = parameter_number(scan)
        if number not in scan.parameters:
            mend = f"set it above, with #{number}=..., or write the number itself"
            what = f"parameter #{number} has no value in this program yet"
            raise scan.error("R110", what, mend, begin)
        result = scan.parameters[number]
    else:
        result = _function(scan)
    scan.depth -= 1
    return _sane(result, scan, begin)


def _expression(scan: Scan) -> float:
    scan.expect("[", "open the expression with '['")
    result = _chain(scan, 0)
    scan.expect("]", "close the expression with ']' or write an operator")
    return result


def _chain(scan: Scan, level: int) -> float:
    """Operators of a level and the stronger ones, from left to right."""
    if level == len(_LEVELS):
        return value(scan)
    left = _chain(scan, level + 1)
    while (found := _OPERATOR.match(scan.text, scan.at)) and found[0] in _LEVELS[level]:
        begin, scan.at = scan.at, found.end()
        right = _chain(scan, level + 1)
        try:
            left = _LEVELS[level][found[0]](left, right)
        except (ArithmeticError, ValueError):
            what = f"{left:g} {found[0]} {right:g} has no value"
            raise scan.error("R109", what, "mend the numbers that go in", begin) from None
    return left


def _function(scan: Scan) -> float:
    begin = scan.at
    call = _CALL.match(scan.text, begin)
    name = call[1] if call else ""
    if name not in _FUNCTIONS and name != "ATAN":
        mend = f"the functions are ATAN, {', '.join(sorted(_FUNCTIONS))}"
        raise scan.error("R108", f"there is no function {name}", mend)
    scan.at += len(name)
    argument = _expression(scan)
    try:
        if name == "ATAN":
            scan.expect("/", "write both sides of the angle, ATAN[y]/[x]")
            return math.degrees(math.atan2(argument, _expression(scan)))
        return _FUNCTIONS[name](argument)
    except (ArithmeticError, ValueError):
        what = f"{name} of {argument:g} has no value"
        raise scan.error("R109", what, "mend the number that goes in", begin) from None


def _sane(number: float, scan: Scan, begin: int) -> float:
    if abs(number) <= LARGEST:
        return number
    mend = f"stay below {LARGEST:g}"
    raise scan.error("R106", f"{number:g} is too large to be meant", mend, begin)


def _shown(mark: str) -> str:
    return repr(mark) if mark else "the end of the line"


def _modulo(left: float, right: float) -> float:
    return left % abs(right)


def _nearest(number: float) -> float:
    """Halves go away from zero."""
    return math.copysign(math.floor(abs(number) + 0.5), number)


_LEVELS: tuple[Mapping[str, Callable[[float, float], float]], ...] = (
    {
        "+": operator.add,
        "-": operator.sub,
        "OR": lambda left, right: float(left != 0 or right != 0),
        "XOR": lambda left, right: float((left != 0) != (right != 0)),
        "AND": lambda left, right: float(left != 0 and right != 0),
    },
    {"*": operator.mul, "/": operator.truediv, "MOD": _modulo},
    {"**": math.pow},
)
"""Operators, the weakest first (NISTIR 6556 section 3.3.2.3)."""

_FUNCTIONS: Mapping[str, Callable[[float], float]] = {
    "ABS": abs,
    "ACOS": lambda number: math.degrees(math.acos(number)),
    "ASIN": lambda number: math.degrees(math.asin(number)),
    "COS": lambda number: math.cos(math.radians(number)),
    "EXP": math.exp,
    "FIX": math.floor,
    "FUP": math.ceil,
    "LN": math.log,
    "ROUND": _nearest,
    "SIN": lambda number: math.sin(math.radians(number)),
    "SQRT": math.sqrt,
    "TAN": lambda number: math.tan(math.radians(number)),
}
"""Functions of one value, angles in degrees (NISTIR 6556 section 3.3.2.4)."""
