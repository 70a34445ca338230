"""What no single key can tell of how a post writes numbers, blocks and comments, whatever its
kind."""

from __future__ import annotations

from jawcam.post.fields import PLACE, Form
from jawcam.post.tables import Dialect
from jawcam.units import Units

__all__ = ["check_seconds", "check_words"]


def check_words(dialect: Dialect, form: Form) -> None:
    """Note the faults of keys that don't go together."""
    _check_numbers(dialect, form)
    _check_blocks(dialect, form)
    _check_arcs(dialect, form)
    _check_comments(dialect, form)
    for key, letters in (("moves.axes", dialect.moves.axes), ("arcs.words", dialect.arcs.words)):
        if len({*letters}) != len(letters) or any(len(letter) != 1 for letter in letters):
            form.fault("these must be different single letters", key)


def _check_numbers(dialect: Dialect, form: Form) -> None:
    """What is allowed must go into the digits that there are."""
    numbers, arcs = dialect.numbers, dialect.arcs
    for units in Units:
        bounds = (
            ("numbers.largest", numbers.largest, numbers.digits, numbers.decimals),
            ("arcs.largest_radius", arcs.largest_radius, numbers.centre_digits, numbers.decimals),
        )
        for key, largest, digits, decimals in bounds:
            most = 10 ** digits.of(units) - 10.0 ** -decimals.of(units)
            if largest.of(units) > most:
                what = f"{largest.of(units):g} {units.value} needs more than "
                what += f"{digits.of(units)} digits left of the point"
                form.fault(what, key, f"write {most:.9g} or less, or allow more digits")
    if "seconds" in _places(dialect.moves.dwell):
        check_seconds(dialect, form, "moves.dwell")


def check_seconds(dialect: Dialect, form: Form, key: str) -> None:
    """Note that a time in seconds, which has no number of digits, can't be written at `key`."""
    numbers = dialect.numbers
    if numbers.point == "never" and numbers.suppress != "leading":
        what = "a time in seconds can't be written without a point and with leading zeros"
        form.fault(what, key, "write {milliseconds:5} or the like")


def _places(text: str) -> set[str]:
    return {place[1] for place in PLACE.finditer(text)}


def _check_blocks(dialect: Dialect, form: Form) -> None:
    order = dialect.blocks.order
    if len({*order}) != len(order) or any(len(letter) != 1 for letter in order):
        form.fault("these must be different single letters", "blocks.order")
    if len(dialect.blocks.end) > 4:
        form.fault("the mark that ends a block is too long", "blocks.end")
    numbering = dialect.numbering
    if numbering.start > numbering.largest:
        form.fault("the first sequence number is beyond the largest", "numbering.start")


def _check_arcs(dialect: Dialect, form: Form) -> None:
    arcs = dialect.arcs
    if arcs.centre == "radius" and arcs.largest_sweep > 165:
        what = "a radius word is not to be trusted for arcs of more than 165 degrees"
        mend = "lower it and add split_arcs to the passes"
        form.fault(what, "arcs.largest_sweep", mend)  # NISTIR 6556 section 3.5.3.1
    if arcs.centre == "radius" and arcs.full_circles:
        form.fault("a radius word can't say a full circle", "arcs.full_circles", "set it false")


def _check_comments(dialect: Dialect, form: Form) -> None:
    comments = dialect.comments
    if comments.close and not comments.open:
        form.fault("a comment needs the mark that opens it", "comments.open")
    if len(comments.open + comments.close) > 8:
        form.fault("the marks of a comment are too long", "comments.open")
    if comments.max_length + len(dialect.blocks.end) > dialect.blocks.max_length:
        form.fault("a comment may not be longer than a line", "comments.max_length")
    marks = {*comments.open, *comments.close, *dialect.blocks.end} & {*comments.characters}
    if marks:
        what = f"{min(marks)!r} would end a comment or nest it"
        form.fault(what, "comments.characters", "leave it out")
    for key, text in {"unknown": comments.unknown, **comments.letters}.items():
        wrong = {*(text.upper() if comments.case == "upper" else text)} - {*comments.characters}
        if wrong:
            path = "comments.unknown" if key == "unknown" else f"comments.letters.{key}"
            form.fault(f"{min(wrong)!r} is not among the characters of a comment", path)
