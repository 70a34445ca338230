"""Jaw materials and their names."""

import pytest

from jawcam.job.model import Blanks
from jawcam.tools.materials import MATERIALS, find, suggestion


@pytest.mark.parametrize(
    ("name", "expected"),
    [
        ("aluminium 6061", "aluminium 6061"),
        ("Aluminum  6061", "aluminium 6061"),
        ("6061-T6", "aluminium 6061"),
        ("aluminium_7075", "aluminium 7075"),
        (" Brass ", "brass 360"),
        ("low-carbon steel", "mild steel"),
        ("POM", "acetal"),
        ("PA6", "nylon"),
    ],
)
def test_a_material_goes_by_several_names(name, expected):
    assert find(name).name == expected


@pytest.mark.parametrize("name", ["", "unobtainium", "steel", "aluminium 2024"])
def test_an_unknown_material_is_not_guessed(name):
    assert find(name) is None


def test_the_nearest_name_is_suggested():
    assert suggestion("aluminium 6016") == "did you mean aluminium 6061?"
    assert suggestion("Milde Steel") == "did you mean mild steel?"
    assert suggestion("unobtainium").startswith("choose from aluminium 6061, ")


def test_no_name_means_two_materials():
    names = [name for material in MATERIALS for name in (material.name, *material.aliases)]
    assert len(names) == len(set(names))
    assert all(name == name.casefold() for name in names)


def test_the_material_that_blanks_have_by_default_is_known():
    assert find(Blanks(1, 1, 1, 1).material)


@pytest.mark.parametrize("material", MATERIALS, ids=lambda material: material.name)
def test_every_value_says_where_it_comes_from(material):
    for origin in (material.speed_origin, material.chip_origin):
        assert origin == "common practice, no source" or origin.startswith("a shop chart")
    assert list(material.chips) == sorted(material.chips)
    assert 20 < material.surface_speed < 500
