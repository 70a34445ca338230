"""Rapids through material and plunges: the order of the cuts matters."""

from dataclasses import replace

import pytest
from proof_pen import MILL, TARGET, Pen, disc_pocket, found, judged


def test_a_rapid_through_a_blank():
    pen = disc_pocket()
    pen.cuts.pop()  # the last retract
    pen.at, pen.line = pen.cuts[-1].end, pen.cuts[-1].line
    pen.rapid(x=25.0).rapid(z=10.0)
    out = pen.line - 1
    assert found(judged(pen)) == [("P201", out), ("P501", out)]


def test_the_order_of_the_cuts_matters_to_a_rapid():
    """The same rapid down is through material before the level is cut, and clear after."""
    early = Pen().rapid(3.0, 0.0).rapid(z=10.0).rapid(z=-3.0).rapid(z=10.0)
    down = early.line - 1
    early = disc_pocket(pen=early)
    assert ("P501", down) in found(judged(early))
    late = disc_pocket().rapid(3.0, 0.0).rapid(z=-3.0).rapid(z=10.0)
    assert found(judged(late)) == []


def test_a_sloping_rapid_is_judged_at_the_height_that_it_has():
    def down(x, z):
        """From 2 mm above the jaw top at x to z at the pocket's middle."""
        pen = disc_pocket().rapid(x, 0.0).rapid(z=2.0).rapid(x=0.0, z=z).rapid(z=10.0)
        return [(code, pen.line - line) for code, line in found(judged(pen))]

    assert ("P501", 1) in down(30.0, -5.0), "below the jaw top from X 21.4 on"
    assert down(30.0, -1.0) == [("P502", 1)], "from X 10 on, if the axes move in step"
    assert down(10.0, -6.0) == []


def test_a_rapid_in_the_gap_or_outside_the_blanks_is_in_air():
    thin = replace(TARGET, cutters=(replace(MILL, dia=6.0),))
    gap = Pen().rapid(60.0, 0.0).rapid(z=10.0).rapid(z=-5.0).rapid(x=-60.0).rapid(z=10.0)
    assert "P501" not in {code for code, _ in found(judged(gap, thin))}
    assert ("P501", 4) in found(judged(gap)), "8 mm is thicker than the gap"
    outside = Pen().rapid(0.0, 60.0).rapid(z=10.0).rapid(z=-5.0).rapid(z=10.0)
    assert "P501" not in {code for code, _ in found(judged(outside))}


def straight_down(tool):
    pen = Pen().rapid(3.0, 0.0).rapid(z=10.0)
    down = pen.feed(z=-3.0).line
    pen.feed(z=0.0)
    report = judged(disc_pocket(pen=pen), replace(TARGET, cutters=(tool,)))
    return found(report), [("P601", down)]


def test_a_plunge_needs_a_cutter_that_cuts_at_its_centre():
    got, fault = straight_down(MILL)
    assert got == fault
    got, _ = straight_down(replace(MILL, centre_cutting=True))
    assert got == []


def test_a_plunge_where_it_is_clear_is_none():
    clear = disc_pocket().rapid(3.0, 0.0).feed(z=-6.0).rapid(z=10.0)
    assert found(judged(clear)) == []


@pytest.mark.parametrize(("run", "flagged"), [(5.0, True), (17.1, False)])
def test_a_ramp_steeper_than_ten_degrees_is_a_plunge(run, flagged):
    """atan(3 / 5) is 31 degrees, atan(3 / 17.1) 9.95."""
    pen = Pen().rapid(-8.5, 0.0).rapid(z=10.0).feed(z=0.0).feed(x=-8.5 + run, z=-3.0)
    down = pen.line
    pen.feed(x=3.0, z=0.5)
    assert found(judged(disc_pocket(pen=pen))) == ([("P602", down)] if flagged else [])
