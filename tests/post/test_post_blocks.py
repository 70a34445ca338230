"""Blocks as lines: the order of words, sequence numbers, end marks, block delete, blocks that are
too long. Expected: NISTIR 6556 sections 3.3 and 3.3.1 where not said otherwise."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from post_cases import EVERY_KIND, MILLS, ZERO, load, text_of

from jawcam.errors import InputError
from jawcam.motion.moves import (
    ArcFeed,
    Begin,
    Compensate,
    End,
    LineFeed,
    Rapid,
    Spindle,
    ToolChange,
    WorkOffset,
)
from jawcam.post.blocks import parted
from jawcam.reader.read import read
from jawcam.units import Units

NIST, ISO = load("rs274ngc-mill"), load("iso6983-mill")
TOOL = (ToolChange(3, "end mill"), Rapid((0, 0, 9)))


def with_keys(dialect, table, **keys):
    """The dialect with other values in one of its tables."""
    return replace(dialect, **{table: replace(getattr(dialect, table), **keys)})


def lines_of(dialect, *motions):
    return text_of(motions, dialect, Units.MM, (0.0, 0.0, 0.0)).splitlines()


def test_words_in_the_order_of_the_dialect():
    dialect = with_keys(NIST, "blocks", order=("F", "Y", "X", "G"))
    motions = (*TOOL, Compensate("left", 3), LineFeed((1, 2, 9), 50))
    assert lines_of(dialect, *motions)[-1] == "F50 Y2. X1. G1 G41 D3"
    assert lines_of(dialect, *TOOL, ArcFeed((1, 1, 9), (1, 0), False, 5))[-1] == (
        "F5 Y1. X1. G2 I1. J0."
    )


def test_lines_of_the_post_keep_their_words_as_they_stand():
    dialect = with_keys(NIST, "blocks", order=("M", "T", "S"))
    assert "T3 M6" in lines_of(dialect, *TOOL)
    assert lines_of(dialect, *TOOL, Spindle(900))[-1] == "M3 S900"


def test_arcs_and_their_ends_may_be_told_in_full():
    arcs = (ArcFeed((1, 1, 9), (1, 0), False, 5), ArcFeed((1, -1, 9), (1, 0), False, 5))
    assert lines_of(NIST, *TOOL, *arcs)[-1] == "Y-1. I0. J-1."
    modal = ("motion", "coordinates", "feed")
    told = lines_of(with_keys(NIST, "blocks", modal=modal), *TOOL, *arcs)
    assert told[-1] == "G2 X1. Y-1. I0. J-1."
    ends = lines_of(with_keys(NIST, "blocks", modal=(*modal, "arcs")), *TOOL, *arcs)
    assert ends[-1] == "X1. Y-1. I0. J-1."
    words = lines_of(with_keys(NIST, "blocks", modal=(*modal, "arc ends")), *TOOL, *arcs)
    assert words[-1] == "G2 Y-1. I0. J-1."


def test_numbers_at_tool_changes_alone():
    dialect = with_keys(NIST, "numbering", where="tool changes", start=1, step=1, digits=3)
    lines = lines_of(dialect, *TOOL, ToolChange(4, "drill"), Rapid((1, 1, 9)))
    assert [line for line in lines if line.startswith("N")] == ["N001 T3 M6", "N002 T4 M6"]


def test_numbers_keep_their_digits():
    dialect = with_keys(ISO, "numbering", start=5, step=5, digits=4)
    numbers = [line.split()[0] for line in lines_of(dialect, *TOOL) if line[0] == "N"]
    assert numbers == ["N0005", "N0010", "N0015"]


def test_numbers_that_do_not_suffice_are_refused_where_every_block_needs_one():
    dialect = with_keys(ISO, "numbering", start=1, step=10, largest=99, beyond="refuse")
    moves = [Rapid((n % 2, 0, 9)) for n in range(98)]
    lines = lines_of(dialect, *TOOL, *moves[:-1])
    numbers = [int(line.split()[0][1:]) for line in lines if line[0] == "N"]
    assert numbers == list(range(1, 100))
    with pytest.raises(InputError) as caught:
        lines_of(dialect, *TOOL, *moves)
    (fault,) = caught.value.faults
    assert "100 blocks need sequence numbers, and those end at 99" in fault.what
    assert fault.mend


def test_even_tool_changes_may_be_too_many():
    dialect = with_keys(ISO, "numbering", start=10, largest=11)
    with pytest.raises(InputError, match="3 blocks need"):
        lines_of(dialect, *(ToolChange(n, "a") for n in (1, 2, 3)))


@pytest.mark.parametrize("units", Units)
@pytest.mark.parametrize("name", MILLS)
def test_no_number_comes_twice_in_any_post(name, units):
    dialect = load(name)
    text = text_of(EVERY_KIND, dialect, units, ZERO)
    numbers = re.findall(rf"(?m)^{dialect.numbering.letter}(\d+)(?=\D|$)", text)
    assert bool(numbers) == (dialect.numbering.step > 0)
    assert [int(n) for n in numbers] == sorted({int(n) for n in numbers})
    assert all(len(n) >= dialect.numbering.digits for n in numbers)


@pytest.mark.parametrize("line", ["/M01", "/ M01"])
def test_block_delete_stands_before_the_number(line):
    dialect = with_keys(ISO, "tools", leave=(*ISO.tools.leave, line))
    lines = lines_of(dialect, *TOOL, ToolChange(4, "drill"), End())
    (stop,) = [text for text in lines if "M01" in text]
    assert stop == "/N40 M01"
    program = read("\n".join(lines), ISO.control)
    assert program.faults == ()
    assert ("stop", "M1") in [(change.kind, change.value) for change in program.changes]


def test_without_numbers_it_stands_before_the_words():
    dialect = with_keys(NIST, "tools", load=("/ M1", "T{tool} M6"))
    assert "/M1" in [line.replace(" ", "") for line in lines_of(dialect, *TOOL)]


def test_a_mark_ends_each_block_and_comment():
    dialect = with_keys(ISO, "blocks", end=";")
    lines = lines_of(dialect, Begin("a"), *TOOL)
    assert all(line.endswith(";") for line in lines if line[0] == "N")
    assert "(T03 END MILL);" in lines
    assert lines[:2] == ["%", "O0001"]


def test_a_long_block_of_g_words_is_parted():
    words = ["G71", "G17", "G40", "G80", "G90", "G94"]
    blocks = replace(ISO.blocks, max_length=32)
    parts = parted(words, blocks, ISO.numbering)
    assert parts == [words[:6]]
    short = replace(blocks, max_length=20)
    parts = parted(words, short, ISO.numbering)
    assert [word for part in parts for word in part] == words
    assert all(len(" ".join(["N9999", *part])) <= 20 for part in parts)


def test_any_other_block_that_is_too_long_is_refused():
    dialect = with_keys(
        with_keys(ISO, "blocks", max_length=32, spaces=True), "comments", max_length=32
    )
    motions = (*TOOL, LineFeed((-1000.125, -1000.125, -100.125), 5000))
    with pytest.raises(InputError) as caught:
        lines_of(dialect, *motions)
    (fault,) = caught.value.faults
    assert "32 is the most" in fault.what


def test_a_work_offset_of_two_words():
    dialect = replace(ISO, work_offsets=(*ISO.work_offsets, "G54.1 P1", "G54.1 P2"))
    motions = (*TOOL, WorkOffset(8), Rapid((1, 2, 9)), LineFeed((1, 2, 3), 50), End())
    text = text_of(motions, dialect, Units.MM, (0, 0, 0))
    assert "G54.1 P2\n" in text
    program = read(text, dialect.control)
    assert program.faults == ()
    assert program.cuts[-1].work_offset == 8
    bare = text_of(motions, with_keys(dialect, "blocks", spaces=False), Units.MM, (0, 0, 0))
    assert "G54.1P2\n" in bare
