"""What a setup sheet says in words: its groups of lines."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from functools import partial

from jawcam.proof.report import Finding
from jawcam.proof.words import tally
from jawcam.show.lettering import wrap
from jawcam.show.sheet_flow import CLOSE, Cell, Group, Item, Line, Maker, paragraph
from jawcam.show.sheet_given import Given
from jawcam.show.sheet_page import SMALLEST, TEXT
from jawcam.show.sheet_set import to_set
from jawcam.show.sheet_steps import Step, steps
from jawcam.show.words import clock
from jawcam.tools.materials import PRACTICE
from jawcam.units import Units

__all__ = ["groups", "proof_words", "time_words"]

MOST_LINES = 7
"""The most lines that one finding or note takes."""

TICKED, LABELLED = 4.2, 20.0
"""mm from the column's edge to the labels and to the texts of what is to be set."""

LINE, WORK, TIME = 11.0, 19.0, 20.0
"""mm from the column's edge to a step's tool and to what is done; what its time takes."""

SPEEDS = "SPEEDS AND FEEDS, HOW CHOSEN"
KINDS = (
    ("MIND", re.compile(r"caution: (.*)")),
    ("GRIP, AS GUIDANCE", re.compile(r"grip: (.*)")),
    ("ASSUMED AND WORKED OUT", re.compile(r"((?!T\d+: ).*)")),
    (SPEEDS, re.compile(r"(T\d+: .*)")),
)
"""Notes by their beginnings, in the order in which the sheet tells them."""

UNSOURCED = re.compile(rf"[:,]? \(?{re.escape(PRACTICE)}\)?")


def groups(given: Given, minutes: Mapping[int, float]) -> list[Group]:
    """All of them, the most needed first. minutes: number of the cut -> how long it takes."""
    name, found = given.setup.name, sorted(given.report.findings, key=_rank)
    rows = steps(given.program, minutes)
    setting = Group("SET", tuple(_setting(*row) for row in to_set(given)), f"{given.file}.nc")
    findings = [_finding(one, given.job.units) for one in found]
    told = Group("FINDINGS OF THE PROOF", tuple(findings), f"{name}.json")
    order = Group(_ordered(given), _order(rows, given), _program(given))
    first = [setting, order, told] if given.proven else [told, setting, order]
    return [*first, *_notes(given)]


def proof_words(given: Given) -> str:
    """What the proof came to."""
    if not given.proven and given.report.ok:
        return "not proven: the proof of another station stops this program"
    return tally(given.report)


def time_words(given: Given) -> str:
    """How long the station takes at the programmed feeds."""
    figures = given.report.figures
    return clock(figures.feed_minutes + figures.rapid_minutes)


def _program(given: Given) -> str:
    return f"{given.file}.nc" if given.proven else f"{given.file}.unproven.txt"


def _rank(finding: Finding) -> int:
    return ("stop", "warn", "note").index(finding.grade)


def _setting(label: str, text: str) -> Maker:
    def make(wide: float) -> Item:
        rows = wrap(text, wide - LABELLED, TEXT, "bold", most=4)
        cells = [Cell(LABELLED, row, TEXT, "bold") for row in rows]
        first = Line((Cell(TICKED, label, TEXT), cells[0]), TEXT, tick=True)
        return Item((first, *(Line((cell,), TEXT) for cell in cells[1:])))

    return make


def _ordered(given: Given) -> str:
    return "ORDER OF WORK" if not given.others else "ORDER OF WORK IN THIS STATION"


def _order(rows: Sequence[Step], given: Given) -> tuple[Maker, ...]:
    """The steps, and the time of all of them."""
    head = partial(_ruled, words=("line", "tool", "work", "time"), weights=("normal",) * 2)
    changes = "tool changes not counted"
    whole = f"in all, {changes}" if not given.others else f"this station, {changes}"
    total = partial(_ruled, words=("", "", whole, time_words(given)), weights=("normal", "bold"))
    steps = [
        partial(
            _ruled,
            words=(str(step.line), f"T{step.tool}", step.what or "cuts", clock(step.minutes)),
            weights=("bold", "normal"),
        )
        for step in rows
    ]
    return (partial(_joined, makers=(head, *steps[:1])), *steps[1:], total)


def _joined(wide: float, *, makers: Sequence[Maker]) -> Item:
    """Several items that stay together."""
    return Item(tuple(line for make in makers for line in make(wide).lines), CLOSE)


def _ruled(wide: float, *, words: tuple[str, str, str, str], weights: tuple[str, str]) -> Item:
    """A row of the order of work; weights: of its tool and of its time."""
    line, tool, work, time = words
    rows = wrap(work, wide - WORK - TIME, SMALLEST, most=2)
    first = (
        Cell(0.0, line),
        Cell(LINE, tool, weight=weights[0]),
        Cell(WORK, rows[0]),
        Cell(wide, time, weight=weights[1], align="right"),
    )
    more = (Line((Cell(WORK, row),)) for row in rows[1:])
    return Item((Line(tuple(cell for cell in first if cell.text)), *more), CLOSE)


def _finding(finding: Finding, units: Units) -> Maker:
    """Its grade, code, line and place, what it is and how it is mended."""
    pairs = zip("XYZ", (finding.x, finding.y, finding.z), strict=True)
    digits = 4 if units is Units.INCH else 3
    place = " ".join(f"{axis} {units.number(v, digits)}" for axis, v in pairs if v is not None)
    line = f"line {finding.line}" if finding.line else ""
    where = ", ".join(part for part in (finding.code, line, place) if part)
    mend = f"; to mend: {finding.mend}" if finding.mend else ""
    said = f"{where}: {finding.what}{mend}"
    return paragraph(said, label=finding.grade.upper(), at=12.0, most=MOST_LINES)


def _notes(given: Given) -> list[Group]:
    """The notes by kind, those on one tool's speeds in one paragraph."""
    sorted_in: list[list[str]] = [[] for _ in KINDS]
    for note in given.notes:
        for own, (_, pattern) in zip(sorted_in, KINDS, strict=True):
            if match := pattern.fullmatch(note):
                own.append(match[1])
                break
    rest = f"{given.setup.name}.json"
    groups: list[Group] = []
    for title, own in zip((title for title, _ in KINDS), sorted_in, strict=True):
        if title == SPEEDS:
            items = _by_tool(own)
        else:
            items = [paragraph(text, label="-", at=2.2, most=MOST_LINES) for text in own]
        groups.append(Group(title, tuple(items), rest, spare=title == SPEEDS))
    return groups


def _by_tool(notes: Sequence[str]) -> list[Maker]:
    """A paragraph for each tool; what many of them say is said once, at the end."""
    tools: dict[str, list[str]] = {}
    for note in notes:
        tool, _, words = note.partition(": ")
        tools.setdefault(tool, []).append(UNSOURCED.sub("*", words))
    items = [
        paragraph("; ".join(own), label=tool, at=7.0, most=2 * MOST_LINES)
        for tool, own in tools.items()
    ]
    if any("*" in words for own in tools.values() for words in own):
        items.append(paragraph(f"* {PRACTICE}", at=7.0))
    return items
