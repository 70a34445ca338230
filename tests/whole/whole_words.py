"""A small reader of programs for these tests: word address in, moves out. It shares nothing with
the package, and knows no more of a dialect than the words that these programs hold."""

import math
import re
from dataclasses import dataclass

import numpy as np

WORD = re.compile(r"([A-Z])\s*([-+]?(?:\d+\.?\d*|\.\d+))")
MOTIONS = {0: "rapid", 1: "line", 2: "cw", 3: "ccw"}
NOWHERE = (math.nan, math.nan, math.nan)


@dataclass(frozen=True)
class Block:
    """A block that moves something, in mm. section: the last comment before it that names a pass;
    tool: the last T word; feed: in mm/min; unit: mm of the program's unit."""

    line: int
    text: str
    kind: str
    start: tuple
    end: tuple
    centre: tuple
    section: str
    tool: int
    feed: float
    unit: float

    @property
    def arc(self):
        return self.kind in ("cw", "ccw")

    @property
    def radii(self):
        """The arc's radius at its start and at its end."""
        return math.dist(self.start[:2], self.centre), math.dist(self.end[:2], self.centre)

    @property
    def turn(self):
        """The signed sweep of an arc, radians; a whole one if it ends where it begins."""
        (x0, y0, _), (x1, y1, _), (cx, cy) = self.start, self.end, self.centre
        sign = 1 if self.kind == "ccw" else -1
        sweep = (math.atan2(y1 - cy, x1 - cx) - math.atan2(y0 - cy, x0 - cx)) * sign
        return sign * (math.tau if (x0, y0) == (x1, y1) else sweep % math.tau)

    @property
    def level(self):
        return self.start[2] == self.end[2]

    def points(self, sagitta=1e-4, spacing=math.inf):
        """Points from start to end, at least 3, as the control drives it: the radius of an arc
        changes evenly from one end to the other. (n, 3)."""
        if not self.arc:
            count = max(2, math.ceil(math.dist(self.start, self.end) / spacing))
            return np.linspace(self.start, self.end, count + 1)
        first, last = self.radii
        (cx, cy), turn = self.centre, self.turn
        bend = 2 * math.acos(max(0.0, 1 - sagitta / max(first, last)))
        count = math.ceil(max(2, abs(turn) / bend, abs(turn) * first / spacing))
        share = np.linspace(0, 1, count + 1)
        radius = first + (last - first) * share
        angle = math.atan2(self.start[1] - cy, self.start[0] - cx) + turn * share
        z = self.start[2] + (self.end[2] - self.start[2]) * share
        return np.column_stack((cx + radius * np.cos(angle), cy + radius * np.sin(angle), z))


PASS_NAMES = ("roughing", "rest of the roughing", "floor", "wall", "corner relief")


def blocks(text):
    """The moves of a program whose centres are counted from the start of the arc."""
    found, at, motion, unit, feed, section, tool = [], NOWHERE, "", 1.0, 0.0, "", 0
    for number, line in enumerate(text.splitlines(), 1):
        for comment in re.findall(r"\(([^)]*)\)", line):
            section = comment.lower() if comment.lower() in PASS_NAMES else section
        bare = re.sub(r"\([^)]*\)", "", line)
        if bare.startswith(("%", "O")):
            continue
        words = [(letter, float(value)) for letter, value in WORD.findall(bare)]
        codes = {value for letter, value in words if letter == "G"}
        values = {letter: value for letter, value in words if letter not in "GM"}
        unit = 25.4 if codes & {20, 70} else 1.0 if codes & {21, 71} else unit
        tool = int(values.get("T", tool))
        if ("M", 6.0) in words:
            at = NOWHERE
        feed = values["F"] * unit if "F" in values else feed
        motion = next((MOTIONS[code] for code in codes if code in MOTIONS), motion)
        if 53 in codes:
            at = tuple(math.nan if axis in values else v for axis, v in zip("XYZ", at, strict=True))
            continue
        if not values.keys() & set("XYZIJ"):
            continue
        end = tuple(
            values[axis] * unit if axis in values else v for axis, v in zip("XYZ", at, strict=True)
        )
        centre = (at[0] + values.get("I", 0) * unit, at[1] + values.get("J", 0) * unit)
        found.append(Block(number, line, motion, at, end, centre, section, tool, feed, unit))
        at = end
    return found


def section(text, name, *, level=None):
    """The feed moves of one pass, by its name; level: only those that stay at this Z."""
    return [
        block
        for block in blocks(text)
        if block.section == name
        and block.kind != "rapid"
        and (level is None or (block.level and math.isclose(block.end[2], level, abs_tol=1e-9)))
    ]
