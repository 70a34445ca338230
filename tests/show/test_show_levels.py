"""Levels side by side: each shows what is cut at its own height."""

import numpy as np
import pytest
import show_demos as demo
from matplotlib.collections import LineCollection

from jawcam.errors import InputError
from jawcam.proof.report import Finding, Report
from jawcam.show.backplot import backplot
from jawcam.show.flags import flags_of
from jawcam.show.levels import levels_of
from jawcam.show.picture import picture
from jawcam.units import Units


def shown(cuts, target=None):
    return picture(demo.program(cuts), target, Units.MM, (), 10000.0)


def stairs(count):
    pen = demo.Pen()
    pen.rapid(0.0, 0.0, 5.0)
    for k in range(count):
        pen.line(float(k), 0.0, -0.5 * (k + 1))
        pen.line(float(k), 10.0, -0.5 * (k + 1))
        pen.line(float(k), 0.0, -0.5 * (k + 1))
    return pen.cuts


def test_levels_are_those_of_the_level_cuts_the_highest_first():
    rows, count = levels_of(shown(demo.pocket_cuts(), demo.lever_target()))
    assert count == 3
    assert [row.z for row in rows] == pytest.approx([-8 / 3, -16 / 3, -8.0])


def test_every_level_cut_is_at_its_level_and_at_no_other():
    cuts = demo.pocket_cuts()
    figure = backplot(demo.program(cuts), target=demo.lever_target(), view="levels")
    heights = sorted({round(c.end[2], 6) for c in cuts if c.kind == "arc"}, reverse=True)
    for number, z in enumerate([-8 / 3, -16 / 3, -8.0], start=1):
        axes = next(axes for axes in figure.axes if axes.get_label() == f"level {number}")
        [lines] = [c for c in axes.collections if c.get_gid() == "feed"]
        assert isinstance(lines, LineCollection)
        assert np.asarray(lines.get_array()) == pytest.approx(z)
        points = np.vstack(lines.get_segments())
        own = [c for c in cuts if c.kind == "line" and c.start[2] == c.end[2] == z]
        assert len(own) > 5
        for cut in own:
            assert np.hypot(*(points - cut.end[:2]).T).min() < 1e-9
    assert heights[0] > -8 / 3  # the helices' own ends are no levels


def test_of_many_levels_the_first_and_the_last_are_drawn_and_it_is_said():
    rows, count = levels_of(shown(stairs(40)))
    assert (len(rows), count) == (12, 40)
    assert (rows[0].z, rows[-1].z) == (-0.5, -20.0)
    figure = backplot(demo.program(stairs(40)), view="levels")
    words = [text.get_text() for text in figure.findobj() if hasattr(text, "get_text")]
    assert any("12 of 40 levels" in text for text in words)


def test_a_link_on_its_way_is_no_level_and_is_drawn_with_the_one_below():
    pen = demo.Pen()
    pen.rapid(0.0, 0.0, 5.0)
    for z in (-1.0, -3.0):
        pen.line(0.0, 0.0, z)
        for x, y in ((50.0, 0.0), (50.0, 50.0), (0.0, 50.0), (0.0, 0.0)):
            pen.line(x, y, z)
        pen.line(0.0, 0.0, z + 0.5)
        pen.line(2.0, 2.0, z + 0.5)
    rows, _ = levels_of(shown(pen.cuts))
    assert [row.z for row in rows] == [-1.0, -3.0]
    upper, lower = ({line[0, 2] for line in row.path[1].points} for row in rows)
    assert upper == {-0.5, -1.0}
    assert lower == {-2.5, -3.0}


def test_levels_do_not_lie_on_each_other():
    figure = backplot(demo.program(stairs(7)), view="levels")
    boxes = [a.get_position() for a in figure.axes if a.get_label().startswith("level ")]
    assert len(boxes) == 7
    for k, one in enumerate(boxes):
        for other in boxes[k + 1 :]:
            apart = one.x1 <= other.x0 or other.x1 <= one.x0 or one.y1 <= other.y0
            assert apart or other.y1 <= one.y0


def test_a_program_without_level_cuts_is_refused_with_another_way():
    pen = demo.Pen()
    pen.rapid(0.0, 0.0, 5.0)
    pen.line(0.0, 0.0, -5.0)
    with pytest.raises(InputError, match="no levels to draw") as refused:
        backplot(demo.program(pen.cuts), view="levels")
    assert "oblique" in refused.value.faults[0].mend


def found_at(*heights):
    """A stop at each height, in the middle of the cavity."""
    return Report(
        tuple(
            Finding("P201", "stop", f"cuts at {z}", 9, 4, 5.0, 1.0, z, 0.1, "look") for z in heights
        )
    )


def test_findings_are_listed_and_flagged_at_the_level_that_each_is_nearest_to():
    report = found_at(-8.1, -5.0, 3.0)
    bare = Finding("P106", "stop", "the program doesn't end", mend="end it with M30")
    whole = Report((*report.findings, bare))
    cuts, target = demo.pocket_cuts(), demo.lever_target()
    figure = backplot(demo.program(cuts), target=target, report=whole, view="levels")
    flagged = {}
    for axes in figure.axes:
        if axes.get_label().startswith("level "):
            marks = [line for line in axes.lines if (line.get_gid() or "").startswith("flag-")]
            flagged[axes.get_label()] = [line.get_gid() for line in marks]
            ends = [tuple(line.get_xydata()[-1]) for line in axes.lines]
            assert ((5.0, 1.0) in ends) == bool(marks)
    assert flagged == {"level 1": ["flag-3"], "level 2": ["flag-2"], "level 3": ["flag-1"]}
    page = next(axes for axes in figure.axes if axes.get_label() == "page")
    listed = {line.get_gid() for line in page.lines} - {None}
    assert listed == {"flag-1", "flag-2", "flag-3", "flag-4"}
    words = " ".join(text.get_text() for text in page.texts)
    for said in ("cuts at -8.1; to mend: look", "the program doesn't end; to mend: end it"):
        assert said in words


def test_of_many_levels_those_with_findings_are_drawn():
    drawn = shown(stairs(40))
    assert -7.0 not in [row.z for row in levels_of(drawn)[0]]
    flags, _ = flags_of(found_at(-6.9), Units.MM)
    rows, _ = levels_of(drawn, flags)
    assert [row.z for row in rows if row.flags] == [-7.0]
    assert len(rows) == 12
