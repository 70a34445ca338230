"""What is said about the grip."""

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from jawcam.hold.grip import CAUTION, LIFT_SHARE, grip_words
from jawcam.job.model import Clamp, NextCut
from jawcam.tools.materials import MATERIALS
from jawcam.units import Units

CUT = NextCut(down=5, stepdown=4, chip=0.1, teeth=2)
WEAK = "caution: the grip is too weak for that cut"


def said(clamp, cut=CUT, material="mild steel", units=Units.MM):
    return grip_words(clamp, cut, material, units)


def line(lines, word):
    (found,) = [one for one in lines if word in one]
    return found


def test_without_a_clamp_nothing_is_said():
    assert said(None) == ()
    assert said(Clamp()) == ()


def test_the_force_from_the_screw():
    """2 pi T eta / lead: 40 N m, 0.35 and 5 mm give 17593 N; two smooth jaws on machined steel
    bear 2 x 0.10 of it."""
    first = said(Clamp(torque=40))[0]
    assert "17.6 kN, from 40.0 N m on its screw of 5 mm lead" in first
    assert first.endswith("bears 3.52 kN")


def test_the_force_as_given():
    lines = said(Clamp(force=800, torque=40))
    assert "presses with 800 N, as given; friction on both jaws bears 160 N" in lines[0]
    assert not any("efficiency" in one for one in lines)


def test_the_pull_of_the_cut():
    """Group P1: 1350 x 0.1^-0.21 = 2189.4 N/mm2, by 4 mm by 0.1 mm by 2 teeth = 1751.5 N."""
    lines = said(Clamp(force=20_000))
    assert line(lines, "pulls with").endswith(
        "4 mm deep, chip 0.1 mm, 2 teeth in the cut, pulls with 1.75 kN"
    )
    assert "2190 N/mm2 of unalloyed steel below 0.25 % C" in line(lines, "assumed")


def test_one_tooth_at_a_time():
    lines = said(Clamp(force=20_000), NextCut(5, stepdown=4, chip=0.1))
    assert "1 tooth in the cut, pulls with 876 N" in line(lines, "pulls with")


def test_the_margins():
    """2 x 0.10 x 20000 / 1751.5 = 2.28, against half of it twice as much; told rounded down."""
    told = line(said(Clamp(force=20_000)), "holds")
    assert "holds 2.2 times that before the part slips, and 4.5 times" in told
    assert "2.5 times are asked for" in told
    assert LIFT_SHARE == 0.5


def test_a_weak_grip_is_told_with_the_force_that_holds():
    """2.5 x 1751.5 / (2 x 0.10) = 21894 N."""
    assert line(said(Clamp(force=20_000)), WEAK).startswith(f"{WEAK}: it takes 21.9 kN, or")
    assert not any(WEAK in one for one in said(Clamp(force=21_900)))


def test_a_weak_grip_is_told_with_the_torque_that_holds():
    """21894 N x 5 mm / (2 pi 0.35) = 49.78 N m."""
    assert "21.9 kN (49.8 N m on the screw), or" in line(said(Clamp(torque=40)), WEAK)
    assert not any(WEAK in one for one in said(Clamp(torque=49.8)))


def test_a_greater_safety_asks_for_more():
    assert not any(WEAK in one for one in said(Clamp(force=20_000, safety=2)))
    assert "35.1 kN" in line(said(Clamp(force=20_000, safety=4)), WEAK)


@pytest.mark.parametrize(
    ("surface", "bears"), [("ground", "140 N"), ("machined", "200 N"), ("raw", "300 N")]
)
def test_a_rougher_part_holds_better(surface, bears):
    assert said(Clamp(force=1000, surface=surface))[0].endswith(f" bears {bears}")


@pytest.mark.parametrize(
    ("material", "mu", "named"),
    [
        ("mild steel", 0.1, "steel"),
        ("aluminium 6061", 0.095, "aluminium"),
        ("brass 360", 0.09, "brass"),
        ("casting, group K15", 0.08, "grey iron"),
        ("nodular iron, group K17", 0.1, "steel"),
        ("acetal", 0.1, '"acetal", as if it were steel'),
    ],
)
def test_the_friction_is_that_of_the_part(material, mu, named):
    assumed = line(said(Clamp(force=1000), material=material), "assumed")
    assert f"friction {mu:g} of smooth jaws on a machined part of {named} (" in assumed


@pytest.mark.parametrize("material", ["walnut", "acetal", "", "stone\n%(x)s {y}"])
def test_a_material_that_is_not_known_is_said_with_what_to_do(material):
    lines = said(Clamp(torque=40), material=material)
    told = line(lines, "could be worked out")
    assert "VDI 3323 group" in told
    assert 'group P6"' in told
    assert not any("holds" in one or "caution:" in one or "\n" in one for one in lines)


def test_the_way_out_for_an_unknown_material_works():
    told = line(said(Clamp(torque=40), material="walnut"), "could be worked out")
    named = re.search(r'material = "(.+)"', told)[1]
    assert any("holds" in one for one in said(Clamp(torque=40), material=named))


@pytest.mark.parametrize(
    "cut",
    [
        None,
        NextCut(5),
        NextCut(5, stepdown=4),
        NextCut(5, chip=0.1),
        NextCut(5, stepdown=4, chip=0),
        NextCut(5, stepdown=0, chip=0.1),
    ],
)
def test_without_the_cut_only_the_grip_is_told(cut):
    lines = said(Clamp(torque=40), cut)
    assert "next_cut its stepdown and chip" in lines[1]
    assert not any("holds" in one for one in lines)


def test_inches():
    """20000 N = 4496 lbf; 1751.5 N = 394 lbf; 49.78 N m = 440.6 lbf in; 2189.4 N/mm2 =
    317 500 lbf/in2 (1 lbf = 4.4482216 N)."""
    lines = said(Clamp(force=20_000), units=Units.INCH)
    assert "presses with 4500 lbf, as given" in lines[0]
    assert "0.1575 in deep, chip 0.0039 in, 2 teeth in the cut, pulls with 394 lbf" in lines[1]
    assert "318000 lbf/in2" in line(lines, "assumed")
    lines = said(Clamp(torque=40), units=Units.INCH)
    assert "354 lbf in on its screw of 0.1969 in lead" in lines[0]
    assert "4930 lbf (441 lbf in on the screw)" in line(lines, WEAK)


def test_what_was_assumed_is_listed_in_one_line():
    assumed = line(said(Clamp(torque=40)), "assumed")
    for thing in (
        "efficiency 0.35",
        "friction 0.1",
        "a chuck data sheet",
        "sharp edges",
        "upward pull 0.5 of the cutting force (common practice, no source)",
        "tipping not counted",
    ):
        assert thing in assumed


def test_it_ends_with_what_to_mind():
    assert said(Clamp(torque=40))[-1] == f"grip: {CAUTION}"
    assert CAUTION.startswith("guidance only")


@settings(max_examples=60)
@given(
    st.floats(0.5, 10),
    st.floats(0.01, 0.4),
    st.integers(1, 4),
    st.floats(1.5, 5),
    st.sampled_from([one.name for one in MATERIALS if one.group]),
)
def test_the_force_that_is_asked_for_is_enough_and_a_tenth_less_is_not(
    depth, chip, teeth, safety, material
):
    cut = NextCut(5, stepdown=depth, chip=chip, teeth=teeth)
    told = line(said(Clamp(force=0.01, safety=safety), cut, material), WEAK)
    number, mark = re.search(r"takes ([\d.]+) (k?N)", told).groups()
    force = float(number) * (1000 if mark == "kN" else 1)
    assert not any(WEAK in one for one in said(Clamp(force=force, safety=safety), cut, material))
    weaker = said(Clamp(force=0.9 * force, safety=safety), cut, material)
    assert any(WEAK in one for one in weaker)


@settings(max_examples=60)
@given(
    st.builds(
        Clamp,
        force=st.none() | st.floats(1e-6, 1e7),
        torque=st.floats(1e-6, 1e5),
        surface=st.sampled_from(["ground", "machined", "raw"]),
    ),
    st.builds(
        NextCut,
        down=st.just(5.0),
        stepdown=st.none() | st.floats(1e-4, 100),
        chip=st.none() | st.floats(1e-4, 10),
        teeth=st.integers(1, 20),
    ),
    st.text(max_size=20) | st.sampled_from([one.name for one in MATERIALS]),
    st.sampled_from(Units),
)
def test_whatever_the_job_says_there_are_plain_lines(clamp, cut, material, units):
    lines = grip_words(clamp, cut, material, units)
    assert len(lines) >= 4
    assert all(one.isprintable() and one.startswith(("grip: ", "caution: ")) for one in lines)
