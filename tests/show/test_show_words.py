"""The words beside the picture."""

from dataclasses import replace

import pytest
import show_demos as demo
import show_pockets as pockets

from jawcam.cautions import ON_LATHE, ON_MILL
from jawcam.proof.report import Figures, Report
from jawcam.show.picture import picture
from jawcam.show.words import caution, clock, datum_words, facts, file_name, verdict
from jawcam.units import Units


def _facts(program=None, target=None, units=Units.MM, report=None, cutters=()):
    program = program or demo.program(demo.pocket_cuts())
    return facts(picture(program, target, units, cutters, 10000.0), report, 10000.0)


def _fact(label, **scene):
    return next(text for name, text in _facts(**scene) if name == label)


@pytest.mark.parametrize(
    ("zero", "words"),
    [
        ((0.0, 0.0, 0.0), "middle of width, mid gap, jaw top"),
        ((-65.0, -43.0, -38.0), "left end, front of front blank, jaw bottom"),
        ((65.0, 3.0, 0.0), "right end, face of back blank, jaw top"),
        ((0.0, 43.0, 0.0), "middle of width, back of back blank, jaw top"),
        (
            (-3.5, -3.0, 0.25),
            "3.5 mm left of middle of width, face of front blank, 0.25 mm over jaw top",
        ),
        (
            (70.0, 20.0, -30.0),
            "5 mm right of right end, 17 mm behind face of back blank, 8 mm over jaw bottom",
        ),
    ],
)
def test_datum_in_words(zero, words):
    assert datum_words(demo.lever_target(zero=zero), Units.MM) == words


def test_datum_in_words_of_the_inch():
    target = demo.lever_target(zero=(12.7, 0.0, 0.0))
    assert datum_words(target, Units.INCH).startswith("0.5 in right of middle of width")


@pytest.mark.parametrize(
    ("minutes", "words"),
    [(0.2, "12 s"), (3 + 1 / 3, "3 min 20 s"), (62.4, "1 h 02 min"), (0.9999, "1 min 00 s")],
)
def test_times_in_words(minutes, words):
    assert clock(minutes) == words


def test_only_the_last_part_of_a_path_is_shown():
    assert file_name("/home/someone/jobs/side-two.nc") == "side-two.nc"
    assert file_name("C:\\jobs\\side-two.nc") == "side-two.nc"
    assert file_name("") == "(no name)"


def test_work_offset_is_told_by_its_number():
    assert _fact("offset") == "work offset 1"


def test_a_program_for_several_stations_says_so():
    stations = pockets.stations_program()
    assert _fact("offset", program=stations, target=pockets.lever_at_second_station()) == (
        "work offset 2; the program also serves another station, not drawn: offset 1"
    )
    cuts = tuple(c._replace(work_offset=1 + i % 3) for i, c in enumerate(stations.cuts))
    said = _fact("offset", program=replace(stations, cuts=cuts), target=demo.lever_target())
    assert said == "work offset 1; the program also serves other stations, not drawn: offset 2, 3"
    assert _fact("offset", program=stations) == "work offset 1, 2"


def test_a_program_for_other_stations_only_is_drawn_whole():
    elsewhere = replace(demo.lever_target(), work_offset=6)
    assert _fact("offset", target=elsewhere) == "work offset 1"


def test_levels_are_told_from_the_programs_zero():
    assert _fact("levels", target=pockets.hub_target()) == "4 levels: -3, -8, -13, -22 mm"
    low = pockets.hub_target(zero=(0.0, 0.0, -45.0))
    assert _fact("levels", target=low) == "4 levels: 42, 37, 32, 23 mm"
    many = _fact("levels", target=pockets.stairs_target(), units=Units.INCH)
    assert many == "12 levels: -0.059, -0.118 to -0.709 in"


def test_what_is_done_beside_the_walls_is_told():
    target = pockets.dressed_target()
    assert _fact("drilled", target=target) == (
        "2 x dia 5 mm beside the pocket; 1 x dia 3 mm at corners"
    )
    assert _fact("groove", target=target) == "2 mm wide along the foot of the wall, 0.6 mm deep"
    assert _fact("faced off", target=target) == "0.8 mm above the jaw top"
    assert _fact("edges", target=target) == "broken 0.7 mm wide by T8"
    assert _fact("edges", target=replace(target, edge_tool=None)) == "broken 0.7 mm wide"


def test_of_what_a_pocket_has_not_nothing_is_said():
    told = {label for label, _ in _facts(target=demo.lever_target())}
    assert told & {"levels", "drilled", "groove", "faced off", "edges"} == set()


def test_tools_are_told_in_the_order_of_use():
    cuts = demo.pocket_cuts()
    cuts = (*cuts[:5], *(cut._replace(tool=5) for cut in cuts[5:]))
    rows = _facts(program=demo.program(cuts), cutters=(demo.MILL,))
    assert [text for label, text in rows if label == "tool"] == [
        "T3 end mill, dia 8 mm, flute length 22 mm",
        "T5",
    ]


def test_deepest_point_names_place_and_line():
    assert _fact("deepest") == "X -26 Y 0 Z -8, line 54"


def test_moves_without_feed_are_owned_up_to():
    cuts = tuple(cut._replace(feed=0.0) for cut in demo.pocket_cuts())
    words = [text for _, text in _facts(program=demo.program(cuts))]
    assert any("no feed" in text for text in words)


def test_rapid_rate_is_told_with_the_time():
    assert _fact("time").endswith("(at 10000 mm/min)")
    assert _fact("time", units=Units.INCH).endswith("(at 394 in/min)")


def test_a_program_in_other_units_is_told():
    told = _fact("units", units=Units.INCH)
    assert told == "inch; the program itself is in mm"


def test_part_top_is_told_against_the_jaw_top():
    assert _fact("part", target=demo.lever_target()) == "its top 4 mm over the jaw top"
    sunk = replace(demo.lever_target(), part_top=-1.0)
    assert _fact("part", target=sunk) == "its top 1 mm under the jaw top"


def test_verdict_and_last_word_follow_the_proof():
    clean = Report((), demo.FIGURES)
    noted = Report(tuple(f for f in demo.many_findings(9) if f.grade != "stop"), demo.FIGURES)
    failed = Report(demo.many_findings(4), demo.FIGURES)
    assert verdict(None) == "none made"
    assert verdict(clean) == "passed, no findings"
    assert verdict(noted) == "passed, 3 warnings, 3 notes"
    assert verdict(failed) == "failed, 2 stops, 1 warning, 1 note"
    assert caution(None) == (
        "Not proven. Dry run above the part, single block, guards closed.",
        ON_MILL[1:],
    )
    assert caution(clean) == (
        "Proven on paper only. Dry run above the part, single block, guards closed.",
        ON_MILL,
    )
    assert caution(noted) == caution(clean)
    assert caution(clean, ON_LATHE, "clear of chuck and work") == (
        "Proven on paper only. Dry run clear of chuck and work, single block, guards closed.",
        ON_LATHE,
    )
    assert "Do not run" in caution(failed)[0]


def test_figures_of_the_proof_are_told():
    assert _fact("figures", report=Report((), demo.FIGURES)) == (
        "gouge 0 mm, left over 0.8 mm; seat at its height; bolts 6.25 mm away; "
        "wall left 26 mm; floor left 30 mm; 15.2 cm3 removed"
    )
    bare = Report((), Figures(gouge=0.5, floor_error=-0.254, volume=16387.064))
    assert _fact("figures", report=bare, units=Units.INCH) == (
        "gouge 0.0197 in, left over 0 in; seat 0.01 in too low; 1.00 in3 removed"
    )
