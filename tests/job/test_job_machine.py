"""What a job tells of its machine's spindle, and of how far a wall may be off."""

import pytest

from jawcam.errors import InputError
from jawcam.tools.machine import Machine


@pytest.mark.parametrize(
    ("words", "power"),
    [
        ("power = 2.2", 2.2),
        ('power = "2.2 kW"', 2.2),
        ('power = "1500 W"', 1.5),
        ('power = "3 hp"', 3 * 0.7456999),  # NIST SP 811, appendix B.8
        ('power = "3 kW / 2"', 1.5),
    ],
)
def test_a_power_is_in_kilowatts_whatever_the_units(jobs, good, words, power):
    for units in ("mm", "inch"):
        text = good.replace('units = "mm"', f'units = "{units}"').replace("dia = 8", "dia = 5")
        job = jobs.load(f"{text}\n[machine]\n{words}\n")
        assert job.machine.power == pytest.approx(power, rel=1e-9)


def test_a_curve_comes_in_the_order_of_its_speeds(jobs, good):
    rows = 'curve = [ { rpm = 6000, power = 2 }, { rpm = 1000, power = "500 W" } ]'
    job = jobs.load(f"{good}\n[machine]\nmin_rpm = 300\ntorque = 8\n{rows}\nefficiency = 0.9\n")
    assert job.machine.curve == ((1000, pytest.approx(0.5)), (6000, 2))
    assert (job.machine.min_rpm, job.machine.torque, job.machine.efficiency) == (300, 8, 0.9)


def test_a_job_that_tells_nothing_of_it_is_held_by_nothing(jobs, good):
    job = jobs.load(good)
    assert (job.machine.power, job.machine.torque, job.machine.curve) == (None, None, ())
    assert job.machine == Machine(max_rpm=job.machine.max_rpm, max_feed=job.machine.max_feed)
    assert job.setups[0].finish.tolerance is None


@pytest.mark.parametrize(
    ("words", "where", "what"),
    [
        ('power = "2 N m"', "machine.power", "a torque, but a power is due"),
        ("power = 0", "machine.power", "more than 0 kW"),
        ("efficiency = 80", "machine.efficiency", "1 or less"),
        ("curve = []", "machine.curve", "empty"),
        ("curve = [ { rpm = 1000 } ]", "machine.curve[1].power", "is missing"),
        ("min_rpm = 9000", "machine.min_rpm", "highest spindle speed"),
        (
            "curve = [ { rpm = 5, power = 1 }, { rpm = 5, power = 2 } ]",
            "machine.curve[2].rpm",
            "5 rpm already",
        ),
    ],
)
def test_what_is_wrong_with_it_is_named(jobs, good, words, where, what):
    with pytest.raises(InputError) as caught:
        jobs.load(f"{good}\n[machine]\n{words}\n")
    said = str(caught.value)
    assert where in said
    assert what in said
