"""Both ends of a turned part from the drawing of its half profile to proven programs."""

import math

import pytest
from whole_profile import SAMPLE, both_jobs, plain_table
from whole_turned import POSTS, made_from

from jawcam.errors import InputError
from jawcam.part.half import AS_DRAWN


@pytest.fixture(scope="module")
def jobs(tmp_path_factory):
    """The plain table, and the same job with a drawing in its place."""
    text = plain_table(SAMPLE.read_text(encoding="utf-8"), ["turned profile"])
    assert text.count("[[setup]]") == 2
    return both_jobs(tmp_path_factory.mktemp("profile"), text)


@pytest.fixture(scope="module", params=POSTS)
def ends(request, jobs):
    """Both jobs' ends in each dialect."""
    return [made_from(path, request.param) for path in jobs]


def test_both_ends_of_a_drawing_are_proven_in_every_dialect(ends):
    _, drawn = ends
    assert list(drawn) == ["spindle-end-b", "spindle-end-a"]
    for made in drawn.values():
        assert made.proven
        assert made.report.figures.gouge <= 0.002
        assert not [one for one in made.report.findings if one.grade == "stop"]


def test_the_drawing_is_the_half_section_of_its_table(ends):
    for tabled, drawn in zip(*(each.values() for each in ends), strict=True):
        pairs = zip(drawn.target.finished, tabled.target.finished, strict=True)
        assert all(one == pytest.approx(other, abs=1e-5) for one, other in pairs)
        assert drawn.target.finished_to == pytest.approx(tabled.target.finished_to, abs=1e-5)
        assert drawn.target.threads == ()


def test_the_programs_are_those_of_the_table(ends):
    """But for a line in the head, that a drawing says no limits and no threads."""
    tabled, drawn = ends
    for one, other in zip(drawn.values(), tabled.values(), strict=True):
        assert blocks(one.text) == blocks(other.text)
        assert AS_DRAWN in one.notes
        assert AS_DRAWN not in other.notes


def blocks(text):
    return [line for line in text.splitlines() if not line.startswith("(")]


def test_a_bore_is_told_in_the_table_beside_a_drawing(jobs):
    """Drilled through: the whole drill goes a millimetre farther than the drawing is long."""
    texts, point = [], 4 / math.tan(math.radians(118 / 2))
    for path in jobs:
        text = path.read_text(encoding="utf-8")
        first, end = text.index("[[tool]]"), text.index('end = "B"\n')
        drill = '[[tool]]\nnumber = 8\nkind = "drill"\ndia = 8\n\n'
        bored = path.with_name(f"bored-{path.name}")
        told = f"bore = [{{ dia = 8, len = 82 }}]\n\n{drill}"
        asked = "drill = { tool = 8 }\n"
        bored.write_text(
            text[:first] + told + text[first:end] + asked + text[end:], encoding="utf-8"
        )
        made = made_from(bored, None)["spindle-end-b"]
        assert made.proven
        lowest = min(cut.end[2] for cut in made.program.cuts)
        assert lowest == pytest.approx(-(82 + 1 + point), abs=0.001)
        texts.append(made.text)
    assert blocks(texts[0]) == blocks(texts[1])


def test_a_job_parted_off_a_bar_is_proven_from_its_drawing(jobs):
    _, drawn = jobs
    text = drawn.read_text(encoding="utf-8")
    start = text.index('[[setup]]\nname = "spindle-end-a"')
    parting = '[[tool]]\nnumber = 9\nkind = "parting"\nwidth = 2\nradius = 0.1\nreach = 18\n\n'
    path = drawn.with_name("bar.toml")
    first = text.index("[[setup]]")
    path.write_text(
        text[:first] + parting + text[start:] + "part_off = { tool = 9 }\n", encoding="utf-8"
    )
    (made,) = made_from(path, None).values()
    assert made.proven
    assert made.target.parted == pytest.approx(-82)


def test_a_fault_of_the_drawing_is_told_once_with_its_place(jobs):
    _, drawn = jobs
    path = drawn.with_name("lost.toml")
    path.write_text(
        drawn.read_text(encoding="utf-8").replace("PROFILE", "PROFIL"), encoding="utf-8"
    )
    with pytest.raises(InputError) as caught:
        made_from(path, None)
    (fault,) = caught.value.faults
    assert "PROFILE" in fault.mend
