"""Both ends of a turned part from the drawing of its half profile to proven programs."""

import math
import tomllib

import ezdxf
import pytest
from whole_jobs import MM, SAMPLES

import jawcam.make
from jawcam.geometry.shapes import Arc
from jawcam.job.load import load
from jawcam.part.profile import half_profile

SAMPLE = SAMPLES / "burr-spindle.toml"
POSTS = ("rs274ngc-lathe", "iso6983-lathe")


def plain_table(text):
    """The sample's turning alone, without what a drawing doesn't say: threads, limits, the job's
    own edge."""
    head, *setups = text.split("[[setup]]")
    head = head.replace(', thread = "M12x1.75 6g"', "").replace(", limits = [0, -0.018]", "")
    head = head.replace("edge = 0.2 ", "edge = 0 ")
    part = tomllib.loads(head)["part"]
    assert part["edge"] == 0
    assert not any({"thread", "limits"} & piece.keys() for piece in part["turned"])
    turning = [one for one in setups if 'cut = "turned profile"' in one]
    assert len(turning) == 2
    return "[[setup]]".join([head, *turning])


def drawing_of(segments, layer):
    """The half profile drawn above a centre line, from left to right."""
    document = ezdxf.new("R2010", units=MM)
    document.linetypes.add("CENTER", pattern=[2.0, 1.25, -0.25, 0.25, -0.25])
    space = document.modelspace()
    for segment in segments:
        if isinstance(segment, Arc):
            angles = [
                math.degrees(math.atan2(y - segment.centre[1], x - segment.centre[0]))
                for x, y in (segment.start, segment.end)
            ]
            radius = math.dist(segment.start, segment.centre)
            ends = angles if segment.ccw else reversed(angles)
            space.add_arc(segment.centre, radius, *ends, dxfattribs={"layer": layer})
        else:
            space.add_line(segment.start, segment.end, dxfattribs={"layer": layer})
    space.add_line((-5, 0), (95, 0), dxfattribs={"layer": layer, "linetype": "CENTER"})
    return document


@pytest.fixture(scope="module")
def jobs(tmp_path_factory):
    """The plain table, and the same job with a drawing in its place."""
    folder = tmp_path_factory.mktemp("profile")
    table, drawn = folder / "table.toml", folder / "drawn.toml"
    text = plain_table(SAMPLE.read_text(encoding="utf-8"))
    table.write_text(text, encoding="utf-8")
    job = load(table)
    drawing_of(half_profile(job.part.turned, units=job.units, place=str), "PROFILE").saveas(
        folder / "spindle.dxf"
    )
    start, end = text.index("turned = ["), text.index("[[tool]]")
    text = text[:start] + 'profile = "spindle.dxf"\nlayer = "PROFILE"\n\n' + text[end:]
    drawn.write_text(text, encoding="utf-8")
    return table, drawn


def make(path, post=None):
    made = jawcam.make.make(path, shown=path.name, post=post, setups=(), outside=False)
    return {one.setup.name: one for one in made}


@pytest.fixture(scope="module", params=POSTS)
def ends(request, jobs):
    """Both jobs' ends in each dialect."""
    return [make(path, request.param) for path in jobs]


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
    tabled, drawn = ends
    assert [made.text for made in drawn.values()] == [made.text for made in tabled.values()]


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
        made = make(bored)["spindle-end-b"]
        assert made.proven
        lowest = min(cut.end[2] for cut in made.program.cuts)
        assert lowest == pytest.approx(-(82 + 1 + point), abs=0.001)
        texts.append(made.text)
    assert texts[0] == texts[1]


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
    (made,) = make(path).values()
    assert made.proven
    assert made.target.parted == pytest.approx(-82)


def test_a_fault_of_the_drawing_is_told_once_with_its_place(jobs):
    _, drawn = jobs
    path = drawn.with_name("lost.toml")
    path.write_text(
        drawn.read_text(encoding="utf-8").replace("PROFILE", "PROFIL"), encoding="utf-8"
    )
    with pytest.raises(jawcam.errors.InputError) as caught:
        make(path)
    (fault,) = caught.value.faults
    assert "PROFILE" in fault.mend
