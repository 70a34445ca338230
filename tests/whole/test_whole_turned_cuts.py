"""Kinds of cut on the lathe, each in a whole job of its own: proven in both dialects."""

import math

import pytest
from whole_turned import POSTS, SPINDLE, made, stops

from jawcam.errors import InputError
from jawcam.job.template import template

PIN = """\
title = "Pin of the crank knob, parted off"
units = "mm"

[part]
material = "brass 360"
edge = 0.2
turned = [ { dia = 10, len = 12, chamfer = 0.5 }, { dia = 16, len = 8, round = 1 },
           { dia = 12, len = 6 } ]

[[tool]]
number = 1
kind = "turning"
insert = "DCMT11T304"
approach = 93

[[tool]]
number = 3
kind = "grooving"
width = 2
radius = 0.1
reach = 12

[[tool]]
number = 5
kind = "parting"
width = 2
radius = 0.1
reach = 12

[[setup]]
name = "pin"
cut = "turned profile"
post = "rs274ngc-lathe"
end = "A"
stock = { dia = 18, allowance = 0.5 }
chuck = { grip = 30 }
part_off = { tool = 5, edge = 0.3 }
"""


def spindle(changes):
    """The sample's two ends with one more line each."""
    first, *setups = SPINDLE.split("[[setup]]")
    ends = [one for one in setups if 'cut = "turned profile"' in one]
    return "[[setup]]".join([first, *(f"{one.rstrip()}\n{changes}\n\n" for one in ends)])


@pytest.mark.parametrize("post", POSTS)
def test_a_pin_is_turned_and_parted_off_its_bar(post):
    """26 mm long: the parting insert's corner towards the part stands at Z -26 in the end."""
    one = made(PIN, post)["pin"]
    assert stops(one) == []
    last = [cut for cut in one.program.cuts if cut.tool == 5 and cut.kind == "line"][-1]
    assert last.end[2] == pytest.approx(-26 - 2)
    assert last.end[0] == pytest.approx(-0.1)  # past the axis by the corner's radius


def test_the_parted_edge_is_broken_as_asked():
    """A chamfer of 0.3 mm: from radius 6 to 5.7 at Z -26, the insert's corner of 0.1 along it."""
    one = made(PIN, POSTS[0])["pin"]
    rows = [(z, x) for z, x, _ in one.target.finished]
    assert (pytest.approx(-25.7), pytest.approx(6.0)) in rows
    assert (pytest.approx(-26.0), pytest.approx(5.7)) in rows


@pytest.mark.parametrize("post", POSTS)
def test_a_bush_is_drilled_and_bored(post):
    ends = made(template("lathe"), post)
    assert [stops(one) for one in ends.values()] == [[], []]
    assert any(cut.tool == 5 for cut in ends["end-b"].program.cuts)  # the boring tool


@pytest.mark.parametrize("post", POSTS)
@pytest.mark.parametrize("way", ["along", "profile"])
def test_roughing_goes_either_way(post, way):
    ends = made(spindle(f'rough = {{ way = "{way}" }}'), post)
    assert [stops(one) for one in ends.values()] == [[], []]


@pytest.mark.parametrize("post", POSTS)
def test_the_control_may_compensate_the_nose(post):
    """The text then holds the profile itself: the collar at X 30."""
    ends = made(spindle('finish = { compensation = "control" }'), post)
    assert [stops(one) for one in ends.values()] == [[], []]
    for one in ends.values():
        led = [cut for cut in one.program.cuts if cut.side != "off"]
        assert led
        assert any(math.isclose(cut.end[0], 15.0, abs_tol=1e-3) for cut in led)


def test_a_roughness_asked_for_sets_the_feed():
    """f = sqrt(32 r Ra): Ra 1.6 with a nose of 0.4 mm; of the finishing cuts alone."""
    ends = made(spindle("finish = { surface_ra = 1.6 }"), POSTS[0])
    feed = math.sqrt(32 * 0.4 * 1.6e-3)
    for one in ends.values():
        begun = one.text.splitlines().index("(finishing the face)")
        cuts = [c for c in one.program.cuts if c.tool == 2 and c.kind != "rapid" and c.line > begun]
        assert {round(cut.feed, 2) for cut in cuts} == {round(feed, 2)}


def test_a_thread_in_the_bore_is_refused_by_its_place():
    """It ends where the bore gets narrower: it has no relief."""
    text, bore = template("lathe"), "{ dia = 14, len = 16 }"
    assert text.count(bore) == 1
    threaded = bore.replace("16 }", '16, thread = "M14x1.5" }')
    with pytest.raises(InputError, match=r"part\.bore\[2\]\.thread: M14x1\.5 has no relief"):
        made(text.replace(bore, threaded), None)


def test_no_place_is_named_that_another_tool_has_cut():
    """The grooving tool finishes the valleys that the finisher's nose gets into as well."""
    for one in made(spindle(""), POSTS[0]).values():
        found = [finding for finding in one.report.findings if finding.code == "T302"]
        assert len(one.target.left) == len(found) > 0


def test_the_finisher_roughs_what_the_rougher_does_not_get_into():
    """In the undercut, dia 9.5 between 11.8 and 18: passes with stock to leave, then finishing."""
    one = made(spindle(""), POSTS[0])["spindle-end-a"]
    lines = one.text.splitlines()
    marks = [lines.index(f"({name})") for name in ("roughing deeper", "finishing the face")]
    deeper = [c for c in one.program.cuts if marks[0] < c.line <= marks[1] and c.kind != "rapid"]
    assert deeper
    assert {cut.tool for cut in deeper} == {2}
    assert min(cut.end[0] for cut in deeper) == pytest.approx(9.5 / 2 + 0.2, abs=1e-3)
    assert all(-20 < cut.end[2] < -13 for cut in deeper)


def test_one_insert_for_both_roughs_once():
    both = spindle("rough = { tool = 2 }\nfinish = { tool = 2 }")
    one = made(both, POSTS[0])["spindle-end-a"]
    assert stops(one) == []
    assert "(roughing deeper)" not in one.text


COLLARED = """turned = [
    { dia = 10, len = 10 }, { dia = 16, len = 6 }, { dia = 9, len = 12 },
]"""


def test_nothing_but_the_parting_tool_cuts_under_the_parted_rim():
    """Behind a collar the finisher goes down as steep as its back lets it, past the face that is
    parted off: there no deeper than the part is thick."""
    begin, end = PIN.index("turned = ["), PIN.index("]", PIN.index("turned = [")) + 1
    one = made(PIN[:begin] + COLLARED + PIN[end:], POSTS[0])["pin"]
    assert stops(one) == []
    behind = [c for c in one.program.cuts if c.tool != 5 and c.end[2] < -28 and c.kind != "rapid"]
    assert behind
    assert min(cut.end[0] for cut in behind) >= 4.5 - 0.3 - 1e-3


def casting(text, over=2):
    """The same from stock that is cast or forged so far over the part."""
    bar = "stock = { dia = 32, allowance = 1 }"
    assert bar in text
    return text.replace(bar, f"stock = {{ dia = 40, allowance = {over}, over = {over} }}")


@pytest.mark.parametrize("post", POSTS)
def test_a_casting_is_roughed_parallel_to_its_profile(post):
    """The spindle's collar is 15 mm in radius, its ends 10 and 6: the casting 2 mm more."""
    ends = made(casting(spindle("")), post)
    assert [stops(one) for one in ends.values()] == [[], []]
    one = ends["spindle-end-b"]
    rows = [(z, x) for z, x, _ in one.target.stock]
    assert max(z for z, _ in rows) == pytest.approx(2)
    assert max(x for _, x in rows) == pytest.approx(17)
    assert any(x == pytest.approx(12) and -18 <= z <= 0 for z, x in rows)
    # one layer is enough: on the cylinder of end B the rougher feeds once
    along = [
        cut
        for cut in one.program.cuts
        if cut.tool == 1
        and cut.kind == "line"
        and cut.start[0] == cut.end[0] < 15
        and cut.start[2] - cut.end[2] > 10
    ]
    assert [round(cut.end[0], 3) for cut in along] == [10.2]


def test_a_casting_may_be_roughed_along_z_too():
    ends = made(casting(spindle('rough = { way = "along" }')), POSTS[0])
    assert [stops(one) for one in ends.values()] == [[], []]


def test_a_casting_is_no_bar_to_part_off():
    bar = "stock = { dia = 18, allowance = 0.5 }"
    assert bar in PIN
    with pytest.raises(InputError, match=r"stock\.over: what is cast or forged") as caught:
        made(PIN.replace(bar, bar.replace(" }", ", over = 2 }")), None)
    assert [fault.place.key for fault in caught.value.faults] == ["setup[1].stock.over"]
