"""What must hold of every picture, however odd the program or the part."""

import math
from dataclasses import replace
from itertools import combinations

import numpy as np
import pytest
import show_demos as demo
import show_pockets as pockets
from matplotlib.text import Text
from show_words import DPI, drawn_words, overlap

from jawcam.hold.target import Blanks, Bolt, Groove, Relief, Unreached
from jawcam.proof.report import Report
from jawcam.show.backplot import backplot
from jawcam.units import Units

INCH = Units.INCH


def _scenes():
    lever = demo.lever_target()
    pocket = demo.program(demo.pocket_cuts())
    corner = demo.lever_target(
        zero=(-65.0, -43.0, 0.0), title="Crank lever, " * 30, units=INCH, cutters=()
    )
    odd = replace(lever, title="\u7c89\u7815 $x_1^2$ & 100 % \t\n grinder\u00b0", name="a" * 200)
    many = Report(demo.many_findings(40), demo.FIGURES)
    rich = replace(
        lever,
        reliefs=(Relief((36.0, 4.0), (39.0, 6.0), 2.0, (39.0, 6.0), -8.0),),
        unreached=(
            Unreached(
                33.0, -7.0, 1.2, "the corner is tighter than the cutter", seats=True, floor=-8.0
            ),
        ),
        cutters=(demo.MILL, demo.SMALL_MILL),
    )
    tools = [c._replace(tool=i % 11, work_offset=1 + i % 3) for i, c in enumerate(pocket.cuts)]
    return {
        "lever": {"target": lever},
        "lever in inches": {"target": corner, "units": INCH},
        "without a target": {},
        "without a target, cutter known": {"cutters": (demo.MILL,), "units": INCH},
        "odd words": {"target": odd},
        "everything at once": {"target": rich, "report": many},
        "clean proof": {"target": rich, "report": Report((), demo.FIGURES)},
        "few findings": {"target": lever, "report": Report(demo.many_findings(3), demo.FIGURES)},
        "long": {"program": demo.rod_program(), "target": demo.rod_target()},
        "long with findings": {
            "program": demo.rod_program(),
            "target": demo.rod_target(),
            "report": many,
        },
        "tiny": {"program": demo.pin_program(), "target": demo.pin_target()},
        "tall": {"target": replace(lever, blanks=Blanks(100.0, 200.0, 90.0, 6.0))},
        "origin far away": {"target": replace(lever, zero=(900.0, 0.0, 0.0))},
        "many tools": {"program": replace(pocket, cuts=tuple(tools)), "target": lever},
        "many levels": {
            "program": demo.program(demo.pocket_cuts(levels=tuple(np.arange(-1, -31, -1) / 3))),
            "target": replace(lever, **demo.upright(demo.lever_outline(), -10.0)),
        },
        "levels close together": {
            "program": demo.program(demo.pocket_cuts(levels=(-0.1, -0.3, -7.75, -8.0))),
            "target": lever,
        },
        "part sunk": {
            "target": replace(
                lever,
                **demo.upright(demo.lever_outline(), -8.0, -2.0),
                part_top=-2.0,
                clearance=300.0,
            )
        },
        "bolts everywhere": {
            "target": replace(
                lever, bolts=tuple(Bolt(x, 24.0, 9.0, -3.0) for x in range(-60, 61, 10))
            )
        },
        **_pockets(many),
        "only rapid": {"program": demo.only_rapid()},
        "one point": {"program": demo.one_point()},
        "in one plane": {"program": demo.in_xz()},
    }


def _pockets(many):
    stations = pockets.stations_program()
    all_of_it = {
        "drilled": pockets.HOLES * 3,
        "groove": Groove(1.0, 0.5),
        "facing": 0.5,
        "edge": 0.5,
        "edge_tool": 8,
        "units": INCH,
    }
    twice = tuple(cut._replace(work_offset=1 + i % 9) for i, cut in enumerate(stations.cuts))
    return {
        "standing": {"program": pockets.hub_program(), "target": pockets.hub_target()},
        "twelve levels and all else": {
            "program": pockets.stairs_program(),
            "target": replace(pockets.stairs_target(), zero=(-65.0, -43.0, -38.0), **all_of_it),
            "units": INCH,
            "report": many,
        },
        "low blanks, many levels": {
            "program": pockets.stairs_program(),
            "target": replace(
                pockets.stairs_target(), blanks=Blanks(300.0, 20.0, 60.0, 6.0), **all_of_it
            ),
        },
        "two floors": {"program": pockets.bosses_program(), "target": pockets.bosses_target()},
        "lying": {"program": pockets.shaft_program(), "target": pockets.shaft_target()},
        "dressed, with findings": {
            "program": pockets.dressed_program(),
            "target": pockets.dressed_target(),
            "report": many,
        },
        "long and dressed": {
            "program": demo.rod_program(),
            "target": replace(demo.rod_target(), **all_of_it),
            "report": many,
        },
        "first of two stations": {"program": stations, "target": pockets.hub_target()},
        "one of nine stations": {
            "program": replace(stations, cuts=twice),
            "target": pockets.lever_at_second_station(),
        },
    }


SCENES = _scenes()


@pytest.fixture(params=list(SCENES), scope="module")
def drawn(request):
    scene = dict(SCENES[request.param])
    figure = backplot(scene.pop("program", demo.program(demo.pocket_cuts())), **scene)
    return figure, drawn_words(figure)


def test_all_words_lie_on_the_page(drawn):
    width, height = drawn[0].get_size_inches() * DPI
    for word in drawn[1]:
        assert word.x0 >= 0, word
        assert word.y0 >= 0, word
        assert word.x1 <= width, word
        assert word.y1 <= height, word


def test_no_words_cross_each_other(drawn):
    for a, b in combinations(drawn[1], 2):
        assert overlap(a, b) <= 1.5, (a.text, b.text)


def test_no_words_run_out_of_their_panel(drawn):
    figure, _ = drawn
    page = _axes(figure, "page")
    frames = [line.get_xydata() for line in page.lines if len(line.get_xydata()) == 5]
    boxes = [(*frame.min(axis=0), *frame.max(axis=0)) for frame in frames]
    assert len(boxes) >= 4
    corners = [corner for word in drawn[1] for corner in (word[1:3], word[3:])]
    points = page.transData.inverted().transform(corners).reshape(-1, 2, 2)
    for words, ((x0, y0), (x1, y1)) in zip(drawn[1], points.tolist(), strict=True):
        assert any(
            left <= x0 and x1 <= right and low <= y0 and y1 <= high
            for left, low, right, high in boxes
        ), words


def test_no_lettering_is_smaller_than_the_smallest_size(drawn):
    sizes = [t.get_fontsize() for t in drawn[0].findobj(Text) if t.get_text().strip()]
    assert min(sizes) >= 5.5


def test_every_axes_shows_something(drawn):
    for axes in drawn[0].axes:
        assert axes.lines or axes.collections or axes.patches or axes.images


def test_views_have_one_scale_both_ways(drawn):
    for label in ("plan", "side"):
        axes = _axes(drawn[0], label)
        (x0, y0), (x1, y1) = axes.transData.transform([(0, 0), (1, 1)])
        assert math.isclose(x1 - x0, y1 - y0, rel_tol=1e-9)
        assert axes.get_aspect() == 1


def _axes(figure, label):
    return next(axes for axes in figure.axes if axes.get_label() == label)
