"""The shipped posts, each as a whole text that a person has read."""

from __future__ import annotations

import pytest
from post_cases import EVERY_KIND, ZERO, text_of
from post_mini_reader import read

from jawcam.post.dialect import load, names
from jawcam.units import Units


@pytest.mark.parametrize("units", Units)
@pytest.mark.parametrize("name", names())
def test_every_kind_of_motion_as_text(golden, name, units):
    text = text_of(EVERY_KIND, load(name), units, ZERO)
    golden(f"post-{name}-{units.value}.nc", text, read)
