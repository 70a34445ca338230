"""What is left and what is gouged is drawn where it is: areas against closed forms."""

import math
from types import SimpleNamespace

import pytest
import shapely
from matplotlib.patches import PathPatch
from show_faulty import milled, turned

from jawcam.show.amiss import NOTHING, amiss_of
from jawcam.show.backplot import backplot
from jawcam.show.pictures import run_of
from jawcam.show.stretch import WHOLE
from jawcam.show.turned_plot import turned_plot
from jawcam.units import Units

MM = Units.MM


def outside_the_gap(radius, half=3.0):
    """The area of a disc without the gap through its middle: two segments."""
    strip = 2 * (radius**2 * math.asin(half / radius) + half * math.sqrt(radius**2 - half**2))
    return math.pi * radius**2 - strip


def drawn(figure, gid):
    return [patch for patch in figure.findobj(PathPatch) if patch.get_gid() == gid]


@pytest.fixture(scope="module")
def wall_left():
    return milled("wall_left_out")


def test_a_wall_that_is_left_is_a_ring(wall_left):
    """0.2 mm stay on the wall of 15.05 mm, down to the floor at Z -6."""
    program, target, report = wall_left
    found = amiss_of(program, target, report, MM)
    assert found.gouged == ()
    [patch] = found.left
    assert patch.z == pytest.approx(-6.0)
    whole = outside_the_gap(15.05) - outside_the_gap(14.85)
    assert shapely.area(patch.shape) == pytest.approx(whole, rel=0.005)


def test_what_is_left_on_the_floor_alone_is_shown_where_the_findings_are():
    """A ring that is left out at the floor, though it was cut at the level above."""
    program, target, report = milled("ring_left_out")
    [patch] = amiss_of(program, target, report, MM).left
    places = [shapely.Point(f.x, f.y) for f in report.findings if f.code == "P301"]
    assert len(places) == len(shapely.get_parts(patch.shape)) == 2
    for place in places:
        assert patch.shape.contains(place)


def test_the_picture_s_units_scale_what_is_left(wall_left):
    program, target, report = wall_left
    in_mm, in_inch = (amiss_of(program, target, report, units).left[0] for units in Units)
    assert in_inch.shape.area * 25.4**2 == pytest.approx(in_mm.shape.area)
    assert in_inch.z * 25.4 == pytest.approx(in_mm.z)


def test_a_wall_cut_too_far_out_is_gouged_in_a_ring():
    program, target, report = milled("wall_beyond")
    found = amiss_of(program, target, report, MM)
    assert found.left == ()
    area = sum(patch.shape.area for patch in found.gouged)
    assert area == pytest.approx(outside_the_gap(15.053) - outside_the_gap(15.05), rel=0.06)


def test_nothing_is_looked_for_in_a_good_program():
    program, target, report = milled("good")
    assert amiss_of(program, target, report, MM) is NOTHING
    assert amiss_of(program, None, report, MM) is NOTHING


def test_every_view_of_a_page_shows_it(wall_left):
    program, target, report = wall_left
    for view in ("plan", "oblique", "levels"):
        figure = backplot(program, target=target, report=report, view=view)
        assert len(drawn(figure, "left")) == 1, view
        assert drawn(figure, "gouged") == [], view
        words = {text.get_text() for text in figure.findobj() if hasattr(text, "get_text")}
        assert "material left" in words
        assert "gouged" not in words


def test_a_chamfer_left_out_on_the_lathe_is_a_triangle():
    """1.5 mm at 45 degrees."""
    program, target, report = turned("chamfer_left_out")
    found = amiss_of(program, target, report, MM)
    [patch] = found.left
    assert patch.shape.area == pytest.approx(1.5**2 / 2, rel=0.01)
    z0, x0, z1, x1 = patch.shape.bounds
    assert (z0, x0, z1, x1) == pytest.approx((-1.5, 8.5, 0.0, 10.0), abs=0.01)
    assert len(drawn(turned_plot(program, target=target, report=report), "left")) == 1


def test_a_run_shows_it_too(wall_left):
    program, target, report = wall_left
    job = SimpleNamespace(units=MM, tools=(), machine=SimpleNamespace(rapid=8000.0))
    run = run_of(program, target, report, job, MM, WHOLE)
    assert len(drawn(run.figure, "left")) == 2  # in plan and obliquely
