"""All that controls of this kind differ in, item by item: the key of a post file that says it, and
what becomes of the text. How each is read back is in the tests of the shipped posts and of the odd
ones."""

from __future__ import annotations

import pytest
from lathe_cases import EVERY_KIND as EVERY_TURNING
from post_cases import EVERY_KIND, ZERO, text_of
from post_edit import edited

from jawcam.motion.moves import (
    ArcFeed,
    Begin,
    Drill,
    End,
    LineFeed,
    Rapid,
    Spindle,
    ToolChange,
    WorkOffset,
)
from jawcam.post.write import write
from jawcam.units import Units

HERE = (Rapid((0.5, -3.25, 25.0)), Rapid((0.5, -3.25, 2.0)), LineFeed((0.5, -3.25, -1.0), 120.0))
HALF = (ArcFeed((0.5, 4.75, -1.0), (0.5, 0.75), True, 240.0),)
TURN = (ArcFeed((0.5, -3.25, -1.0), (0.5, 0.75), True, 240.0),)
DOWN = (ArcFeed((0.5, -3.25, -2.0), (0.5, 0.75), True, 240.0),)
SHORT = (
    LineFeed((2.0, -3.25, -1.0), 120.0),
    LineFeed((2.002, -3.25, -1.0), 120.0),
    LineFeed((9.0, -3.25, -1.0), 120.0),
)
DWELL = (Drill((3.0, 4.0), 25.0, 1.0, -2.0, 90.0, dwell=0.25),)
UP = (Rapid((0.5, -3.25, 25.0)),)
LEVELS = tuple(
    move
    for z in (-1.0, -2.0)
    for move in (
        Rapid((0.0, 0.0, z)),
        *(LineFeed((n + 1.0, n * n / 8, z), 300.0) for n in range(9)),
        Rapid((0.0, 0.0, 9.0)),
    )
)
NEVER = {"numbers.point": '"never"'}

# item, the keys that say it, the motions, what the text then holds, what it then does not
ITEMS = [
    ("a point always", {}, HERE, ["X0.5 Y-3.25", "Z25."], []),
    ("a point as needed", {"numbers.point": '"as needed"'}, HERE, ["Z25\n"], ["25."]),
    ("no point", NEVER, HERE, ["X500 Y-3250", "Z25000", "F120"], ["X0.", "25."]),
    ("trailing zeros kept", {"numbers.trailing_zeros": "true"}, HERE, ["X0.500 Y-3.250"], []),
    ("no zero before the point", {"numbers.leading_zero": "false"}, HERE, ["X.5"], ["X0.5"]),
    (
        "decimals by word and unit",
        {
            "numbers.decimals": "{ mm = 2, inch = 3 }",
            "numbers.centre_decimals": "{ mm = 4, inch = 5 }",
            "numbers.feed_decimals": "{ mm = 1, inch = 2 }",
            "numbers.speed_decimals": "1",
            "numbers.trailing_zeros": "true",
        },
        (*HERE, *HALF),
        ["X0.50 Y-3.25", "J4.0000", "F240.0", "S900.0"],
        [],
    ),
    (
        "zeros suppressed at the end, or not at all, word by word",
        {
            **NEVER,
            "numbers.suppress": '"trailing"',
            "numbers.feed_suppress": '"none"',
            "numbers.speed_suppress": '"none"',
            "moves.dwell": '"G4 P{milliseconds:5}"',
            "cycles.dwell": '"G98 G82 {hole} P{milliseconds:5}"',
        },
        (*HERE, *UP, *DWELL),
        ["X00005 Y-000325", "Z0025", "F00120", "S00900", "P00250"],
        ["X0.", "25."],
    ),
    ("a sign always", {"numbers.sign": '"always"'}, HERE, ["X+0.5 Y-3.25", "Z+25."], []),
    ("no spaces", {"blocks.spaces": "false"}, HERE, ["G0X0.5Y-3.25", "S900M3"], ["G0 "]),
    (
        "sequence numbers in every block: start, step, digits, letter",
        {
            "numbering.step": "5",
            "numbering.start": "100",
            "numbering.digits": "4",
            "numbering.letter": '"P"',
        },
        HERE,
        ["P0100 G21", "P0105 G54"],
        ["N"],
    ),
    (
        "sequence numbers at tools alone",
        {"numbering.step": "1", "numbering.start": "1", "numbering.where": '"tool changes"'},
        HERE,
        ["N1 T2 M6"],
        ["N2"],
    ),
    (
        "the order of words",
        {"blocks.order": '["Y", "X", "G"]'},
        HERE,
        ["Y-3.25 X0.5 G0"],
        ["X0.5 Y"],
    ),
    (
        "everything told in every block",
        {"blocks.modal": "[]"},
        (*HERE, *SHORT),
        ["G0 X0.5 Y-3.25 Z2.", "G1 X9. Y-3.25 Z-1. F120"],
        [],
    ),
    (
        "feeds told in every block, the rest not",
        {"blocks.modal": '["motion", "arcs", "coordinates", "arc ends"]'},
        (*HERE, *SHORT),
        ["\nX9. F120"],
        [],
    ),
    (
        "the length of a block",
        {"blocks.max_length": "32", "comments.max_length": "32"},
        HERE,
        ["G21 G17 G40 G49 G80 G90 G94 G61"],
        ["soft jaws for the crank lever, side two"],
    ),
    ("a mark that ends each block", {"blocks.end": '"$"'}, HERE, ["G54$\n", "side two)$\n"], []),
    (
        "program start, number and end",
        {
            "program.head": '["%{number:4}", "({name})"]',
            "program.start": '["{units} G90", "{plane}"]',
            "program.end": '["M05", "M02"]',
            "program.tail": '["END"]',
            "program.largest_number": "99",
        },
        HERE,
        ["%0021\n(jaws 21)", "G21 G90\nG17\n", "M05\nM02\nEND\n"],
        ["M30"],
    ),
    (
        "a program number where the name has none that fits",
        {"program.head": '["O{number}"]', "program.number": "7", "program.largest_number": "20"},
        HERE,
        ["O7\n"],
        [],
    ),
    (
        "the style of comments",
        {"comments.open": '";"', "comments.close": '""'},
        HERE,
        [";soft jaws for the crank lever, side two\n"],
        [],
    ),
    (
        "no comments at all",
        {"comments.open": '""', "comments.close": '""', "program.head": "[]"},
        HERE,
        ["G21"],
        ["(", "soft"],
    ),
    (
        "the set of characters, and how foreign letters are put into it",
        {
            "comments.characters": '" ,.0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ?\'+-=/[]"',
            "comments.case": '"upper"',
        },
        HERE,
        ["SOFT JAWS FOR THE CRANK LEVER, SIDE TWO", "GROESSE DIA 8, ZOLW"],
        ["ö", "soft"],
    ),
    ("units", {"units": '{ mm = "G71", inch = "G70" }'}, HERE, ["G71 G17"], ["G21"]),
    ("the word of the plane", {"arcs.plane": '"G17.0"'}, HERE, ["G21 G17.0"], []),
    ("arcs by increments to the centre", {}, (*HERE, *HALF), ["G3 Y4.75 I0. J4."], []),
    (
        "arcs by the centre as a point",
        {"arcs.centre": '"absolute"'},
        (*HERE, *HALF),
        ["G3 Y4.75 I0.5 J0.75"],
        [],
    ),
    (
        "arcs of one quadrant, centres without their signs",
        {
            "arcs.centre": '"unsigned"',
            "arcs.full_circles": "false",
            "passes": '["split_at_quadrants"]',
        },
        (*HERE, *HALF),
        ["G3 X4.5 Y0.75 I0. J4.", "X0.5 Y4.75 I4. J0."],
        [],
    ),
    (
        "arcs by their radius, none near half a turn or a whole one",
        {
            "arcs.centre": '"radius"',
            "arcs.largest_sweep": "165",
            "arcs.full_circles": "false",
            "passes": '["split_full_circles", "split_arcs"]',
        },
        (*HERE, *TURN),
        ["G3 X4.5 Y0.75 R4.", "X0.5 Y4.75 R4.", "X-3.5 Y0.75 R4.", "X0.5 Y-3.25 R4."],
        ["I", "J"],
    ),
    (
        "a zero among the centre's words left out",
        {"arcs.zero_words": "false"},
        (*HERE, *HALF),
        ["G3 Y4.75 J4."],
        ["I0"],
    ),
    ("full circles", {}, (*HERE, *TURN), ["G3 X0.5 Y-3.25 I0. J4."], []),
    (
        "no full circles",
        {"arcs.full_circles": "false", "passes": '["split_full_circles"]'},
        (*HERE, *TURN),
        ["G3 Y4.75 I0. J4.", "Y-3.25 I0. J-4."],
        [],
    ),
    ("helices", {}, (*HERE, *DOWN), ["G3 X0.5 Y-3.25 Z-2. I0. J4."], []),
    (
        "no helices",
        {"arcs.helices": "false", "passes": '["helices_to_lines"]'},
        (*HERE, *DOWN),
        ["\nX0.5 Y-3.25 Z-2.\n"],
        ["G3"],
    ),
    (
        "the largest radius of an arc",
        {"arcs.largest_radius": "{ mm = 3.9, inch = 1 }"},
        (*HERE, *HALF),
        ["\nX0.5 Y4.75\n"],
        ["G3"],
    ),
    (
        "the smallest move",
        {
            "moves.shortest": "{ mm = 0.01, inch = 0.001 }",
            "moves.merge_chord": "{ mm = 0.002, inch = 0.0001 }",
        },
        (*HERE, *SHORT),
        ["\nX2.002\nX9.\n"],
        ["X2.\n"],
    ),
    (
        "cycles as the control has them",
        {},
        (*HERE, *UP, *DWELL),
        ["G98 G82 X3. Y4. Z-2. R1. P0.25 F90", "\nG80\n"],
        [],
    ),
    (
        "cycles written out",
        {"passes": '["cycles_to_moves"]'},
        (*HERE, *UP, *DWELL),
        ["X3. Y4.\nZ1.\nG1 Z-2. F90\nG4 P0.25\nG0 Z25."],
        ["G82"],
    ),
    (
        "how to retract, and a safe start",
        {
            "tools.first": '["G91 G28 Z0.", "G90"]',
            "tools.leave": '["{coolant_off}", "{spindle_off}", "G91 G28 Z0.", "G90"]',
        },
        HERE,
        ["G54\nG91 G28 Z0.\nG90\n"],
        [],
    ),
    (
        "the change of a tool and an optional stop",
        {"tools.load": '["T{tool:2}{length_offset:2}", "M01"]'},
        HERE,
        ["T0202\nM01\n"],
        ["M6"],
    ),
    (
        "offsets of length and radius",
        {
            "tools.length_on": '"G43 D{length_offset:2}"',
            "compensation.left": '"G41 H{register:2}"',
        },
        EVERY_KIND,
        ["G43 D03 Z25.", "G41 H03 X"],
        ["H3 "],
    ),
    (
        "coolant",
        {"coolant.flood": '"M51"', "coolant.mist": '"M52"', "coolant.off": '"M59"'},
        EVERY_KIND,
        ["\nM51\n", "\nM52\n", "\nM59\n"],
        ["M8", "M9"],
    ),
    (
        "work offsets beyond six",
        {"work_offsets": '["G54", "G54.1 P1", "G54.1 P2"]'},
        (WorkOffset(3), *HERE),
        ["\nG54.1 P2\n"],
        [],
    ),
    ("a dwell in seconds", {}, (*HERE, *UP, *DWELL), ["P0.25"], []),
    (
        "a dwell in milliseconds",
        {
            "moves.dwell": '"G04 X{milliseconds}"',
            "cycles.dwell": '"G98 G82 {hole} P{milliseconds}"',
        },
        EVERY_KIND,
        ["G04 X1500", "P250"],
        ["P0.25"],
    ),
    ("block delete", {"tools.leave": '["/M01", "G53 G0 Z0."]'}, EVERY_KIND, ["\n/M01\n"], []),
    (
        "block delete before a number",
        {"tools.leave": '["/M01", "G53 G0 Z0."]', "numbering.step": "10"},
        EVERY_KIND,
        ["\n/N"],
        [],
    ),
    (
        "rising between stations",
        {"stations.between": '["G53 G0 Z-10."]'},
        EVERY_KIND,
        ["G53 G0 Z-10.\n\nG55"],
        [],
    ),
    (
        "how a tool comes down to the work",
        {"tools.approach": '"together"'},
        HERE,
        ["G0 G43 H2 X0.5 Y-3.25 Z25."],
        [],
    ),
    (
        "subprograms",
        {
            "passes": '["repeats_to_calls"]',
            "subprograms.call": '"M98 P{subprogram}"',
            "subprograms.head": '["O{subprogram}"]',
            "subprograms.end": '["M99"]',
            "program.largest_number": "100",
            "subprograms.first": "101",
        },
        LEVELS,
        ["M98 P101\nG0", "M30\n\nO101\n", "M99\n%"],
        [],
    ),
]


def whole(motions):
    """With what every program has."""
    if any(isinstance(motion, Begin) for motion in motions):
        return motions
    lines = ("soft jaws for the crank lever, side two", "Größe Ø 8, żółw")
    offsets = () if isinstance(motions[0], WorkOffset) else (WorkOffset(1),)
    return (
        Begin("jaws 21", lines),
        *offsets,
        ToolChange(2, "end mill"),
        Spindle(900),
        *motions,
        End(),
    )


@pytest.mark.parametrize(
    ("changes", "motions", "there", "gone"),
    [pytest.param(*item[1:], id=item[0]) for item in ITEMS],
)
def test_a_key_says_it(tmp_path, changes, motions, there, gone):
    zero = ZERO if motions is EVERY_KIND else (0.0, 0.0, 0.0)
    text = text_of(whole(motions), edited(tmp_path, changes), Units.MM, zero)
    for part in there:
        assert part in text
    for part in gone:
        assert part not in text


@pytest.mark.parametrize(("changes"), [{**item[1]} for item in ITEMS if item[1]])
def test_no_key_is_without_effect(tmp_path, changes):
    """But for each of them the text would be another, or the post be refused."""
    motions = next(item[2] for item in ITEMS if item[1] == changes)
    zero = ZERO if motions is EVERY_KIND else (0.0, 0.0, 0.0)
    plain, other = (
        text_of(whole(motions), edited(tmp_path, some), Units.MM, zero) for some in ({}, changes)
    )
    assert plain != other


TURNED = [
    ("X as a radius", {"lathe.x": '"radius"'}, ["(X words are radii)"], []),
    ("a front turret", {"lathe.turret": '"front"'}, ["G3 "], []),
    ("the spindle's clamp", {"spindle.clamp": '"G92 S{clamp}"'}, ["G92 S2500"], ["G50"]),
    (
        "feeds per turn and per minute",
        {"feed.per_turn": '"G99"', "feed.per_minute": '"G98"', "program.start": '["{units} G99"]'},
        ["G99", "G98"],
        ["G95"],
    ),
    (
        "where tools are changed",
        {"tools.home": "{ mm = [300, 99], inch = [9, 9] }", "tools.first": '["G0 X{home_x}"]'},
        ["(tools are changed at X 300 Z 99"],
        [],
    ),
    ("passes of a thread", {"thread.word": '"G32"', "thread.lead": '"F"'}, ["G32 "], ["G33"]),
    (
        "a cycle of a thread",
        {"thread.form": '"cycle"', "thread.cycle": '"G92"', "thread.cycle_lead": '"F"'},
        ["G92 X"],
        [],
    ),
    ("the speed never to be passed", {"spindle.largest": "3000"}, ["G50 S3000"], []),
]


@pytest.mark.parametrize(
    ("changes", "there", "gone"), [pytest.param(*item[1:], id=item[0]) for item in TURNED]
)
def test_a_key_says_it_of_a_lathe(tmp_path, changes, there, gone):
    text = write(EVERY_TURNING, edited(tmp_path, changes, "rs274ngc-lathe"), units=Units.MM)
    for part in there:
        assert part in text
    for part in gone:
        assert part not in text
