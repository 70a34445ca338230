"""The job file to start from is itself a job that loads."""

import re

import pytest

from jawcam.errors import InputError
from jawcam.job import keys
from jawcam.job.template import TEMPLATES, template

OPTIONAL = re.compile(r"^#(?=\[\[?[a-z.]+\]|[a-z_]+ = )", re.MULTILINE)


@pytest.mark.parametrize("kind", TEMPLATES)
def test_a_template_loads_once_its_drawing_stands_beside_it(jobs, kind):
    (jobs.folder / "part.dxf").touch()
    job = jobs.load(template(kind))
    assert job.setups[0].cut == kind


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


def test_the_jaws_template_shows_every_key():
    text = OPTIONAL.sub("", template("jaws"))
    shown = set(re.findall(r"^([a-z_]+) = ", text, re.MULTILINE))
    shown |= set(re.findall(r"^\[\[?(?:setup\.)?([a-z]+)", text, re.MULTILINE))
    assert set(names(keys.JOB)) - shown == {"corner_radius"}  # of no use for jaws yet


def test_an_unknown_template_is_refused():
    with pytest.raises(InputError, match=r"'?jwas(.|\n)*did you mean jaws\?"):
        template("jwas")
    with pytest.raises(InputError, match="there is jaws"):
        template("turned")
