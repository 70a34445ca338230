"""The shipped posts, each as a whole text that a person has read."""

from __future__ import annotations

from functools import partial

import pytest
from lathe_cases import EVERY_KIND as EVERY_TURNING
from post_cases import EVERY_KIND, LATHES, MILLS, ZERO, load, text_of
from post_mini_reader import read
from post_styles import style_of

from jawcam.post.write import write
from jawcam.reader.read import read as read_as
from jawcam.units import Units


@pytest.mark.parametrize("units", Units)
@pytest.mark.parametrize("name", MILLS)
def test_every_kind_of_motion_as_text(golden, name, units):
    text = text_of(EVERY_KIND, load(name), units, ZERO)
    golden(f"post-{name}-{units.value}.nc", text, partial(read, style=style_of(name)))


@pytest.mark.parametrize("units", Units)
@pytest.mark.parametrize("name", LATHES)
def test_every_kind_of_turning_as_text(golden, name, units):
    dialect = load(name)

    def check(text):
        assert read_as(text, dialect.control).faults == ()

    golden(f"post-{name}-{units.value}.nc", write(EVERY_TURNING, dialect, units=units), check)
