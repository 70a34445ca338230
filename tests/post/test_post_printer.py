"""How the printer words things, in a plain dialect."""

from __future__ import annotations

import pytest
from post_cases import EVERY_KIND, ZERO, load, text_of

from jawcam.errors import InternalError
from jawcam.motion.moves import (
    ArcFeed,
    Begin,
    Compensate,
    Coolant,
    End,
    LineFeed,
    Rapid,
    Spindle,
    ToolChange,
    WorkOffset,
)
from jawcam.units import Units

START = (ToolChange(1, "end mill"), Rapid((0, 0, 9)))


def lines_of(*motions, units=Units.MM, zero=(0.0, 0.0, 0.0), post="rs274ngc-mill"):
    return text_of(motions, load(post), units, zero).splitlines()


def test_the_arc_of_the_report_in_its_own_words():
    # NISTIR 6556 section 3.5.3.2: from X7 Y7 to X10 Y16 Z9 round (10, 11).
    arc = ArcFeed((10, 16, 9), (10, 11), False, 100)
    lines = lines_of(START[0], Rapid((7, 7, 0)), arc)
    assert lines[-1] == "G2 X10. Y16. Z9. I3. J4. F100"


def test_what_has_not_changed_is_left_out():
    lines = lines_of(*START, LineFeed((0, 0, 0), 50), LineFeed((5, 0, 0), 50), Rapid((5, 0, 9)))
    assert lines[-3:] == ["G1 Z0. F50", "X5.", "G0 Z9."]


def test_a_full_turn_names_an_axis_though_nothing_changes():
    # NISTIR 6556 section 3.5.3.2: at least one axis word and one offset must be there.
    assert lines_of(*START, ArcFeed((0, 0, 9), (2, 0), True, 50))[-1] == "G3 X0. Y0. I2. J0. F50"


def test_a_move_of_less_than_a_step_leaves_no_block():
    assert lines_of(*START) == lines_of(*START, LineFeed((0.0004, 0, 9), 50), Rapid((0, 0.0004, 9)))


def test_zero_and_inches():
    lines = lines_of(
        *START, LineFeed((25.4, 0, -1.27), 254), units=Units.INCH, zero=(-25.4, 0, 2.54)
    )
    assert lines[-2:] == ["G43 H1 Z0.2543", "G1 X2. Z-0.15 F10."]


def test_across_before_down_after_a_tool_change():
    lines = lines_of(*START, Rapid((5, 5, 3)))
    assert lines[-3:] == ["G0 X0. Y0.", "G43 H1 Z9.", "X5. Y5. Z3."]


def test_nothing_is_negative_zero():
    assert lines_of(*START, LineFeed((-0.0001, 3, 9), 50))[-1] == "G1 Y3. F50"
    assert "X0." in lines_of(START[0], Rapid((-0.0001, 3, 9)))[-2]


def test_compensation_waits_for_a_line_and_ends_on_a_rapid():
    motions = (Compensate("left", 7), Rapid((1, 1, 9)), LineFeed((2, 2, 9), 50))
    lines = lines_of(*START, *motions, Compensate("off"), Rapid((3, 3, 9)))
    assert lines[-3:] == ["X1. Y1.", "G1 G41 D7 X2. Y2. F50", "G0 G40 X3. Y3."]


def test_compensation_that_waits_at_the_end_stands_alone():
    motions = (Compensate("left", 7), LineFeed((2, 2, 9), 50), Compensate("off"), End())
    assert lines_of(*START, *motions)[-5:] == ["G40", "", "G53 G0 Z0.", "M30", "%"]


def test_compensation_can_not_start_on_an_arc():
    with pytest.raises(InternalError, match="waiting"):
        lines_of(*START, Compensate("left", 7), ArcFeed((0, 0, 9), (2, 0), True, 50))


def test_spindle_and_coolant_are_stopped_once():
    running = (Spindle(5000), Coolant("flood"), Rapid((0, 0, 9)))
    left_on = lines_of(START[0], *running, ToolChange(2, "drill"), End())
    put_off = lines_of(
        START[0], *running, Coolant("off"), Spindle(0), ToolChange(2, "drill"), End()
    )
    assert left_on == put_off
    assert left_on.count("M5") == left_on.count("M9") == 1


def test_the_first_tool_change_has_no_tool_to_put_down():
    text = "\n".join(lines_of(Begin("a"), START[0], ToolChange(2, "drill"), post="iso6983-mill"))
    assert text.count("G00 Z") == 1


def test_the_clear_height_is_the_highest_of_the_program():
    motions = (*START, Rapid((0, 0, 31)), Rapid((0, 0, 2)), End())
    assert lines_of(*motions, post="iso6983-mill", zero=(0, 0, 1))[-3].endswith("G00 Z30.")


def test_the_program_number_is_taken_from_the_name():
    assert lines_of(Begin("side-two 41"), post="iso6983-mill")[1] == "O0041"
    assert lines_of(Begin("side-two"), post="iso6983-mill")[1] == "O0001"
    assert lines_of(Begin("side-2 123456"), post="iso6983-mill")[1] == "O0002"


def test_a_work_offset_in_force_is_not_repeated():
    assert lines_of(Begin("a"), WorkOffset(3), WorkOffset(3)).count("G56") == 1


def numbers_of(count):
    """The sequence numbers of a program with so many moves."""
    moves = [Rapid((n % 2, 0, 9)) for n in range(count)]
    lines = lines_of(*START, *moves, post="iso6983-mill")
    return [int(line.split()[0][1:]) for line in lines if line.startswith("N")]


@pytest.mark.parametrize(("count", "step"), [(900, 10), (1100, 5), (4000, 2), (9900, 1)])
def test_sequence_numbers_take_smaller_steps_rather_than_come_twice(count, step):
    numbers = numbers_of(count)
    assert len(numbers) > count
    assert numbers == list(range(10, 10 + len(numbers) * step, step))
    assert numbers[-1] <= 9999


def test_where_no_step_is_small_enough_tool_changes_alone_have_numbers():
    assert numbers_of(10000) == [10]


def test_no_block_is_longer_than_the_report_allows():
    # NISTIR 6556 section 3.3: 256 characters.
    lines = lines_of(Begin("x", ("long " * 200, "y" * 700)), *EVERY_KIND[1:], zero=ZERO)
    assert max(len(line) for line in lines) <= 256
    assert sum(line.count("y") for line in lines if set(line) <= set("( y)")) == 700
