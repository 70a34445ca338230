"""What no single key can tell of how a post writes numbers, blocks and comments, whatever its
kind. Each check is made where the keys that it needs are sound."""

from __future__ import annotations

from collections.abc import Sequence

from jawcam.post.fields import PLACE, Form
from jawcam.post.tables import Dialect
from jawcam.units import Units

__all__ = ["check_seconds", "check_words", "needs"]

_WORDS = ("moves.rapid", "moves.line", "moves.feed", "spindle.run")
"""Without these words nothing can be written."""


def check_words(dialect: Dialect, form: Form) -> None:
    """Note the faults of keys that don't go together."""
    _check_numbers(dialect, form)
    _check_blocks(dialect, form)
    _check_letters(dialect, form)
    _check_arcs(dialect, form)
    _check_comments(dialect, form)
    _check_places(dialect, form)


def _check_numbers(dialect: Dialect, form: Form) -> None:
    """What is allowed must go into the digits that there are."""
    bounds = (
        ("numbers.largest", "numbers.digits"),
        ("arcs.largest_radius", "numbers.centre_digits"),
    )
    for key, room in bounds:
        if not form.sound(key, room, "numbers.decimals"):
            continue
        numbers = dialect.numbers
        radius = key.startswith("arcs")
        largest = dialect.arcs.largest_radius if radius else numbers.largest
        digits = numbers.centre_digits if radius else numbers.digits
        for units in Units:
            most = 10 ** digits.of(units) - 10.0 ** -numbers.decimals.of(units)
            if largest.of(units) > most:
                what = f"{largest.of(units):g} {units.value} needs more than "
                what += f"{digits.of(units)} digits left of the point"
                form.fault(what, key, f"write {most:.9g} or less, or allow more digits")
    if form.sound("moves.dwell") and "seconds" in _places(dialect.moves.dwell):
        check_seconds(dialect, form, "moves.dwell")


def check_seconds(dialect: Dialect, form: Form, key: str) -> None:
    """Note that a time in seconds, which has no number of digits, can't be written at `key`."""
    if not form.sound("numbers.point", "numbers.suppress"):
        return
    numbers = dialect.numbers
    if numbers.point == "never" and numbers.suppress != "leading":
        what = "a time in seconds can't be written without a point and with leading zeros"
        form.fault(what, key, "write {milliseconds:5} or the like")


def needs(form: Form, key: str, lines: Sequence[str], *groups: Sequence[str]) -> None:
    """Note each group of names none of which stands in braces in the words at `key`, which would
    then say something else; nothing where there are no words."""
    if not form.sound(key) or not any(lines):
        return
    there = {name for line in lines for name in _places(line)}
    for names in groups:
        if not there & {*names}:
            missing = " or ".join(f"{{{name}}}" for name in names)
            form.fault(f"{missing} is missing", key, "add it")


def _places(text: str) -> set[str]:
    return {place[1] for place in PLACE.finditer(text)}


def _check_blocks(dialect: Dialect, form: Form) -> None:
    if form.sound("blocks.end") and len(dialect.blocks.end) > 4:
        form.fault("the mark that ends a block is too long", "blocks.end")
    numbering = dialect.numbering
    if form.sound("numbering.start", "numbering.largest") and numbering.start > numbering.largest:
        form.fault("the first sequence number is beyond the largest", "numbering.start")
    for key in _WORDS:
        table, name = key.split(".")
        if form.sound(key) and not getattr(getattr(dialect, table), name):
            form.fault("no program can be written without this", key, "add its word")


def _check_letters(dialect: Dialect, form: Form) -> None:
    """Letters that would be taken for each other."""
    for key in ("moves.axes", "arcs.words", "blocks.order"):
        if not form.sound(key):
            continue
        table, name = key.split(".")
        letters = getattr(getattr(dialect, table), name)
        if len({*letters}) != len(letters) or any(len(letter) != 1 for letter in letters):
            form.fault("these must be different single letters", key)
    axes = dialect.moves.axes if form.sound("moves.axes") else ()
    singles = [("moves.feed", True)]
    if form.sound("arcs.centre", "arcs.radius"):
        singles.append(("arcs.radius", dialect.arcs.centre == "radius"))
    if form.sound("numbering.step", "numbering.letter"):
        singles.append(("numbering.letter", dialect.numbering.step > 0))
    for key, used in singles:
        table, name = key.split(".")
        letter = getattr(getattr(dialect, table), name) if form.sound(key) else ""
        if used and letter and (len(letter) != 1 or letter in axes):
            form.fault("this must be a single letter, and none of an axis", key)


def _check_arcs(dialect: Dialect, form: Form) -> None:
    arcs = dialect.arcs
    if not form.sound("arcs.centre") or arcs.centre != "radius":
        return
    if form.sound("arcs.largest_sweep") and arcs.largest_sweep > 165:
        what = "a radius word is not to be trusted for arcs of more than 165 degrees"
        mend = "lower it and add split_arcs to the passes"
        form.fault(what, "arcs.largest_sweep", mend)  # NISTIR 6556 section 3.5.3.1
    if form.sound("arcs.full_circles") and arcs.full_circles:
        form.fault("a radius word can't say a full circle", "arcs.full_circles", "set it false")


def _check_comments(dialect: Dialect, form: Form) -> None:
    comments, end = dialect.comments, dialect.blocks.end if form.sound("blocks.end") else ""
    marks = (comments.open, comments.close) if form.sound("comments.open", "comments.close") else ()
    if marks and comments.close and not comments.open:
        form.fault("a comment needs the mark that opens it", "comments.open")
    if marks and end and comments.open and not comments.close:
        what = "a comment that ends with its line would swallow this mark"
        form.fault(what, "blocks.end", "give comments a mark that ends them, or blocks none")
    if len("".join(marks)) > 8:
        form.fault("the marks of a comment are too long", "comments.open")
    lengths = form.sound("comments.max_length", "blocks.max_length")
    if lengths and comments.max_length + len(end) > dialect.blocks.max_length:
        form.fault("a comment may not be longer than a line", "comments.max_length")
    if not form.sound("comments.characters"):
        return
    known = {*comments.characters}
    wrong = {*"".join(marks), *end} & known
    if wrong:
        what = f"{min(wrong)!r} would end a comment or nest it"
        form.fault(what, "comments.characters", "leave it out")
    upper = form.sound("comments.case") and comments.case == "upper"
    texts = {"unknown": comments.unknown} if form.sound("comments.unknown") else {}
    if form.sound("comments.letters"):
        texts |= {f"letters.{letter}": text for letter, text in comments.letters.items()}
    for key, text in texts.items():
        strange = {*(text.upper() if upper else text)} - known
        if strange:
            what = f"{min(strange)!r} is not among the characters of a comment"
            form.fault(what, f"comments.{key}")


def _check_places(dialect: Dialect, form: Form) -> None:
    """Words that leave out what they are for."""
    if form.sound("spindle.run"):
        needs(form, "spindle.run", (dialect.spindle.run,), ("speed",), ("direction",))
    if form.sound("tools.load"):
        needs(form, "tools.load", dialect.tools.load, ("tool",))
    if form.sound("moves.dwell"):
        needs(form, "moves.dwell", (dialect.moves.dwell,), ("seconds", "milliseconds"))
