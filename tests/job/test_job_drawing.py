"""The drawing stands beside the job, or is named as a fault."""

import os

import pytest

WAYS_OUT = ["../other.dxf", "sub/../../other.dxf", "..", "../jobs/../other.dxf"]


@pytest.fixture
def outside(tmp_path_factory):
    """Name a drawing in another folder, as an absolute path."""
    other = tmp_path_factory.mktemp("elsewhere") / "other.dxf"
    other.touch()
    return other


def with_outline(good, name):
    return good.replace('"lever.dxf"', f"'{name}'")


def test_a_drawing_beside_the_job_or_below_it_is_found(jobs, good):
    assert jobs.load(good).part.outline == jobs.folder / "lever.dxf"
    (jobs.folder / "sub").mkdir()
    (jobs.folder / "sub" / "a.dxf").touch()
    job = jobs.load(with_outline(good, "sub/a.dxf"))
    assert job.part.outline == jobs.folder / "sub" / "a.dxf"


@pytest.mark.parametrize("name", WAYS_OUT)
def test_a_way_out_of_the_folder_is_refused(jobs, good, name):
    (jobs.folder.parent / "other.dxf").touch()
    (fault,) = jobs.faults(with_outline(good, name))
    assert fault.place.key == "part.outline"
    assert "outside the job's folder" in fault.what
    assert "--outside" in fault.mend
    assert "beside the job" in fault.mend


def test_an_absolute_path_is_refused_even_if_it_leads_inside(jobs, good, outside):
    for path in (outside, jobs.folder / "lever.dxf"):
        (fault,) = jobs.faults(with_outline(good, path))
        assert "outside the job's folder" in fault.what


def test_a_link_out_of_the_folder_is_refused(jobs, good, outside):
    (jobs.folder / "linked.dxf").symlink_to(outside)
    (jobs.folder / "sub").symlink_to(outside.parent, target_is_directory=True)
    for name in ("linked.dxf", "sub/other.dxf"):
        (fault,) = jobs.faults(with_outline(good, name))
        assert "outside the job's folder" in fault.what


def test_a_link_inside_the_folder_is_no_fault(jobs, good):
    (jobs.folder / "linked.dxf").symlink_to(jobs.folder / "lever.dxf")
    assert jobs.load(with_outline(good, "linked.dxf"))


def test_outside_lets_the_drawing_lie_anywhere(jobs, good, outside):
    assert jobs.load(with_outline(good, outside), outside=True).part.outline == outside
    way = os.path.relpath(outside, jobs.folder)
    assert jobs.load(with_outline(good, way), outside=True).part.outline.samefile(outside)
    (fault,) = jobs.faults(with_outline(good, "../none.dxf"), outside=True)
    assert "does not exist" in fault.what


@pytest.mark.parametrize(
    ("name", "what", "mend"),
    [
        ("levr.dxf", "does not exist", "did you mean lever.dxf?"),
        ("LEVER.DXF", "does not exist", "did you mean lever.dxf?"),
        ("zzzzzz", "does not exist", "its folder holds lever.dxf"),
        ("no/such.dxf", "does not exist", "can't be read"),
        ("folder", "is a folder", ""),
        ("a" * 400, "can't be looked up", ""),
        ("turning", "can't be looked up", ""),
    ],
)
def test_a_drawing_that_is_not_there_names_the_one_meant(jobs, good, name, what, mend):
    (jobs.folder / "folder").mkdir()
    (jobs.folder / "turning").symlink_to("turning")
    (fault,) = jobs.faults(with_outline(good, name))
    assert what in fault.what
    assert mend in fault.mend


def test_the_drawing_is_looked_up_along_with_all_other_faults(jobs, good):
    faults = jobs.faults(with_outline(good, "levr.dxf").replace("dia = 8", "dia = 0"))
    assert {fault.place.key for fault in faults} == {"part.outline", "tool[1].dia"}
