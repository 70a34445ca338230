"""The job file to start from is itself a job that loads."""

import re

import pytest

from jawcam.errors import InputError
from jawcam.job import jaw_keys, keys, part_keys, turn_keys
from jawcam.job.template import TEMPLATES, template

OPTIONAL = re.compile(r"^#(?=\[\[?[a-z._]+\]|[a-z_]+ = )", re.MULTILINE)


@pytest.mark.parametrize("kind", TEMPLATES)
def test_a_template_loads_once_its_drawing_stands_beside_it(jobs, kind):
    (jobs.folder / "part.dxf").touch()
    job = jobs.load(template(kind))
    assert bool(job.part.turned) == (kind != "jaws")
    assert bool(job.setups) == (kind != "lathe")
    assert bool(job.turnings) == (kind == "lathe")


@pytest.mark.parametrize("kind", TEMPLATES)
def test_a_template_loads_with_all_that_may_be_added(jobs, kind):
    (jobs.folder / "part.dxf").touch()
    text, added = OPTIONAL.subn("", template(kind))
    assert added > 30
    assert jobs.load(text)


def names(declared):
    for key in declared:
        yield key.name
        yield from names(key.keys)
        for _, keys_of_form in key.forms:
            yield from names(keys_of_form)


def shown(kind):
    text = OPTIONAL.sub("", template(kind))
    keys_shown = set(re.findall(r"^(?:# or )?([a-z_]+) = ", text, re.MULTILINE))
    keys_shown |= set(re.findall(r"[{,] ([a-z_]+) = ", text))
    keys_shown |= set(re.findall(r"^# (layers|profile|axis|end_a) = ", text, re.MULTILINE))
    return keys_shown | set(re.findall(r"^\[\[?(?:setup\.)?([a-z_]+)", text, re.MULTILINE))


OF_TURNED_PARTS = {
    *("turned", "bore", "len", "chamfer", "round", "limits", "thread"),
    *("lie", "size", "step"),
    *("profile", "axis", "end_a"),
}


def test_the_templates_show_every_key():
    every = set(names(keys.JOB)) - {"corner_radius"}  # of no use for jaws yet
    lathe = {"lathe_travel", *names(turn_keys.SETUP), *names(jaw_keys.SETUP)}
    for _, of_kind in part_keys.TOOL_FORMS:
        lathe |= set(names(of_kind))
    assert every - shown("jaws") - lathe == OF_TURNED_PARTS - lathe
    assert every - shown("jaws") - shown("turned") - shown("lathe") == set()
    of_cutters = set(names(part_keys.TOOL))  # which drills have too
    assert lathe - shown("lathe") == of_cutters - shown("lathe")


def test_the_turned_template_is_for_two_stations_of_one_program(jobs):
    job = jobs.load(template("turned"))
    assert job.together
    assert [(setup.hold.flip, setup.work_offset) for setup in job.setups] == [(True, 1), (False, 2)]
    assert job.part.thickness == 60
    assert job.setups[1].fit.letters == "H7/g6"


def test_the_lathe_template_turns_both_ends(jobs):
    job = jobs.load(template("lathe"))
    assert [(one.end, one.reach) for one in job.turnings] == [("B", 20), ("A", 32)]
    assert sum(one.reach for one in job.turnings) == job.part.thickness
    kinds = {"turning", "boring", "grooving", "threading", "drill", "centre drill"}
    assert {tool.kind for tool in job.turners} == kinds
    assert job.order == ("end-b", "end-a")


def test_an_unknown_template_is_refused():
    with pytest.raises(InputError, match=r"'?jwas(.|\n)*did you mean jaws\?"):
        template("jwas")
    with pytest.raises(InputError, match="there is jaws, turned and lathe"):
        template("engraving")
