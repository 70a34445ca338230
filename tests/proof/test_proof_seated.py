"""Programs that cut the part while the jaws hold it, each obstacle on both sides of its limit: a
disc of 30 mm that stands 4 mm proud, in blanks 80 mm wide and 30 mm thick, 6 mm apart."""

import math
from dataclasses import replace

import pytest
import shapely
from proof_pen import MILL, TARGET, Pen, program

from jawcam.hold.target import Bolt, Groove, Level, Seated, Vise
from jawcam.proof.limits import Limits
from jawcam.proof.seated import OVER, prove_seated, seated_scene
from jawcam.proof.shut import part_area, shut_blocks
from jawcam.proof.times import drive_of
from jawcam.tools.cutter import Cutter, HolderStep
from jawcam.tools.machine import Machine, Travel

HELD = replace(TARGET, seated=Seated(clear=1.0))
CENTRE = replace(MILL, centre_cutting=True)


def found(pen, target=HELD, **options):
    findings = prove_seated(program(pen), target, **options).findings
    return [(f.code, f.line) for f in findings if f.code != "P112"]


def codes(pen, target=HELD, **options):
    return [code for code, _ in found(pen, target, **options)]


def round_it(z, radius=18.5, away=50.0):
    """From outside the blanks at a height, once round the part."""
    pen = Pen().rapid(away, 0.0).rapid(z=10.0).rapid(z=z)
    return pen.feed(x=radius).circle().feed(x=away).rapid(z=10.0)


@pytest.mark.parametrize(
    ("z", "expected"),
    [(1.0, []), (0.99, ["P712"] * 2), (0.0, ["P712"] * 2), (-0.01, ["P711"] * 2)],
)
def test_round_the_part_the_cutter_stays_above_the_jaws(z, expected):
    assert codes(round_it(z)) == expected


def test_how_far_it_is_to_stay_above_them_is_what_the_job_says_of_the_next_cut():
    for clear, expected in ((0.3, []), (0.5, ["P712"] * 2), (None, ["P712"] * 2)):
        target = replace(TARGET, seated=Seated(clear=clear))
        assert codes(round_it(0.4), target) == expected, clear


def test_a_jaw_is_told_with_place_and_depth_and_what_else_is_in_it():
    found = prove_seated(program(round_it(-0.5)), HELD).findings
    front, back = (f for f in found if f.code == "P711")
    assert (front.grade, front.line, front.amount) == ("stop", 4, pytest.approx(-0.5))
    assert front.what == "T3 cuts 0.5 mm into the front jaw; so do 2 more lines"
    assert (front.x, front.y, front.z) == pytest.approx((40.0, -3.0, 0.0), abs=0.01)
    assert back.what.startswith("T3 cuts 0.5 mm into the back jaw")
    assert back.y == pytest.approx(3.0, abs=0.01)


def test_beside_a_jaw_the_way_out_to_the_side_counts_where_it_is_shorter():
    """Down in front of the blanks' ends at X 40, 0.2 too near."""
    pen = Pen().rapid(43.8, 20.0).rapid(z=10.0).feed(z=-9.0).rapid(z=10.0)
    (one,) = prove_seated(program(pen), HELD).findings
    assert (one.code, one.what) == ("P711", "T3 cuts 0.2 mm into the back jaw; so does line 4")
    assert (one.x, one.y, one.z) == pytest.approx((40.0, 20.0, 0.0), abs=1e-6)


def walls(target, where=0.0):
    """How far the top of either jaw is from the middle at an X, along Y."""
    line = shapely.LineString([(where, -100.0), (where, 100.0)])
    rows = {}
    for block in shut_blocks(target, Limits()):
        if block.kind == "jaw" and block.top == 0.0:
            low, high = shapely.bounds(shapely.intersection(block.place, line))[[1, 3]]
            rows[block.name] = high if low < 0 else low
    return rows


def test_the_jaws_stand_where_they_have_come_to():
    """Cut at a radius of 15.05, they come on by 0.3 and 0.7; the part is pushed by 0.2."""
    target = replace(TARGET, seated=Seated(front=0.3, back=0.7, shift=-0.2))
    assert walls(target) == {
        "the front jaw": pytest.approx(-15.05 + 0.3, abs=1e-4),
        "the back jaw": pytest.approx(15.05 - 0.7, abs=1e-4),
    }
    assert walls(target, 30.0) == {
        "the front jaw": pytest.approx(-3.0 + 0.3),
        "the back jaw": pytest.approx(3.0 - 0.7),
    }
    assert shapely.bounds(part_area(target)) == pytest.approx((-15.0, -15.2, 15.0, 14.8), abs=1e-4)


def test_bolts_and_the_vise_s_own_jaws_go_along_and_its_bed_stays():
    target = replace(
        TARGET,
        bolts=(Bolt(30.0, -20.0, 12.0, 3.0), Bolt(30.0, 20.0, 12.0, 3.0)),
        vise=Vise(2.0, 100.0, 50.0, -30.0),
        seated=Seated(front=0.3, back=0.7),
    )
    places = {
        block.name: block.place.centroid.y
        for block in shut_blocks(target, Limits())
        if block.kind != "jaw"
    }
    assert places == {
        "bolt 1": pytest.approx(-19.7),
        "bolt 2": pytest.approx(19.3),
        "the vise's own front jaw": pytest.approx(-58.0 + 0.3),
        "the vise's own back jaw": pytest.approx(58.0 - 0.7),
        "the vise's bed": pytest.approx(0.0),
    }


@pytest.mark.parametrize(("z", "expected"), [(4.01, []), (3.99, ["P706"]), (2.99, ["P705"])])
def test_a_bolt_beside_the_part(z, expected):
    target = replace(HELD, bolts=(Bolt(30.0, -20.0, 12.0, 3.0),))
    pen = Pen().rapid(30.0, -20.0).rapid(z=10.0).rapid(z=z).rapid(z=10.0)
    assert codes(pen, target) == expected


@pytest.mark.parametrize(("z", "expected"), [(3.01, []), (2.99, ["P708"]), (1.99, ["P707"])])
def test_the_vise_s_own_jaws(z, expected):
    target = replace(HELD, vise=Vise(2.0))
    pen = Pen().rapid(30.0, 40.0).rapid(z=10.0).rapid(z=z).rapid(z=10.0)
    assert codes(pen, target) == expected


def stepped(**more):
    """A cavity of radius 20 down to Z -3, of 12 down to Z -8, in which a post of 10 stands."""
    wide, slim = ((20.0, 0.0, 1.0), (-20.0, 0.0, 1.0)), ((12.0, 0.0, 1.0), (-12.0, 0.0, 1.0))
    post = ((5.0, 0.0, 1.0), (-5.0, 0.0, 1.0))
    levels = (Level(0.0, -3.0, (wide, slim)), Level(-3.0, -8.0, (slim,)))
    return replace(HELD, grip=0.0, levels=levels, silhouette=(post,), **more)


@pytest.mark.parametrize(
    ("radius", "z", "expected"),
    [
        (14.99, -2.0, []),
        (14.99, -2.01, ["P712"]),
        (14.99, -3.01, ["P711"]),
        (15.01, -1.0, ["P712"]),
        (16.01, -1.0, ["P711"]),
        (6.99, -7.0, []),
        (7.01, -6.9, ["P712"]),
        (8.01, -6.9, ["P711"]),
        (6.99, -7.01, ["P712"]),
        (6.99, -8.01, ["P711"]),
    ],
)
def test_at_each_height_the_pocket_is_as_wide_as_it_was_cut(radius, z, expected):
    """Straight down in the back jaw, 30 degrees off the gap; the cutter's radius is 4 and 1 mm is
    kept off walls, shelf and floor."""
    x, y = radius * math.cos(math.pi / 3), radius * math.sin(math.pi / 3)
    pen = Pen().rapid(x, y).rapid(z=10.0).rapid(z=z).rapid(z=10.0)
    assert [code for code in codes(pen, stepped()) if code != "P501"] == expected


def test_the_groove_at_the_foot_of_the_wall_is_cut_too():
    target = stepped(groove=Groove(2.0, 0.5))
    pen = Pen().rapid(0.0, 11.0).rapid(z=10.0).rapid(z=-8.2).rapid(z=10.0)
    slim = replace(target, cutters=(replace(MILL, dia=0.8),), seated=Seated(clear=0.1))
    assert codes(pen, slim) == []
    assert codes(pen, replace(slim, groove=None)) == ["P711"]


@pytest.mark.parametrize(("z", "expected"), [(4.0, []), (3.9, ["P501"])])
def test_the_part_stands_proud_as_the_job_says(z, expected):
    pen = Pen().rapid(50.0, 0.0).rapid(z=10.0).rapid(z=z).rapid(x=-50.0).rapid(z=10.0)
    assert codes(pen) == expected
    assert codes(pen, replace(HELD, part_top=3.5)) == []


def test_a_rapid_through_the_part_is_told_with_its_depth_and_length():
    pen = Pen().rapid(50.0, 0.0).rapid(z=10.0).rapid(z=2.5).rapid(x=-50.0).rapid(z=10.0)
    (one,) = prove_seated(program(pen), HELD).findings
    assert one.what == (
        "T3 goes through uncut material at rapid, 1.5 mm below its top and along 38 mm of the way"
    )
    assert one.amount == pytest.approx(1.5)
    assert (one.x, one.y, one.z) == pytest.approx((15.0, 0.0, 2.5), abs=0.01)
    assert one.mend == "rise above the part's top before this rapid, or feed"


def test_what_is_cut_of_the_part_is_gone_for_rapids_afterwards():
    pen = round_it(1.0)
    pen.line += 1
    pen.rapid(50.0, 18.5).rapid(z=1.0).rapid(x=-50.0).rapid(z=10.0)
    assert codes(pen) == []
    assert codes(round_it(1.0, radius=18.0).rapid(50.0, 17.9).rapid(z=1.0).rapid(x=-50.0)) == [
        *("P115", "P501")
    ]


def test_a_drill_may_go_back_down_its_own_hole_at_rapid():
    drill = Cutter(3, "drill", 5.0, flute_len=30.0)
    target = replace(HELD, cutters=(drill,))
    pen = Pen().rapid(0.0, 0.0).rapid(z=10.0).feed(z=1.0).rapid(z=6.0).rapid(z=1.0).feed(z=-2.0)
    assert codes(pen.rapid(z=10.0), target) == []
    deeper = Pen().rapid(0.0, 0.0).rapid(z=10.0).feed(z=1.0).rapid(z=6.0).rapid(z=0.5)
    assert codes(deeper.rapid(z=10.0), target) == ["P501"]


def tool(**told):
    return replace(HELD, cutters=(replace(CENTRE, **told),))


@pytest.mark.parametrize(("flutes", "rubs"), [(2.998, True), (3.0, False)])
@pytest.mark.parametrize("shank", [None, 8.0])
def test_a_shank_rubs_on_the_part_where_it_stands_higher_than_the_flutes(flutes, rubs, shank):
    """A slot 3 mm deep; a shank that the job doesn't tell is as thick as the cutter."""
    pen = Pen().rapid(50.0, 0.0).rapid(z=10.0).rapid(z=1.0).feed(x=-50.0).rapid(z=10.0)
    target = tool(flute_len=flutes, shank=shank)
    assert codes(pen, target) == (["P803"] if rubs else [])
    beside = Pen().rapid(50.0, 25.0).rapid(z=10.0).rapid(z=1.0).feed(x=-50.0).rapid(z=10.0)
    assert codes(beside, target) == [], "beside the part there is nothing for it to rub on"


@pytest.mark.parametrize(
    ("out", "expected"),
    [(4.01, []), (3.99, ["P805"]), (3.01, ["P805"]), (2.99, ["P804"])],
)
def test_a_holder_over_the_part(out, expected):
    """A slot down to Z 1 under the part's top at Z 4; 1 mm is kept."""
    pen = Pen().rapid(50.0, 0.0).rapid(z=10.0).rapid(z=1.0).feed(x=-50.0).rapid(z=10.0)
    target = tool(stickout=out, holder=(HolderStep(20.0, 60.0),))
    assert codes(pen, target) == expected


@pytest.mark.parametrize(
    ("out", "expected"),
    [(3.01, []), (2.99, ["P805"] * 2), (2.01, ["P805"] * 2), (1.99, ["P804"] * 2)],
)
def test_a_holder_over_the_jaws_beside_their_ends(out, expected):
    """The tip at Z -2 off the blanks' end, 10 of the holder over both."""
    pen = Pen().rapid(50.0, 0.0).rapid(z=10.0).rapid(z=-2.0).rapid(z=10.0)
    target = tool(stickout=out, holder=(HolderStep(40.0, 60.0),))
    assert codes(pen, target) == expected


def test_a_rapid_that_bends_into_a_jaw():
    """Down aslant from outside the blanks' end: straight it is down at X 60, bent at X 43."""
    pen = Pen().rapid(50.0, 20.0).rapid(z=10.0).rapid(x=40.5, y=20.0, z=3.0)
    pen.rapid(x=60.0, z=-4.0).rapid(z=10.0)
    straight = codes(pen, machine=Machine(rapids="straight"))
    bent = codes(pen, machine=Machine(rapids="dog-leg"))
    assert set(bent) - set(straight) == {"P504"}


@pytest.mark.parametrize(("centre", "expected"), [(True, []), (False, ["P601"])])
def test_straight_down_into_the_part(centre, expected):
    target = replace(HELD, cutters=(replace(MILL, centre_cutting=centre),))
    pen = Pen().rapid(0.0, 0.0).rapid(z=10.0).feed(z=2.0).rapid(z=10.0)
    assert codes(pen, target) == expected


def test_what_a_program_lacks_is_found_as_ever_and_said_of_the_part_s_top():
    pen = round_it(1.0)
    bare = [cut._replace(length_offset=0) for cut in pen.cuts]
    (one,) = prove_seated(program(bare), HELD).findings
    assert one.what == "the cutter goes below the part's top without a length offset"
    off = [cut._replace(spindle="off") for cut in pen.cuts]
    assert codes(off) == ["P101"]
    assert codes([cut._replace(work_offset=2) for cut in pen.cuts]) == ["P110"]
    other = [cut._replace(tool=7, length_offset=7) for cut in pen.cuts]
    assert codes(other) == ["P104"]


@pytest.mark.parametrize(("z", "expected"), [(10.0, []), (9.99, ["P114"])])
def test_approaches_end_at_the_clearance(z, expected):
    pen = Pen().rapid(50.0, 20.0).rapid(z=z).rapid(z=20.0)
    assert codes(pen) == expected


def test_the_clearance_is_above_the_part_however_far_that_stands_out():
    tall = replace(HELD, part_top=30.0)
    for z, expected in ((30.0 + OVER, []), (30.0 + OVER - 0.01, ["P114"])):
        assert codes(Pen().rapid(50.0, 20.0).rapid(z=z).rapid(z=60.0), tall) == expected


def test_the_program_counts_from_the_datum_on_the_shut_jaws():
    """From the front blank's back edge, which has come on by 0.3 from Y -33, and the left end."""
    zero = (-40.0, -32.7, 0.0)
    target = replace(HELD, seated=Seated(front=0.3, zero=zero, clear=1.0))
    shifted = [
        cut._replace(
            start=tuple(a - b for a, b in zip(cut.start, zero, strict=True)),
            end=tuple(a - b for a, b in zip(cut.end, zero, strict=True)),
            centre=cut.centre and tuple(a - b for a, b in zip(cut.centre, zero[:2], strict=True)),
        )
        for cut in round_it(-0.5).cuts
    ]
    front = next(f for f in prove_seated(program(shifted), target).findings if f.code == "P711")
    assert (front.x, front.y, front.z) == pytest.approx((80.0, 32.7 - 2.7, 0.0), abs=0.01)


def test_the_travel_counts_too():
    target = replace(HELD, travel_at=Travel(x=50.0))
    for goes, expected in ((100.1, []), (99.9, ["P821"])):
        machine = Machine(travel=Travel(x=goes))
        assert codes(round_it(1.0), target, machine=machine) == expected


def scene(pen, target=HELD):
    return seated_scene(
        program(pen),
        target,
        limits=Limits(),
        drive=drive_of(Machine(), target.units),
        others=(),
        machine=Machine(),
    )


def test_what_is_taken_off_ends_at_the_part_s_underside():
    """10 mm under its top, though the cutter goes on into the gap."""
    target = replace(HELD, cutters=(replace(CENTRE, dia=5.0),))
    pen = Pen().rapid(0.0, 0.0).rapid(z=10.0).feed(z=-9.0).rapid(z=10.0)
    figures = prove_seated(program(pen), target).figures
    assert figures.volume == pytest.approx(math.pi * 2.5**2 * 10.0, rel=0.02)
    assert (figures.gouge, figures.floor_error, figures.levels) == (0.0, None, ())


def test_the_report_says_how_the_part_is_taken_and_what_is_not_judged():
    figures = prove_seated(program(round_it(1.0)), HELD).figures
    part = "the part: solid, all of its silhouette from its underside up to its top"
    assert part in figures.untold
    assert not any("spacer" in words for words in figures.untold)
    assert figures.unjudged[0] == "what is left of the part, and whether it stays gripped"
    assert figures.needs[0].flutes == pytest.approx(3.0)


def test_holes_that_the_drawing_shows_count_as_material():
    target = replace(HELD, holes=(((3.0, 0.0, 1.0), (-3.0, 0.0, 1.0)),))
    thin = replace(target, cutters=(replace(MILL, dia=2.0),))
    pen = Pen().rapid(0.0, 0.0).rapid(z=10.0).rapid(z=0.0).rapid(z=10.0)
    assert codes(pen, thin) == ["P501"]
    assert shapely.area(scene(pen, thin).solid) == pytest.approx(math.pi * 225.0, rel=1e-4)
