"""A dialect with odd habits is one more file, and no line of code."""

from __future__ import annotations

import re

import pytest
from post_cases import EVERY_KIND, ZERO, text_of
from post_mini_reader import read

from jawcam.motion.moves import ArcFeed, LineFeed, Rapid, ToolChange
from jawcam.post.dialect import load
from jawcam.resources import folder
from jawcam.units import Units

SHIPPED = (folder("posts") / "rs274ngc-mill.toml").read_text(encoding="utf-8")
RADIUS_WORDS = {
    "passes": '["split_full_circles", "split_arcs"]',
    "decimals": "{ mm = 4, inch = 5 }",
    "spaces": "false",
    "blank_lines": "false",
    "step": "5",
    "trailing_zeros": "true",
    "modal": '["coordinates"]',
    "case": '"upper"',
    "approach": '"together"',
    "centre": '"radius"',
    "full_circles": "false",
    "largest_sweep": "90",
}
ABSOLUTE_CENTRES = {
    "centre": '"absolute"',
    "centre_decimals": "{ mm = 3, inch = 4 }",
    "point": '"as needed"',
    "leading_zero": "false",
    "open": '""',
    "head": '["%"]',
    "close": '""',
    "modal": "[]",
}
FEW_DECIMALS = {
    "decimals": "{ mm = 2, inch = 3 }",
    "centre_decimals": "{ mm = 2, inch = 3 }",
}
WHOLE_STEPS = {"point": '"never"', "centre_decimals": "{ mm = 3, inch = 4 }"}


@pytest.fixture
def odd(tmp_path):
    """Write a post that differs in the given keys and load it."""

    def build(changes):
        text = SHIPPED
        for key, value in changes.items():
            text, count = re.subn(rf"(?m)^{key} = .*$", f"{key} = {value}", text)
            assert count, key
        (tmp_path / "odd.toml").write_text(text, encoding="utf-8")
        return load("odd.toml", near=tmp_path)

    return build


@pytest.mark.parametrize("units", Units)
def test_arcs_by_radius_without_spaces_and_with_sequence_numbers(odd, units):
    text = text_of(EVERY_KIND, odd(RADIUS_WORDS), units, ZERO)
    arcs = [move for move in read(text).moves if move.kind == "arc"]
    assert len(arcs) > 10
    assert not re.search(r"[IJ]\d", text)
    assert max(abs(arc.turn) for arc in arcs) < 1.58


def test_the_look_of_it(odd):
    motions = (ToolChange(1, "drill"), Rapid((1, 2, 3)), ArcFeed((2, 3, 3), (1, 3), True, 80))
    assert text_of(motions, odd(RADIUS_WORDS), Units.MM, (0, 0, 0)).splitlines() == [
        "N10G53G0Z0.",
        "(T1 DRILL)",
        "N15T1M6",
        "N20G0G43H1X1.0000Y2.0000Z3.0000",
        "N25G3X2.0000Y3.0000R1.0000F80",
    ]


@pytest.mark.parametrize("units", Units)
def test_arcs_by_absolute_centres_and_nothing_modal(odd, units):
    text = text_of(EVERY_KIND, odd(ABSOLUTE_CENTRES), units, ZERO)
    moves = read(text, centre="absolute").moves
    assert sum(move.kind == "arc" for move in moves) == sum(
        isinstance(motion, ArcFeed) for motion in EVERY_KIND
    )
    assert "(" not in text
    level = [line for line in text.splitlines() if line.startswith("G3 ") and "Z" not in line]
    assert len(level) == sum(move.kind == "arc" for move in moves) - 1  # the helix tells its Z
    assert not re.search(r"\.(?!\d)|[A-Z]-?0\.", text.replace("Z0.\n", ""))
    cutting = [line for line in text.splitlines() if line.startswith(("G1", "G2 ", "G3"))]
    assert all({"X", "Y", "F"} <= set(line) for line in cutting)


@pytest.mark.parametrize("units", Units)
def test_with_too_few_decimals_for_the_radius_rule_arcs_still_pass_it(odd, units):
    dialect = odd(FEW_DECIMALS)
    motions = [ToolChange(1, "a"), Rapid((7.777, 0, 0))]
    for n in range(1, 40):
        end = (7.777 + n * 0.813, n * n * 0.0331, 0.0)
        x, y = motions[-1].to[:2]
        middle = ((x + end[0]) / 2, (y + end[1]) / 2)
        centre = (middle[0] - (end[1] - y) * 0.4, middle[1] + (end[0] - x) * 0.4)
        motions.append(ArcFeed(end, centre, n % 2 == 0, 100))
    moves = read(text_of(motions, dialect, units, (0, 0, 0))).moves
    assert {move.kind for move in moves} == {"rapid", "line", "arc"}


def test_whole_steps(odd):
    motions = (ToolChange(1, "a"), Rapid((0, 0, 1.5)), LineFeed((-0.25, 10, 1.5), 80))
    text = text_of(motions, odd(WHOLE_STEPS), Units.MM, (0, 0, 0))
    assert text.splitlines()[-3:] == ["G0 X0 Y0", "G43 H1 Z1500", "G1 X-250 Y10000 F80"]


# What follows are whole habits of controls that no shipped post is written for; each is a file.
UNLIKE_ANY = {
    "passes": '["cycles_to_moves", "split_full_circles", "split_arcs", "helices_to_lines"]',
    "units": '{ mm = "G21", inch = "G20" }',
    "work_offsets": '["G54", "G55", "G54.1 P1", "G54.1 P2"]',
    "sign": '"always"',
    "end": '"*"',
    "max_length": "72",
    "order": '["N", "M", "S", "T", "F", "Z", "Y", "X", "R", "G"]',
    "modal": '["coordinates", "feed"]',
    "where": '"tool changes"',
    "step": "100",
    "digits": "5",
    "open": '";"',
    "close": '""',
    "characters": '" +-,.0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ"',
    "case": '"upper"',
    "unknown": '"."',
    "first": '["G91 G28 Z0.*", "G90"]',
    "leave": '["{coolant_off}", "{spindle_off}", "G91 G28 Z0.", "G90", "/M01"]',
    "dwell": '"G04 P{milliseconds}"',
    "centre": '"radius"',
    "full_circles": "false",
    "helices": "false",
    "largest_sweep": "120",
    "largest_register": "99",
    "shortest": "{ mm = 0.01, inch = 0.0004 }",
    "merge_chord": "{ mm = 0.002, inch = 0.0001 }",
}
