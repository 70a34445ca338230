"""Values with a name, in [let]."""

import pytest

from jawcam.job.names import MAX_NAMES, name_values
from jawcam.job.quantity import Dims, Quantity
from jawcam.units import Units


def worked_out(let, units=Units.MM):
    return name_values(let, units)


def test_names_may_stand_in_any_order():
    names = worked_out({"pocket": "2 * wall + gap", "wall": "gap / 2", "gap": 6})
    assert not names.faults
    assert names.values["pocket"] == Quantity(12.0, bare=True)


def test_units_pass_through_names():
    names = worked_out({"a": "b * 2", "b": "1 in"})
    assert names.values["a"] == Quantity(50.8, Dims(length=1))


@pytest.mark.parametrize(
    ("let", "ring"),
    [
        ({"a": "a + 1"}, "a -> a"),
        ({"a": "b", "b": "a"}, "a -> b -> a"),
        ({"x": "1", "a": "x * c", "b": "a", "c": "b"}, "a -> c -> b -> a"),
    ],
)
def test_a_circle_of_names_is_shown_once(let, ring):
    ((name, fault),) = worked_out(let).faults
    assert name == "a"
    assert fault.what.endswith(ring)


def test_every_circle_is_named():
    names = worked_out({"a": "b", "b": "a", "c": "d + a", "d": "c"})
    assert [name for name, _ in names.faults] == ["a", "c"]


def test_what_follows_from_a_faulty_name_is_no_second_fault():
    names = worked_out({"a": "1 / 0", "b": "a + 1", "c": "b * 2", "d": 3})
    assert [name for name, _ in names.faults] == ["a"]
    assert names.values["c"] is None
    assert names.values["d"] == Quantity(3.0, bare=True)


@pytest.mark.parametrize(
    ("name", "what", "mend"),
    [
        ("mm", "is a unit", "another"),
        ("sqrt", "is a function", "another"),
        ("wall-left", "letters, digits and _", "wall_left"),
        ("2nd", "letters, digits and _", "another"),
        ("größe", "letters, digits and _", "gr_e"),
    ],
)
def test_names_that_an_expression_could_not_use_are_refused(name, what, mend):
    ((found, fault),) = worked_out({name: 3}).faults
    assert found == name
    assert what in fault.what
    assert mend in fault.mend


@pytest.mark.parametrize(
    "value", [True, [1], {"a": 1}, None, float("nan"), float("inf"), -float("inf"), 10**400]
)
def test_values_that_are_no_numbers_are_refused(value):
    assert len(worked_out({"a": value}).faults) == 1


def test_a_long_chain_is_worked_out_without_running_deep():
    let = {f"n{i}": f"n{i + 1} + 1" for i in range(MAX_NAMES - 1)} | {f"n{MAX_NAMES - 1}": 1}
    names = worked_out(let)
    assert names.values["n0"] == Quantity(float(MAX_NAMES), bare=True)


def test_too_many_names_are_refused():
    ((_, fault),) = worked_out({f"n{i}": 1 for i in range(MAX_NAMES + 1)}).faults
    assert str(MAX_NAMES) in fault.what
