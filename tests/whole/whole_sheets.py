"""Setup sheets drawn, and where their words stand on paper."""

import io
from itertools import combinations, pairwise
from typing import NamedTuple

from matplotlib.backends.backend_pdf import PdfFile, RendererPdf

import jawcam.make
from jawcam.cli.files import given_of
from jawcam.show.pictures import shown_of
from jawcam.show.sheet import setup_sheet, sheet_settings
from jawcam.show.style import drawing_style

A4 = (210.0, 297.0)
LETTER = (215.9, 279.4)
HAIR = 0.05  # mm


class Word(NamedTuple):
    """Some words on one line and the paper that they take, mm: left, lower, right, upper edge."""

    text: str
    box: tuple
    gid: str | None = None


class Sheet:
    """A setup's sheet as it is drawn."""

    def __init__(self, given):
        self.given = given
        self.figure = setup_sheet(given, shown_of(given.program, given.target, given.job))
        self.axes = {axes.get_label(): axes for axes in self.figure.axes}

    @property
    def words(self):
        """As the file's own renderer measures them; the ground that some of them clear counts."""
        figure = self.figure
        with drawing_style(sheet_settings(self.given)):
            figure.set_dpi(72)
            renderer = RendererPdf(PdfFile(io.BytesIO()), 72, *figure.get_size_inches()[::-1])
            return [
                Word(text.get_text(), _box(text, renderer), text.get_gid())
                for axes in figure.axes
                for text in axes.texts
                if text.get_text()
            ]

    @property
    def text(self):
        """All words in the order in which they were written."""
        return " ".join(text.get_text() for axes in self.figure.axes for text in axes.texts)

    @property
    def lines(self):
        """The rules and frames of the page: rows (x0, y0, x1, y1), mm."""
        found = []
        for lines in self.axes["page"].collections:
            for path in lines.get_paths():
                corners = path.vertices.tolist()
                found += [(*a, *b) for a, b in pairwise(corners)]
        for patch in self.axes["page"].patches:
            (x0, y0), (x1, y1) = patch.get_bbox().get_points().tolist()
            found += [(x0, y0, x1, y0), (x0, y1, x1, y1), (x0, y0, x0, y1), (x1, y0, x1, y1)]
        return found


def sheets_of(path):
    """The sheets of a job file by the names of its setups."""
    made = jawcam.make.make(path, shown=path.name, post=None, setups=(), outside=False)
    return sheets(made)


def sheets(made):
    return {
        one.setup.name: Sheet(
            given_of(one, [m for m in made if m.file == one.file and m is not one])
        )
        for one in made
    }


def overlapping(words):
    """Pairs of words that stand on each other."""
    return [
        (a.text, b.text)
        for a, b in combinations(words, 2)
        if min(a.box[2], b.box[2]) - max(a.box[0], b.box[0]) > HAIR
        and min(a.box[3], b.box[3]) - max(a.box[1], b.box[1]) > HAIR
    ]


def outside(words):
    """Words that stand where a printer may not reach, on A4 or on letter paper, 5 mm off the edge,
    the sheet in the middle of it."""
    margin = [max(5.0, (a - b) / 2 + 5.0) for a, b in zip(A4, LETTER, strict=True)]
    return [
        word.text
        for word in words
        if word.box[0] < margin[0]
        or word.box[1] < margin[1]
        or word.box[2] > A4[0] - margin[0]
        or word.box[3] > A4[1] - margin[1]
    ]


def crossed(words, lines):
    """Words that a rule or a frame of the page runs through."""
    return [
        word.text
        for word in words
        for x0, y0, x1, y1 in lines
        if min(max(x0, x1), word.box[2]) - max(min(x0, x1), word.box[0]) > -HAIR
        and min(max(y0, y1), word.box[3]) - max(min(y0, y1), word.box[1]) > -HAIR
    ]


def _box(text, renderer):
    """Along its line as wide as it is, across it as high as its lettering: the renderer counts
    some signs as higher than they are."""
    told = text.get_text()
    along = _extent(text, renderer)
    text.set_text("Xp")
    across = _extent(text, renderer)
    text.set_text(told)
    x, y = (along, across) if text.get_rotation() % 180 == 0 else (across, along)
    return tuple(float(v) * 25.4 / 72 for v in (x.x0, y.y0, x.x1, y.y1))


def _extent(text, renderer):
    if text.get_bbox_patch() is None:
        return text.get_window_extent(renderer)
    text.update_bbox_position_size(renderer)
    return text.get_bbox_patch().get_window_extent(renderer)
