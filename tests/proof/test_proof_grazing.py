"""Moves that only touch a height."""

from __future__ import annotations

import pytest
from proof_pen import TARGET

from jawcam.proof.prove import prove
from jawcam.reader.read import read

HELIX = """%
G21 G17 G90 G94 G40
T3 M6
S8000 M3
G0 X3 Y0
G43 H3 Z5
Z0.5
G3 X3 Y0 Z{first} I-3 J0 F400
G3 X3 Y0 Z-0.4 I-3 J0
G0 Z5
M5
M30
%
"""


@pytest.mark.parametrize("first", ["-0.001", "0", "-0.0005"])
def test_a_helix_that_ends_a_turn_right_at_a_limit_is_judged(first):
    program = read(HELIX.format(first=first), "rs274ngc-mill", "helix.nc")
    assert program.faults == ()
    assert prove(program, TARGET).findings
