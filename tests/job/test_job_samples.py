"""The sample jobs load, and their blanks have room for what they hold."""

import math

import pytest

from jawcam.job.load import load
from jawcam.resources import folder
from jawcam.units import Units

SAMPLES = sorted(path.name for path in folder("samples").glob("*.toml"))


def sample(name):
    return load(folder("samples") / f"{name}.toml", shown=f"{name}.toml")


@pytest.mark.parametrize("name", SAMPLES)
def test_a_sample_loads_with_its_drawing(name):
    job = sample(name.removesuffix(".toml"))
    assert job.setups or job.turnings


def test_the_crank_lever_is_cut_in_two_stations():
    job = sample("crank-lever-both-sides")
    assert [setup.name for setup in job.setups] == ["side-one", "side-two"]
    assert [setup.hold.depth for setup in job.setups] == [8, 6]
    assert [setup.hold.flip for setup in job.setups] == [False, True]
    assert len({setup.work_offset for setup in job.setups}) == 2
    assert all(setup.finish.compensation == 23 for setup in job.setups)


def test_the_bolts_of_the_crank_lever_lie_in_the_blanks_and_clear_of_the_pocket():
    """The lever: a boss of R 17 and one of R 9, 58 mm apart, its box centred on the jaws."""
    for setup in sample("crank-lever-both-sides").setups:
        near = setup.jaws.gap / 2
        large, small = (-25, 33) if not setup.hold.flip else (25, -33)
        for bolt in setup.bolts:
            r = bolt.dia / 2
            assert near < abs(bolt.y) - r
            assert abs(bolt.y) + r < near + setup.jaws.thickness
            assert abs(bolt.x) + r < setup.jaws.width / 2
            assert -setup.jaws.height < bolt.top < -setup.hold.depth
            for x, boss in ((large, 17), (small, 9)):
                assert math.hypot(bolt.x - x, bolt.y) - r - boss > 5


# length and width of the outlines in mm
@pytest.mark.parametrize(
    ("name", "length", "width"),
    [
        ("crank-lever", 84, 34),
        ("crank-lever-both-sides", 84, 34),
        ("hopper-flange", 60, 44),
        ("burr-cam", 48, 42),
    ],
)
def test_walls_and_floor_are_left(name, length, width):
    for setup in sample(name).setups:
        jaws, fit = setup.jaws, setup.fit
        assert jaws.width / 2 - length / 2 - fit.grip - fit.side > 15
        assert jaws.gap / 2 + jaws.thickness - width / 2 - fit.grip > 10
        assert jaws.height - setup.hold.depth > 20


def test_samples_differ_where_a_job_can():
    lever, flange, cam = (sample(name) for name in ("crank-lever", "hopper-flange", "burr-cam"))
    assert (lever.units, flange.units, cam.units) == (Units.MM, Units.INCH, Units.MM)
    assert flange.setups[0].post == "iso6983-mill"
    assert flange.tools[0].dia == pytest.approx(6.35)
    assert cam.setups[0].finish.compensation is None
    assert cam.setups[0].rough.ramp == 2
