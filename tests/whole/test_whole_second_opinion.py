"""A general-purpose parser of G-code, not ours, reads our programs: it must see the same moves.

It interprets nothing but words and modes: arcs by their end and centre, feeds per minute.
"""

import math
import warnings

import pytest

from jawcam.reader.read import read

with warnings.catch_warnings():
    warnings.simplefilter("ignore")  # of its own old ways with regular expressions
    from pygcode import Line

MOTIONS = {"G00": "rapid", "G01": "line", "G02": "arc", "G03": "arc"}


class Opinion:
    """Motion word, end, centre, feed and line of each move, as the other parser reads it; mm."""

    def __init__(self, text):
        self.motion, self.feed, self.unit = "", 0.0, 1.0
        self.at = dict.fromkeys("XYZ", math.nan)
        self.moves = []
        for number, line in enumerate(text.splitlines(), 1):
            with warnings.catch_warnings():
                warnings.simplefilter("ignore")
                block = Line(line).block
            self.take(number, block)

    def take(self, number, block):
        codes = [str(code.word_key or code.word) for code in block.gcodes]
        words = {word.letter: word.value for word in block.words if word.letter not in "GM"}
        self.unit = 25.4 if "G20" in codes else 1.0 if "G21" in codes else self.unit
        self.feed = words["F"] * self.unit if "F" in words else self.feed
        self.motion = next((code for code in codes if code in MOTIONS), self.motion)
        axes = {axis: words[axis] * self.unit for axis in "XYZ" if axis in words}
        if "G53" in codes:
            self.at |= dict.fromkeys(axes, math.nan)
        elif axes or words.keys() & set("IJ"):
            centre = tuple(
                self.at[axis] + words.get(letter, 0) * self.unit
                for axis, letter in zip("XY", "IJ", strict=True)
            )
            self.at |= axes
            feed = self.feed if self.motion != "G00" else None
            self.moves.append((number, self.motion, tuple(self.at.values()), centre, feed))


@pytest.fixture(scope="module", params=["crank-lever", "burr-cam", "mirrored block", "washer"])
def text(request, samples, drawn):
    if "-" in request.param:
        return next(iter(samples(request.param).values())).text
    return drawn(request.param).text


def test_another_parser_reads_the_same_moves(text):
    ours, theirs = read(text, "rs274ngc-mill").cuts, Opinion(text).moves
    assert len(ours) == len(theirs) > 20
    for cut, (line, motion, end, centre, feed) in zip(ours, theirs, strict=True):
        assert (cut.line, cut.kind) == (line, MOTIONS[motion])
        assert cut.end == pytest.approx(end, abs=1e-9, nan_ok=True)
        if cut.kind == "arc":
            assert (cut.turn > 0) == (motion == "G03")
            assert cut.centre == pytest.approx(centre, abs=1e-9)
        if feed is not None:
            assert cut.feed == pytest.approx(feed, abs=1e-9)


def test_another_parser_finds_no_word_that_it_does_not_know(text):
    """Each block's words all belong to a G or M code that it knows, or to the modal motion."""
    for line in text.splitlines():
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            block = Line(line).block
        known = [word for code in block.gcodes for word in code.params.values()]
        left = [w for w in block.modal_params if w not in known]
        assert {word.letter for word in left} <= set("XYZIJ")
