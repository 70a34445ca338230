"""Every program of every sample in every post of its kind of machine, each a text that a person can
read, and one job in all posts: the same cuts, and what differs."""

from __future__ import annotations

import functools
import math
from dataclasses import replace

import pytest
from post_paths import assert_same
from sample_programs import DIALECTS, SAMPLES, planned

from jawcam.motion.moves import ArcFeed, Drill, LineFeed, ThreadCut
from jawcam.post.write import write
from jawcam.reader.read import read
from jawcam.resources import folder

GOLDEN = folder("samples").parent / "tests" / "golden" / "samples"
PAIRS = [
    pytest.param(sample, post, id=f"{sample}-{post}") for sample in SAMPLES for post in DIALECTS
]


def programs(sample, post):
    """Those of a sample that a post is for."""
    return [program for program in planned(sample) if post in program.posts]


def files(sample, post):
    return {f"{sample}/{program.name}.{post}.nc": program for program in programs(sample, post)}


@pytest.mark.parametrize(("sample", "post"), PAIRS)
def test_every_sample_in_every_post_as_text(golden, sample, post, pytestconfig):
    def check(text):
        if pytestconfig.getoption("--update-goldens") and not text.startswith("refused\n"):
            got = read(text, DIALECTS[post].control)
            assert got.faults == ()
            assert got.ended

    for name, program in files(sample, post).items():
        golden(f"samples/{name}", program.text(post), check)


def test_no_text_is_left_of_what_is_no_longer_written():
    wanted = {
        name for sample, post in (pair.values for pair in PAIRS) for name in files(sample, post)
    }
    found = {str(path.relative_to(GOLDEN)) for path in GOLDEN.rglob("*.nc")}
    assert found == wanted


@functools.cache
def one_job(sample, post):
    """The program of a job with one, without pecks, whose way back is the control's own: its
    motions, text and what is read of it."""
    (program, *_) = programs(sample, post)
    motions = tuple(
        replace(motion, peck=None) if isinstance(motion, Drill) else motion
        for motion in program.motions
    )
    text = write(motions, DIALECTS[post], units=program.units)
    return program, motions, text, read(text, DIALECTS[post].control)


def farthest_turned(motions, program, step):
    """The same for a lathe, at the ends of its cuts: each in its order among those read."""
    ends, worst = iter(program.cuts), 0.0
    for motion in motions:
        if not isinstance(motion, LineFeed | ArcFeed | ThreadCut):
            continue
        z, x, _ = motion.to
        off = next(
            (
                max(abs(cut.end[0] - x), abs(cut.end[2] - z))
                for cut in ends
                if cut.kind != "rapid" and math.hypot(cut.end[0] - x, cut.end[2] - z) < step
            ),
            None,
        )
        assert off is not None, f"{motion} is not in the text"
        worst = max(worst, off)
    return worst


def row(sample, post):
    """A line of the table: how the job is written, and how far that lies off what was planned."""
    dialect = DIALECTS[post]
    program, motions, text, got = one_job(sample, post)
    assert got.faults == ()
    step = program.units.in_mm * 10.0 ** -dialect.numbers.decimals.of(program.units)
    if program.kind == "mill":
        off = assert_same(got, motions, dialect, program.units)
    else:
        off = farthest_turned(motions, got, step)
    kinds = [cut.kind for cut in got.cuts]
    return (
        f"{post:24}  {len(text.splitlines()):6}  {len(text):6}  {kinds.count('line'):6}"
        f"  {kinds.count('arc'):5}  {1000 * step:4.0f}  {1000 * off:7.1f}"
    )


HEAD = "{:24}  {:>6}  {:>6}  {:>6}  {:>5}  {:>4}  {:>7}".format(
    "post", "lines", "chars", "cuts", "arcs", "step", "off um"
)


@pytest.mark.parametrize("sample", ["bearing-bracket", "burr-spindle"])
def test_one_job_is_the_same_cuts_in_all_posts_but_for_rounding(golden, sample):
    """Each leg that was planned, in its order, within what the post can write: 1.8 steps, and where
    arcs are written as lines, the post's chord. The table says how far at worst."""
    posts = programs(sample, planned(sample)[0].posts[0])[0].posts
    table = [HEAD, *(row(sample, post) for post in posts)]
    golden(f"samples/{sample}/all-posts.txt", "\n".join(table) + "\n")


def tools_and_speeds(program):
    return [
        (cut.tool, round(cut.rpm), cut.work_offset) for cut in program.cuts if cut.kind != "rapid"
    ]


@pytest.mark.parametrize("sample", ["bearing-bracket", "burr-spindle"])
def test_all_posts_cut_with_the_same_tools_speeds_and_offsets_in_the_same_order(sample):
    posts = planned(sample)[0].posts
    told = {tuple(dict.fromkeys(tools_and_speeds(one_job(sample, post)[3]))) for post in posts}
    assert len(told) == 1
