"""Threads: what is found when one thing in them is wrong."""

from dataclasses import replace

import pytest
from axle_pen import M20, axle, groove, shape, threads, whole
from turning_pen import (
    Pen,
    codes,
    judged,
    program,
    target,
)

from jawcam.proof.turning.prove import prove_turning


def test_a_wrong_lead():
    report = judged(whole(lead=2.0), axle())
    assert codes(report) == ["T403"]


def test_a_thread_pass_too_deep_and_too_shallow():
    assert codes(judged(whole(deeper=0.01), axle())) == ["T404"]
    report = judged(whole(deeper=-0.03), axle())
    assert codes(report) == ["T405"]
    assert report.findings[0].amount == pytest.approx(0.03)


def test_no_thread_at_all():
    pen = groove(shape(Pen().with_state(clamp=2000.0)))
    assert codes(judged(pen, axle())) == ["T402"]


def test_a_thread_that_has_no_place():
    assert codes(judged(whole(), axle(threads=()))) == ["T203", "T401"]


def test_passes_aside_of_the_groove_and_too_short():
    pen = whole()
    cuts = list(pen.cuts)
    last = max(i for i, c in enumerate(cuts) if c.lead)
    first = min(i for i, c in enumerate(cuts) if c.lead)
    moved = cuts[first]._replace(start=(*cuts[first].start[:2], 4.0))
    report = prove_turning(
        replace(program(pen), cuts=(*cuts[:first], moved, *cuts[first + 1 :])), axle()
    )
    assert "T408" in codes(report)
    short = cuts[last]._replace(end=(*cuts[last].end[:2], -17.0))
    report = prove_turning(
        replace(program(pen), cuts=(*cuts[:last], short, *cuts[last + 1 :])), axle()
    )
    assert codes(report) == ["T406"]


def test_starts_are_counted():
    two = replace(M20, starts=2)
    report = judged(whole(lead=5.0), axle(threads=(two,)))
    assert codes(report) == ["T409"]
    pen = whole(lead=5.0)
    threads(pen, lead=5.0, start=7.5)
    assert codes(judged(pen, axle(threads=(two,)))) == []
    pen = whole(lead=5.0)
    threads(pen, lead=5.0, start=7.0)  # not half a turn from the first
    assert codes(judged(pen, axle(threads=(two,)))) == ["T409"]


def test_flank_infeed_is_one_groove():
    pen = groove(shape(Pen().with_state(clamp=2000.0)))
    pen.call(5).rapid(8.0, 23.0)
    for depth in (0.6, 1.0, 1.3, 1.534):
        z = 5.0 + (1.534 - depth) * 0.5657  # tan 29.5
        pen.rapid(z=z).rapid(x=10.0 - depth).thread(-19.5, 10.0 - depth, 2.5)
        pen.rapid(x=23.0).rapid(z=8.0)
    assert codes(judged(pen.home(), axle())) == []


def test_a_thread_at_constant_surface_speed():
    pen = whole()
    cuts = [c._replace(surface=100.0) if c.lead else c for c in pen.cuts]
    assert codes(prove_turning(replace(program(pen), cuts=tuple(cuts)), axle())) == ["T407"]


def test_a_pass_may_draw_out_of_its_own_groove_at_rapid():
    short = replace(M20, end=-14.0)
    pen = groove(shape(Pen().with_state(clamp=2000.0)))
    pen.call(5).rapid(5.0, 23.0)
    for depth in (0.8, 1.534):
        pen.rapid(x=10.0 - depth).thread(-14.0, 10.0 - depth, 2.5).rapid(x=23.0).rapid(z=5.0)
    assert codes(judged(pen.home(), axle(threads=(short,)))) == []
    # but nobody goes into it at rapid
    pen.rapid(-8.0, 23.0).rapid(x=9.0).rapid(x=23.0).home()
    assert codes(judged(pen, axle(threads=(short,)))) == ["T501"]


def test_a_full_pass_that_is_not_straight():
    """Less deep at its end by five thousandths of a millimetre."""
    pen = whole()
    cuts = list(pen.cuts)
    last = max(i for i, c in enumerate(cuts) if c.lead)
    x, _, z = cuts[last].end
    for off, found in ((0.001, []), (0.005, ["T410"])):
        bent = cuts[last]._replace(end=(x + off, 0.0, z))
        changed = (*cuts[:last], bent, *cuts[last + 1 :])
        report = prove_turning(replace(program(pen), cuts=changed), axle())
        assert codes(report) == found


def test_an_insert_with_other_flanks():
    tools = tuple(replace(t, pitch_angle=55.0) if t.number == 5 else t for t in axle().tools)
    assert codes(judged(whole(), axle(tools=tools))) == ["T411"]


def cone(start, depths, flank):
    """Passes on a taper of a slope of 0.2, each begun where the angle of infeed has it."""
    pen = Pen().with_state(clamp=2000.0)
    pen.call(5).rapid(start, 43.0)
    for depth in depths:
        # x = less + 0.2 z and z = x tan(flank)
        z = start + (depths[-1] - depth) * flank / (1 + 0.2 * flank)
        x0, x1 = (10.0 - 0.2 * at - depth for at in (z, -19.5))
        pen.rapid(z=z).rapid(x=x0).thread(-19.5, x1, 2.5).rapid(x=43.0).rapid(z=start)
    return pen.home()


def test_flank_infeed_on_a_taper_is_one_groove():
    """At 29.5 degrees all of a pass lies in the last one's groove; a flat infeed of 31 doesn't."""
    thread = replace(M20, last=10.0 + 0.2 * 18)
    outline = ((0.0, 0.0), (0.0, 10.0), (-18.0, 13.6), (-18.0, 8.0), (-24.0, 8.0), (-24.0, 20.0))
    goal = target(*outline, threads=(thread,))
    goal = replace(goal, stock=goal.finished)
    depths = (0.6, 1.0, 1.3, 1.534)
    assert codes(judged(cone(5.0, depths, 0.5658), goal)) == []
    assert "T408" in codes(judged(cone(5.0, depths, 0.65), goal))


@pytest.mark.parametrize(("spindle", "found"), [("cw", []), ("ccw", ["T105", "T412"])])
def test_a_thread_of_the_other_hand(spindle, found):
    """Either the spindle turns the other way, or the passes run away from the chuck."""
    pen = whole()
    cuts = [c._replace(spindle=spindle) if c.lead else c for c in pen.cuts]
    assert sorted(codes(prove_turning(replace(program(pen), cuts=tuple(cuts)), axle()))) == found


@pytest.mark.parametrize(("spindle", "found"), [("cw", ["T412"]), ("ccw", [])])
def test_a_thread_away_from_the_chuck_wants_the_spindle_backwards(spindle, found):
    """With a tool that is held the other way up."""
    pen = groove(shape(Pen().with_state(clamp=2000.0)))
    pen.call(5).rapid(-19.5, 23.0)
    for depth in (0.8, 1.534):
        pen.rapid(z=-19.5).rapid(x=10.0 - depth).thread(5.0, 10.0 - depth, 2.5).rapid(x=23.0)
    way = "clockwise" if spindle == "cw" else "counter-clockwise"
    tools = tuple(replace(t, turns=way) if t.number == 5 else t for t in axle().tools)
    cuts = [c._replace(spindle=spindle) if c.tool == 5 else c for c in pen.home().cuts]
    report = prove_turning(replace(program(pen), cuts=tuple(cuts)), axle(tools=tools))
    assert codes(report) == found
