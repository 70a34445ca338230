"""What a setup sheet says in words: its groups of lines."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from functools import partial

from jawcam.proof.report import Finding
from jawcam.proof.words import sentence, tally
from jawcam.show.lettering import wrap
from jawcam.show.sheet_flow import CLOSE, Cell, Group, Item, Line, Maker, paragraph
from jawcam.show.sheet_given import Given
from jawcam.show.sheet_page import SMALLEST, TEXT
from jawcam.show.sheet_set import to_set
from jawcam.show.sheet_steps import Step, minutes_of, steps
from jawcam.show.words import clock
from jawcam.tools.materials import PRACTICE
from jawcam.units import Units

__all__ = ["groups", "program_name", "proof_words", "time_words"]

MOST_LINES = 7
"""The most lines that one finding or note takes."""

TICKED, LABELLED = 4.2, 20.0
"""mm from the column's edge to the labels and to the texts of what is to be set."""

LINE, WORK, TIME = 11.0, 19.0, 20.0
"""mm from the column's edge to a step's tool and to what is done; what its time takes."""

SPEEDS = "SPEEDS AND FEEDS"
KINDS = (
    ("MIND", re.compile(r"caution: (.*)")),
    ("GRIP, AS GUIDANCE", re.compile(r"grip: (.*)")),
    ("ASSUMED AND WORKED OUT", re.compile(r"((?!T\d+: ).*)")),
    (SPEEDS, re.compile(r"(T\d+: .*)")),
)
"""Notes by their beginnings, in the order in which the sheet tells them."""

A_SECOND = 1 / 60
"""Minutes."""

UNSOURCED = re.compile(rf"[:,]? \(?{re.escape(PRACTICE)}\)?")


def groups(given: Given) -> list[Group]:
    """All of them, the most needed first."""
    name, found = given.setup.name, sorted(given.report.findings, key=_rank)
    minutes = minutes_of(given.program, given.target, given.job)
    rows = steps(given.program, minutes)
    setting = Group("SET", tuple(_setting(*row) for row in to_set(given)), program_name(given))
    findings = [_finding(one, given.job.units) for one in found]
    told = Group("FINDINGS OF THE PROOF", tuple(findings), f"{name}.json")
    order = Group(_ordered(given), _order(rows, given, sum(minutes.values())), program_name(given))
    first = [setting, order, told] if given.proven else [told, setting, order]
    return [*first, *_notes(given)]


def proof_words(given: Given) -> str:
    """What the proof came to."""
    if not given.proven and given.report.ok:
        return "not proven: the proof of another station stops this program"
    return tally(given.report)


def time_words(given: Given) -> str:
    """How long the setup takes, its tool changes counted where the proof does."""
    time = f"takes about {clock(given.report.figures.minutes)}"
    return time if given.report.figures.change_minutes else f"{time} without tool changes"


def program_name(given: Given) -> str:
    """What the program's file is called."""
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


def _order(rows: Sequence[Step], given: Given, moving: float) -> tuple[Maker, ...]:
    """The steps, what comes between them, and the time of all. moving: minutes of all moves."""
    head = partial(_ruled, words=("line", "tool", "work", "time"), weights=("normal",) * 2)
    figures = given.report.figures
    between = (
        ("moves between them", moving - math.fsum(step.minutes for step in rows)),
        ("dwells", figures.dwell_minutes),
        ("tool changes", figures.change_minutes),
    )
    others = [
        partial(_ruled, words=("", "", what, clock(minutes)), weights=("normal",) * 2)
        for what, minutes in between
        if minutes >= A_SECOND
    ]
    whole = "in all" if not given.others else "this station"
    if not figures.change_minutes:
        whole = f"{whole}, tool changes not counted"
    words = ("", "", whole, clock(figures.minutes))
    total = partial(_ruled, words=words, weights=("normal", "bold"))
    steps = [
        partial(
            _ruled,
            words=(str(step.line), f"T{step.tool}", step.what or "cuts", clock(step.minutes)),
            weights=("bold", "normal"),
        )
        for step in rows
    ]
    return (partial(_joined, makers=(head, *steps[:1])), *steps[1:], *others, total)


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
    said = sentence(finding, units)
    return paragraph(said, label=finding.grade.upper(), at=12.0, most=MOST_LINES)


def _notes(given: Given) -> list[Group]:
    """The notes by kind, those on one tool's speeds in one paragraph; what the proof takes for
    granted is a note as well."""
    sorted_in: list[list[str]] = [[] for _ in KINDS]
    for note in given.notes:
        for own, (_, pattern) in zip(sorted_in, KINDS, strict=True):
            if match := pattern.fullmatch(note):
                own.append(match[1])
                break
    rest = f"{given.setup.name}.json"
    cautions, grip, assumed, speeds = sorted_in
    if given.report.figures.assumed:
        assumed.append(f"for the times: {', '.join(given.report.figures.assumed)}")
    if given.report.figures.untold:
        assumed.append(f"of what can crash: {'; '.join(given.report.figures.untold)}")
    if given.report.figures.unjudged:
        assumed.append(f"not judged: {'; '.join(given.report.figures.unjudged)}")
    listed = [
        Group(title, tuple(_listed(text) for text in own), rest)
        for (title, _), own in zip(KINDS, (cautions, grip, assumed), strict=False)
    ]
    aside = f"* {PRACTICE}" if any(UNSOURCED.search(note) for note in speeds) else ""
    short = tuple(_by_tool([_in_short(note) for note in speeds]))
    every = tuple(_by_tool(speeds))
    return [*listed, Group(SPEEDS, every, rest, aside=aside, short=short)]


def _in_short(note: str) -> str:
    """What is chosen for a tool and why, without where a number comes from or what follows from
    it."""
    tool, _, words = UNSOURCED.sub("*", note).partition(": ")
    parts = re.sub(r" \([^)]*\)", "", words).split("; ")
    kept = [one for one in parts if not one.startswith(("full width", "straight down"))]
    return f"{tool}: {'; '.join(one.partition(', a steady')[0] for one in kept)}"


def _listed(text: str) -> Maker:
    return paragraph(text, label="-", at=2.2, most=MOST_LINES)


def _by_tool(notes: Sequence[str]) -> list[Maker]:
    """A paragraph for each tool; a star for the words that many of them end with."""
    tools: dict[str, list[str]] = {}
    for note in notes:
        tool, _, words = note.partition(": ")
        tools.setdefault(tool, []).append(UNSOURCED.sub("*", words))
    return [
        paragraph("; ".join(own), label=tool, at=7.0, most=2 * MOST_LINES)
        for tool, own in tools.items()
    ]
