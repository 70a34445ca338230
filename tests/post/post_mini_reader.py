"""A second, small reader for the tests here: plain G-code to moves, and the rules that a control
holds a block to (NISTIR 6556). It knows no post file."""

from __future__ import annotations

import cmath
import math
import re
from dataclasses import dataclass, field

from post_styles import PLAIN

WORD = re.compile(r"([A-Z])([-+]?(?:\d+\.?\d*|\.\d+))")
INCH, METRIC = {"G20", "G70"}, {"G21", "G71"}
MACHINE = {"G53", "G28"}
"""Words whose axes are the machine's own."""
CYCLES = {"G81": set(), "G82": {"P"}, "G83": {"Q"}}
GROUPS = (
    {"G0", "G1", "G2", "G3", "G80", *CYCLES},
    {"G17", "G18", "G19"},
    {"G90", "G91"},
    {"G93", "G94"},
    INCH | METRIC,
    {"G40", "G41", "G42"},
    {"G43", "G49"},
    {"G98", "G99"},
    {f"G{n}" for n in (54, 55, 56, 57, 58, 59, 59.1, 59.2, 59.3)},
)


@dataclass
class Move:
    kind: str
    start: dict
    end: dict
    radii: tuple = ()
    centre: tuple = ()
    turn: float = 0.0


@dataclass
class Read:
    moves: list = field(default_factory=list)
    comments: list = field(default_factory=list)
    words: list = field(default_factory=list)
    values: list = field(default_factory=list)
    unit: float = 1.0


def read(text, *, mismatch=(0.002, 0.0002), centre="incremental", style=PLAIN):
    """The moves of `text` in mm; an AssertionError for what a control refuses. words: of each
    block without N; values: letter -> number, in the program's units."""
    assert text.endswith("\n")
    assert "\r" not in text
    got, motion, at = Read(), "", {}
    centre = "unsigned" if style.quadrants else centre
    for whole in text.splitlines():
        assert len(whole) <= (80 if style.tape else 256), "section 3.3"
        assert whole.isascii()
        assert not style.tape or whole == whole.upper()
        assert whole.endswith(style.end) or not whole
        line = whole.removesuffix(style.end)
        for comment in re.findall(r"\((.*)\)", line):
            assert not set(comment) & set("()"), "section 3.3.4: comments do not nest"
            got.comments.append(comment)
        if line.startswith(("%", "O", "(")):
            continue
        block = "".join(re.sub(r"\(.*\)", "", line).split())
        words = WORD.findall(block)
        assert "".join(letter + digits for letter, digits in words) == block, line
        assert not (style.numbered and words and words[0][0] != "N"), line
        codes = {"G" + f"{float(digits):g}" for letter, digits in words if letter == "G"}
        got.words.append([letter + digits for letter, digits in words if letter != "N"])
        if codes & (INCH | METRIC):
            got.unit = 25.4 if codes & INCH else 1.0
        values = _once_each(words, line, style, inch=got.unit != 1.0)
        got.values.append(values)
        _judge(codes, motion, line)
        motion = next(iter(codes & GROUPS[0]), motion)
        if codes & MACHINE:
            at = {axis: place for axis, place in at.items() if axis not in values}
            continue
        if codes & GROUPS[-1] or any(w[0] == "M" and float(w[1:]) == 6 for w in got.words[-1]):
            at = {}
        if motion in CYCLES:
            got.moves.extend(_hole(motion, at, values, got.unit, codes))
        elif any(axis in values for axis in "XYZ"):
            got.moves.append(_move(motion, at, values, got.unit, mismatch, centre, line))
        at = got.moves[-1].end if values.keys() & {*"XYZ"} else at
        named = "X" in values or "Y" in values or not values.keys() & {"I", "J"}
        assert named or motion not in ("G2", "G3"), "section 3.5.3.2: an axis word must be there"
    return got


def _judge(codes, motion, line):
    for group in GROUPS:
        assert len(codes & group) <= 1, "section 3.3.5: one word of a modal group"
    if motion in CYCLES:
        assert codes & {"G80", *CYCLES}, f"common practice: G80 before anything else: {line}"


def _once_each(words, line, style, *, inch):
    values = {}
    for letter, digits in words:
        assert letter in "GM" or letter not in values, f"section 3.3.5, {letter} twice: {line}"
        values[letter] = style.value(letter, digits, inch=inch)
        if letter == "N":
            assert re.fullmatch(r"\d{1,5}", digits), "section 3.3.1"
    return values


def _hole(motion, at, values, unit, codes):
    """A hole without the way back into it between pecks (section 3.5.16, all words each time)."""
    assert values.keys() - {*"NGF"} == {*"XYZR", *CYCLES[motion]}, f"the words of {motion}"
    assert "G98" in codes, "section 3.5.20: else it returns to R"
    bottom, top, old = values["Z"] * unit, values["R"] * unit, at["Z"]
    assert bottom < top <= old, "section 3.5.16"
    peck = values.get("Q", 1e9) * unit
    downs = [top - n * peck for n in range(1, int((top - bottom) / peck + 1))]
    ends = [{**at, "X": values["X"] * unit, "Y": values["Y"] * unit}]
    ends += [{**ends[0], "Z": height} for height in (top, *downs, bottom, old)]
    kinds = ["rapid", "rapid", *["line"] * (len(downs) + 1), "rapid"]
    moves = []
    for kind, end in zip(kinds, ends, strict=True):
        if end != at:
            moves.append(Move(kind, at, end))
            at = end
    return moves


def _in_a_quadrant(a, b, away, way, line):
    """The one of four centres about which the arc keeps its radius and its quadrant."""
    found = set()
    for mid in (a + complex(x * away.real, y * away.imag) for x in (1, -1) for y in (1, -1)):
        if a == mid:
            continue
        turn = cmath.phase((b - mid) / (a - mid)) * way
        inside = all(
            min(p, q) >= -1e-9 or max(p, q) <= 1e-9
            for p, q in (((a - mid).real, (b - mid).real), ((a - mid).imag, (b - mid).imag))
        )
        if 0 < turn < math.pi / 2 + 1e-3 and inside and abs(abs(a - mid) - abs(b - mid)) < 0.01:
            found.add(mid)
    assert len(found) == 1, f"one quadrant and no other: {line}"
    return found.pop()


def _move(motion, at, values, unit, mismatch, centre, line):
    end = at | {axis: values[axis] * unit for axis in "XYZ" if axis in values}
    if motion in ("G0", "G1"):
        assert end != at, f"a block that moves nothing: {line}"
        return Move({"G0": "rapid", "G1": "line"}[motion], at, end)
    a, b = complex(at["X"], at["Y"]), complex(end["X"], end["Y"])
    way = 1 if motion == "G3" else -1
    if "R" in values:
        half, size = abs(b - a) / 2, values["R"] * unit
        assert size >= half > 0, f"section 3.5.3.1: {line}"
        towards = (b - a) / (2 * half) * way * 1j
        mid = (a + b) / 2 + towards * math.sqrt(max(0.0, size * size - half * half))
    else:
        assert "I" in values or "J" in values, "section 3.5.3.2"
        offset = complex(values.get("I", 0.0), values.get("J", 0.0)) * unit
        mid = a + offset if centre == "incremental" else offset
        if centre == "unsigned":
            mid = _in_a_quadrant(a, b, offset, way, line)
    radii = (abs(a - mid), abs(b - mid))
    limit = mismatch[unit != 1.0] * unit
    assert abs(radii[0] - radii[1]) <= limit, f"section 3.5.3.2, radii {radii}: {line}"
    turn = math.atan2(((b - mid) / (a - mid)).imag, ((b - mid) / (a - mid)).real) * way
    turn = math.tau if a == b else turn % math.tau
    return Move("arc", at, end, radii, (mid.real, mid.imag), way * turn)
