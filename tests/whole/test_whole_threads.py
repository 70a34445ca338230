"""Threads from the job file to proven programs, outside and inside, straight and tapered, in both
dialects; and programs in which one thing was made wrong."""

import itertools
import math
import re

import pytest
from whole_jobs import job_with
from whole_judged import turned
from whole_threads import JOBS, NUT, PIPE, STARTS, STARTS_INSIDE, THROUGH
from whole_told import refused
from whole_turned import POSTS, made, stops

H = math.sqrt(3) / 2


def passes(one):
    return [cut for cut in one.program.cuts if cut.lead]


def last(one):
    """The last pass: from where to where along Z, and the diameters there."""
    cut = passes(one)[-1]
    return (cut.start[2], 2 * cut.start[0]), (cut.end[2], 2 * cut.end[0])


@pytest.mark.parametrize("post", POSTS)
@pytest.mark.parametrize("name", JOBS)
def test_a_thread_is_proven(name, post):
    """With its thread in the target, cut once, and nothing gouged."""
    ends = made(JOBS[name], post)
    assert [stops(one) for one in ends.values()] == [[] for _ in ends]
    one = ends["nut"]
    (thread,) = one.target.threads
    assert thread.inside == ("inside" in name or "nut" in name or name in ("through", "second end"))
    for cut in passes(one):
        assert cut.lead == pytest.approx(thread.starts * thread.pitch, abs=1e-4)
    assert one.report.figures.gouge <= (0.00508 if "inch" in name else 0.002)


# M12x1.75 6H: minor 10.106 to 10.441, pitch 10.863 to 11.063 (ISO 965-2, from memory); a point
# P/8 wide cuts to 3/4 H above the pitch diameter.
def test_the_bore_and_the_root_of_m12_lie_amid_their_limits():
    one = made(NUT, POSTS[0])["nut"]
    (_, root), (end, _) = last(one)
    assert root == pytest.approx((10.863 + 11.063) / 2 + 0.75 * H * 1.75, abs=2e-3)
    walls = [2 * x for z, x, _ in one.target.finished if -9 <= z <= -1]
    assert pytest.approx((10.106 + 10.441) / 2, abs=1e-3) in walls
    # it begins three leads in front and runs out into the relief, which is 4 mm long
    assert passes(one)[-1].start[2] == pytest.approx(-1 + 3 * 1.75, abs=1e-3)
    assert -13 < end < -9 - 1.75 / 4


def test_the_relief_is_cut_before_the_thread():
    one = made(NUT, POSTS[0])["nut"]
    order = list(dict.fromkeys(cut.tool for cut in one.program.cuts))
    assert order.index(5) < order.index(9) < order.index(7) < order.index(8)
    cuts = [cut for cut in one.program.cuts if cut.tool == 9 and cut.kind == "line"]
    deepest = max(cut.end[0] for cut in cuts)
    assert deepest == pytest.approx(6.3)


def test_through_a_bar_the_thread_ends_where_it_is_parted():
    """The bore goes on a millimetre behind the part, the thread does not."""
    one = made(THROUGH, POSTS[0])["nut"]
    assert last(one)[1][0] == pytest.approx(-16)
    assert min(cut.end[2] for cut in one.program.cuts if cut.tool == 5) < -16.5


def test_through_the_end_that_is_done_it_runs_out_in_the_open():
    one = made(JOBS["second end"], POSTS[0])["nut"]
    assert last(one)[1][0] == pytest.approx(-30 - 1.75)
    assert 10.2 in {round(2 * x, 6) for _, x, _ in one.target.finished}  # as it was asked for


# R 1/2: a gauge diameter of 20.955 mm, 8.2 mm from the small end; 1 in 16 (ISO 7-1).
@pytest.mark.parametrize("post", POSTS)
def test_a_pipe_thread_tapers_one_in_sixteen(post):
    one = made(PIPE, post)["nut"]
    deep = 2 * 0.640327 * 25.4 / 14
    for cut in passes(one):
        (z0, x0), (z1, x1) = (cut.start[2], cut.start[0]), (cut.end[2], cut.end[0])
        assert 2 * (x1 - x0) / (z0 - z1) == pytest.approx(1 / 16, abs=2e-4)
    (z0, d0), _ = last(one)
    assert d0 + deep == pytest.approx(20.955 - (z0 + 8.2) / 16, abs=3e-3)


def test_an_inside_pipe_thread_has_its_gauge_diameter_at_its_mouth():
    one = made(JOBS["pipe inside"], POSTS[0])["nut"]
    (z0, d0), (z1, d1) = last(one)
    assert d0 - z0 / 16 == pytest.approx(20.955, abs=3e-3)
    assert (d0 - d1) / (z0 - z1) == pytest.approx(1 / 16, abs=2e-4)


@pytest.mark.parametrize(
    ("text", "starts", "lead", "words"),
    [
        (STARTS, 2, 5.0, "thread M20xPh5P2.5 6g, 2 starts, lead 5 mm"),
        (STARTS_INSIDE, 3, 4.5, "thread M16xPh4.5P1.5-6H, 3 starts, lead 4.5 mm"),
    ],
)
def test_several_starts_are_told_and_lie_a_pitch_apart(text, starts, lead, words):
    one = made(text, POSTS[0])["nut"]
    assert f"({words})" in one.text
    found = passes(one)
    full = [cut for cut in found if abs(cut.start[0] - found[-1].start[0]) < 1e-6]
    phases = sorted({round(cut.start[2] % lead, 3) for cut in full})
    assert len(phases) == starts
    assert [b - a for a, b in itertools.pairwise(phases)] == [
        pytest.approx(lead / starts, abs=2e-3) for _ in phases[1:]
    ]
    # the slide is no faster than the machine's feeds may be, 5000 mm/min
    assert all(cut.rpm * lead <= 5000 for cut in found)


def test_a_gentle_infeed_spares_the_first_pass():
    """Depths a sqrt(phi / (N - 1)), phi = 0.3, 1, 2 ... (a maker's rule); one spring pass. The last
    of five takes more than 0.1 mm, which is told."""
    asked = NUT.replace("part_off =", 'thread = { infeed = "gentle", passes = 5 }\npart_off =')
    one = made(asked, POSTS[0])["nut"]
    assert stops(one) == []
    (thread,) = one.target.threads
    deep = [cut.start[0] - thread.first for cut in passes(one)]
    shares = [math.sqrt(phi / 4) for phi in (0.3, 1, 2, 3, 4, 4)]
    assert deep == pytest.approx([share * thread.depth for share in shares], abs=1e-3)
    assert any("its last pass takes 0.122 mm" in note for note in one.notes)


@pytest.mark.parametrize(
    ("name", "said"),
    [
        # M20x2.5: helix 2.480 degrees for one start; two rise twice as fast, tan 4.947 = 2 tan 2.48
        ("starts", "helix 4.9 degrees; try it with a gauge, or over three wires of 1.443 mm:"),
        ("nut", "helix 2.9 degrees; try it with a gauge"),
        ("pipe", "for an insert of its own profile; try it with a gauge"),
    ],
)
def test_how_to_measure_a_thread_is_told(name, said):
    one = made(JOBS[name], POSTS[0])["nut"]
    (note,) = [note for note in one.notes if "try it with a gauge" in note]
    assert said in note
    assert ("wires" in note) == (name == "starts")


# --- planted faults ----------------------------------------------------------------------------


def judged(one, text):
    return {finding.code for finding in turned(one, text).findings}


def last_changed(one, old, new):
    """The text with one thing changed in its last pass of a thread."""
    lines = one.text.splitlines()
    at = max(k for k, line in enumerate(lines) if line.startswith("G33"))
    lines[at], count = re.subn(old, new, lines[at])
    assert count == 1
    return "\n".join(lines) + "\n"


@pytest.mark.parametrize(
    ("name", "old", "new", "code"),
    [
        ("nut", r"K1\.75", "K1.7", "T403"),
        ("nut", r"Z-\S+", "Z-8.9", "T406"),
        ("nut", r"Z-\S+", "Z-12.5", "T203"),
        # a taper of 1 in 16.5 instead of 1 in 16, over the 21 mm of the pass
        ("pipe", r"X(\S+)", lambda found: f"X{float(found[1]) - 21 / 16 + 21 / 16.5:.3f}", "T410"),
        ("pipe", r"K1\.81429", "K1.814", "T403"),
        ("pipe inside", r"X(\S+)", lambda found: f"X{float(found[1]) + 0.01:.3f}", "T410"),
        # a straight thread that tapers by a hundredth
        ("starts", r"G33 ", "G33 X16.816 ", "T410"),
    ],
)
def test_a_little_wrong_turns_the_proof_red(name, old, new, code):
    one = made(JOBS[name], POSTS[0])["nut"]
    assert code not in {finding.code for finding in one.report.findings}
    assert code in judged(one, last_changed(one, old, new))


def test_an_inside_pass_a_hundredth_too_deep_turns_the_proof_red():
    one = made(NUT, POSTS[0])["nut"]
    root = f"X{last(one)[0][1]:.3f}".rstrip("0")
    assert root in one.text
    deeper = f"X{last(one)[0][1] + 0.02:.3f}"
    assert "T404" in judged(one, one.text.replace(f"{root}\n", f"{deeper}\n"))
    assert "T405" in judged(one, one.text.replace(f"{root}\n", f"X{last(one)[0][1] - 0.04:.3f}\n"))


# --- what can't be made ------------------------------------------------------------------------


RELIEF = "{ dia = 12.6, len = 4 }"
BLIND = 'dia = 12, len = 8, thread = "M12x1.75 6H" }'
BEHIND = "{ dia = 24, len = 6, chamfer = 0.5 }, "
BAR = 'least_bore = "9.5 mm"\nshank = "6.5 mm"'


@pytest.mark.parametrize(
    ("change", "place", "what", "mend"),
    [
        (
            (f", {RELIEF}", ""),
            "part.bore[2].thread",
            "M12x1.75 6H has no relief to run out in",
            "12.1 mm across or more",
        ),
        (
            (RELIEF, "{ dia = 11.5, len = 4 }"),
            "part.bore[2].thread",
            "M12x1.75 6H has no relief to run out in",
            "or let it go through",
        ),
        (
            (RELIEF, "{ dia = 12.6, len = 1.2 }"),
            "part.bore[2].thread",
            "the relief of M12x1.75 6H is too short: 1.2 mm behind it",
            "make the relief that long or longer",
        ),
        (
            ("dia = 12, len = 8", "dia = 11, len = 8"),
            "part.bore[2].dia",
            "the bore of M12x1.75 6H is 10.106 mm to 10.441 mm before its thread is cut, not 11 mm",
            "12 mm, the thread's own",
        ),
        (
            ("M12x1.75 6H", "M12x1.75 9H"),
            "part.bore[2].thread",
            "no limits here for class 9H",
            "a grade of 4, 5, 6, 7, 8",
        ),
        (
            (BAR, 'least_bore = "10.2 mm"\nshank = "6.5 mm"'),
            "setup[1]",
            "tool 7 takes a bore of 10.2 mm and 0.2 mm to draw back, this one is 10.273 mm",
            "take a smaller bar",
        ),
        (
            (BAR, 'least_bore = "9.5 mm"'),
            "setup[1]",
            "its shank is taken to be 20 mm thick",
            "give the shank of its bar",
        ),
        (
            (BAR, 'least_bore = "9.5 mm"\nshank = "8.5 mm"'),
            "setup[1]",
            "the edge of tool 7 stands 0.5 mm out of its bar",
            "take a slimmer bar",
        ),
        (
            (f'kind = "threading"\ninside = true\n{BAR}', 'kind = "threading"'),
            "setup[1]",
            "none of the tools cuts inside threads, and M12x1.75 6H is one",
            "inside = true",
        ),
        (
            ('shank = "6 mm"', 'shank = "8 mm"'),
            "setup[1]",
            "tool 5 is to go into a bore of 8 mm, and its shank is taken to be 8 mm thick",
            "give the shank",
        ),
        (
            (BEHIND, f'{{ dia = 20, len = 6, thread = "M20" }}, {BEHIND}'),
            "part.turned[1].thread",
            "M20 has no relief to run out in",
            "16.806 mm across or less",
        ),
        (
            (BEHIND, f'{BEHIND}{{ dia = 20, len = 6, thread = "M20" }}, {{ dia = 15, len = 4 }}, '),
            "setup[1]",
            "in front of the thread M20 is too little to come up to speed in",
            "make room",
        ),
    ],
)
def test_a_thread_that_cant_be_cut_is_told(say, tmp_path, change, place, what, mend):
    text = job_with(change, text=NUT.replace("pitch_angle = 60\n", ""))
    err = refused(say, tmp_path, text, None)
    assert err.count("error: ") == 1
    assert place in err
    assert what in err
    assert mend in err


def test_flanks_of_another_angle_are_told(say, tmp_path):
    err = refused(say, tmp_path, PIPE.replace("pitch_angle = 55", "pitch_angle = 60"), None)
    assert "tool 4 cuts flanks at 60 degrees, and those of R 1/2 are at 55" in err


@pytest.mark.parametrize(
    ("change", "what"),
    [
        (
            ('inside = true\nwidth = "1.5 mm"', 'width = "1.5 mm"'),
            "the relief of M12x1.75 6H is out of reach",
        ),
        (('kind = "grooving"\nwidth = "2 mm"', 'kind = "parting"\nwidth = "2 mm"'), "of R 1/2 is"),
    ],
)
def test_without_a_tool_for_its_relief_a_thread_is_not_cut(say, tmp_path, change, what):
    text = NUT.replace('least_bore = "9.5 mm"\nshank = "5 mm"\n', "") if "M12" in what else PIPE
    assert what in refused(say, tmp_path, job_with(change, text=text), None)
