"""The job file to start from is itself a job that loads."""

import re

import pytest

from jawcam.errors import InputError
from jawcam.job import keys
from jawcam.job.template import TEMPLATES, template

OPTIONAL = re.compile(r"^#(?=\[\[?[a-z._]+\]|[a-z_]+ = )", re.MULTILINE)


@pytest.mark.parametrize("kind", TEMPLATES)
def test_a_template_loads_once_its_drawing_stands_beside_it(jobs, kind):
    (jobs.folder / "part.dxf").touch()
    job = jobs.load(template(kind))
    assert {setup.cut for setup in job.setups} == {"jaws"}
    assert bool(job.part.turned) == (kind == "turned")


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


def shown(kind):
    text = OPTIONAL.sub("", template(kind))
    keys_shown = set(re.findall(r"^(?:# or )?([a-z_]+) = ", text, re.MULTILINE))
    keys_shown |= set(re.findall(r"[{,] ([a-z_]+) = ", text))
    keys_shown |= set(re.findall(r"^# (layers) = ", text, re.MULTILINE))
    return keys_shown | set(re.findall(r"^\[\[?(?:setup\.)?([a-z_]+)", text, re.MULTILINE))


OF_TURNED_PARTS = {
    *("turned", "bore", "len", "chamfer", "round", "limits", "thread"),
    *("lie", "size", "step"),
}


def test_the_templates_show_every_key():
    every = set(names(keys.JOB)) - {"corner_radius"}  # of no use for jaws yet
    assert every - shown("jaws") == OF_TURNED_PARTS
    assert every - shown("jaws") - shown("turned") == set()


def test_the_turned_template_is_for_two_stations_of_one_program(jobs):
    job = jobs.load(template("turned"))
    assert job.together
    assert [(setup.hold.flip, setup.work_offset) for setup in job.setups] == [(True, 1), (False, 2)]
    assert job.part.thickness == 60
    assert job.setups[1].fit.letters == "H7/g6"


def test_an_unknown_template_is_refused():
    with pytest.raises(InputError, match=r"'?jwas(.|\n)*did you mean jaws\?"):
        template("jwas")
    with pytest.raises(InputError, match="there is jaws and turned"):
        template("engraving")
