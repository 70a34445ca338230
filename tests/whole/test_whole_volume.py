"""The volume that the proof says a sample's program removes is that of the target, within 0.2 %."""

from dataclasses import replace

import pytest
from whole_jobs import SAMPLES
from whole_turned import SPINDLE, made
from whole_volume import turned_volume, volume_of

from jawcam.hold.target import Level
from jawcam.proof.prove import prove

JAWS = sorted(p.stem for p in SAMPLES.glob("*.toml") if 'cut = "jaws"' in p.read_text("utf-8"))


@pytest.mark.parametrize("name", JAWS)
def test_of_every_sample_for_the_mill(samples, name):
    for setup, whole in samples(name).items():
        assert whole.figures.volume == pytest.approx(volume_of(whole.target), rel=2e-3), setup


def test_these_are_all_samples_for_the_mill():
    assert len(JAWS) == len(list(SAMPLES.glob("*.toml"))) - 1, "one is for the lathe"


@pytest.fixture(scope="module")
def spindle():
    """The setups of the sample for the lathe by their names."""
    return made(SPINDLE, "rs274ngc-lathe")


@pytest.mark.parametrize("name", ["spindle-end-b", "jaws-end-b", "spindle-end-a"])
def test_of_every_setup_of_the_sample_for_the_lathe(spindle, name):
    """Both ends of the spindle, a thread among it, and the jaws: by Pappus."""
    one = spindle[name]
    assert one.report.figures.volume == pytest.approx(turned_volume(one.target), rel=2e-3)


def test_the_thread_is_not_too_little_to_be_seen(spindle):
    target = spindle["spindle-end-a"].target
    less = turned_volume(replace(target, threads=()))
    assert turned_volume(target) - less > 4e-3 * less


def test_a_cavity_half_a_tenth_deeper_would_be_seen(samples):
    """The bound is worth something: the lever's cavity is 8 mm deep."""
    whole = samples("crank-lever")["side-one"]
    (level,) = whole.target.levels
    deeper = replace(whole.target, levels=(Level(level.top, level.floor - 0.05, level.outlines),))
    off = abs(volume_of(deeper) / whole.figures.volume - 1)
    assert off > 3e-3


def test_the_points_of_drills_and_the_slope_of_an_edge_are_counted(samples):
    """The program of the bracket without its chamfer mill, its drill and its spot drill removes
    less by as much as the target is smaller without them."""
    whole = samples("bearing-bracket")["feet-down"]
    goal = replace(whole.target, edge=0.0, drilled=())
    cuts = tuple(cut for cut in whole.made.program.cuts if cut.tool not in (7, 8, 9))
    figures = prove(replace(whole.made.program, cuts=cuts), whole.target, others={2}).figures
    less = volume_of(whole.target) - volume_of(goal)
    assert less > 100
    assert whole.figures.volume - figures.volume == pytest.approx(less, rel=0.02)
