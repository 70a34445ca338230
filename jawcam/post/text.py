"""The small pieces of a program's text: numbers, lines with places to fill, clean comments."""

from __future__ import annotations

import re
import textwrap
import unicodedata
from collections.abc import Mapping
from typing import Literal

from jawcam.errors import InternalError
from jawcam.post.fields import PLACE
from jawcam.post.tables import Comments, Numbers, Program

__all__ = ["clean", "comment_lines", "filled", "number", "program_number"]


def number(
    value: float,
    decimals: int,
    numbers: Numbers,
    *,
    digits: int = 0,
    suppress: Literal["leading", "trailing", "none"] = "leading",
    signed: bool = False,
) -> str:
    """A value in the program's own units -> its digits, never with an exponent (NISTIR 6556
    section 3.3.2.1) and never a negative zero.

    digits: left of the point, and suppress: which zeros are left out, where no point is written;
    signed: with a plus before what is not negative.
    """
    steps = round(value * 10**decimals)
    sign = "-" if steps < 0 else "+" if signed else ""
    if numbers.point == "never":
        return sign + _without_point(abs(steps), digits + decimals, suppress)
    if decimals == 0:
        return f"{sign}{abs(steps)}"
    text = f"{abs(steps):0{decimals + 1}d}"
    whole, part = text[:-decimals], text[-decimals:]
    if not numbers.trailing_zeros:
        part = part.rstrip("0")
    if whole == "0" and part and not numbers.leading_zero:
        whole = ""
    point = "." if part or numbers.point == "always" else ""
    return f"{sign}{whole}{point}{part}"


def _without_point(steps: int, places: int, suppress: str) -> str:
    """Whole steps of the last decimal as a number whose point the control puts in."""
    if suppress == "leading":
        return str(steps)
    text = f"{steps:0{places}d}"
    if len(text) > places:
        raise InternalError(f"{steps} steps don't go into {places} digits")
    return text if suppress == "none" else text.rstrip("0") or "0"


def filled(line: str, values: Mapping[str, str]) -> str:
    """A line of a post with its places filled from `values`: ``{tool}``, or ``{tool:2}`` with
    zeros before it up to two digits. A plain look-up: nothing of a post is run."""
    return PLACE.sub(lambda place: values[place[1]].zfill(int(place[2] or 0)), line)


def clean(text: str, comments: Comments) -> str:
    """`text` in the characters that the control takes in a comment: foreign letters spelled out,
    marks over letters dropped, runs of blanks made one."""
    out = []
    for letter in unicodedata.normalize("NFC", " ".join(text.split())):
        spelled = comments.letters.get(letter)
        if spelled is None:
            spelled = comments.letters.get(letter.lower(), "").upper() or letter
        for one in spelled.upper() if comments.case == "upper" else spelled:
            marks = unicodedata.normalize("NFKD", one)
            bare = "".join(c for c in marks if not unicodedata.combining(c))
            known = (form for form in (one, bare) if set(form) <= set(comments.characters))
            out.append(next(known, comments.unknown))
    return re.sub(" +", " ", "".join(out)).strip()


def comment_lines(text: str, comments: Comments) -> list[str]:
    """`text` as comments, one a line and broken between words where it is too long, what follows
    indented; none where the dialect has no comments or nothing is left of the text."""
    if not comments.open:
        return []
    room = comments.max_length - len(comments.open) - len(comments.close)
    parts = textwrap.wrap(
        clean(text, comments), room, break_on_hyphens=False, subsequent_indent="  "
    )
    return [f"{comments.open}{part}{comments.close}" for part in parts]


def program_number(name: str, program: Program) -> int:
    """The last number in a program's name, or the post's own where there is none that fits."""
    for digits in reversed(re.findall(r"\d+", name)):
        if 0 < int(digits) <= program.largest_number:
            return int(digits)
    return program.number
