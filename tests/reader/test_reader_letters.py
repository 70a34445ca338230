"""A small plate engraved with letters made of strokes.

The arcs have the centres and sweeps of those in the engraving of NISTIR 6556 appendix C.1; the
program and its layout are our own. All lengths were counted by hand from a sketch of the letters,
stroke by stroke, as written out below: straight strokes lie along the axes or are 3-4-5 triangles.
"""

from __future__ import annotations

import math

import pytest
from reader_help import ZERO

from jawcam.reader.read import read

PLATE = """
%
(Grinder plate: L, C with a bar, O, Z, o, n, D)
g21 g90 g17 (start above the corner at 0, 0, 2)
m3 s12000 f20

n1 g0 x0 y10     (L)
   g1 z-1
      y0
      x5
   g0 z2

n2 x13.5 y5      (C with a bar)
   g1 z-1
   g3 x16 y2.5 j-2.5
   g1 x13.5
   g0 z2

n3 x32.5 y5      (O)
   g1 z-1
   g2 x32.5 y5 i0 j-2.5
   g0 z2

n4 x38 y10       (Z)
   g1 z-1
   x46
   x40 y2
   x46
   g0 z2

n5 x57.5 y.5     (o)
   g1 z-1
   g2 y.5 j+2
   g0 z2

n6 g91 x6.5 y-.5 (n, in increments)
   g1 z-3
   y4
   g2 x5 i2.5 j-3.1225
   g1 y-4
   g0 g90 z2

n7 x79.5 y4      (D)
   g1 z-1
   g2 y1 r-1.5
   g1 y4
   g0 z2
m5
m2
%
""".strip()

# r of the arch of n: its ends lie 2.5 beside and 3.1225 above its centre.
ARCH = math.hypot(2.5, 3.1225)
ARCH_SWEEP = 2 * math.atan2(2.5, 3.1225)
STRAIGHT = (10 + 5) + 2.5 + (8 + 10 + 6) + (4 + 4) + 3
CURVED = (
    2.5 * 1.5 * math.pi + 2.5 * 2 * math.pi + 2 * 2 * math.pi + ARCH * ARCH_SWEEP + 1.5 * math.pi
)
PLUNGES = 7 * 3
LIFTS = 7 * 3
BETWEEN = (
    10
    + math.hypot(8.5, 5)  # L to C
    + math.hypot(19, 2.5)  # bar of the C to O
    + math.hypot(5.5, 5)  # O to Z
    + math.hypot(11.5, 1.5)  # Z to o
    + math.hypot(6.5, 0.5)  # o to n
    + math.hypot(10.5, 4)  # n to D
)


@pytest.fixture(name="program")
def _program():
    program = read(PLATE, "rs274ngc-mill", start=(0, 0, 2))
    assert program.faults == ()
    return program


def lengths(cuts):
    """The length of each move in mm."""
    for cut in cuts:
        radius = math.dist(cut.start[:2], cut.centre) if cut.centre else 0
        rise = cut.end[2] - cut.start[2]
        yield math.hypot(radius * cut.turn, rise) if cut.centre else math.dist(cut.start, cut.end)


def test_the_arcs_have_the_reports_sweeps_and_centres(program):
    """NISTIR 6556 appendix C.1: +270, -360, -360, -77.364 and -180 degrees."""
    arcs = [cut for cut in program.cuts if cut.kind == "arc"]
    sweeps = [math.degrees(cut.turn) for cut in arcs]
    assert sweeps == pytest.approx([270, -360, -360, -77.364, -180], abs=1e-3)
    centres = [place for cut in arcs for place in cut.centre]
    assert centres == pytest.approx(
        [13.5, 2.5, 32.5, 2.5, 57.5, 2.5, 66.5, 0.8775, 79.5, 2.5], abs=1e-9
    )


def test_the_moves_join_up(program):
    for one, following in zip(program.cuts, program.cuts[1:], strict=False):
        assert one.end == following.start


def test_the_feed_length_is_the_one_counted_by_hand(program):
    feeds = [cut for cut in program.cuts if cut.kind != "rapid"]
    assert sum(lengths(feeds)) == pytest.approx(STRAIGHT + CURVED + PLUNGES, abs=1e-6)
    plunges = [cut for cut in feeds if cut.end[2] < cut.start[2]]
    assert sum(lengths(plunges)) == pytest.approx(PLUNGES, abs=1e-9)
    assert {cut.feed for cut in feeds} == {20}


def test_the_rapid_length_is_the_one_counted_by_hand(program):
    rapids = [cut for cut in program.cuts if cut.kind == "rapid"]
    assert sum(lengths(rapids)) == pytest.approx(LIFTS + BETWEEN, abs=1e-9)
    assert {cut.feed for cut in rapids} == {0}


def test_the_box_round_all_moves(program):
    """NISTIR 6556 appendix C.1: X 0 to 81, Y 0 to 10; the D bulges 1.5 beyond its ends."""
    points = [point for cut in program.cuts for point in (cut.start, cut.end)]
    for cut in program.cuts:
        if cut.kind == "arc":
            radius = math.dist(cut.start[:2], cut.centre)
            begin = math.atan2(cut.start[1] - cut.centre[1], cut.start[0] - cut.centre[0])
            for step in range(1001):
                angle = begin + cut.turn * step / 1000
                x, y = math.cos(angle) * radius, math.sin(angle) * radius
                points.append((cut.centre[0] + x, cut.centre[1] + y, cut.start[2]))
    xs, ys, zs = zip(*points, strict=True)
    assert (min(xs), max(xs)) == pytest.approx((0, 81), abs=1e-9)
    assert (min(ys), max(ys)) == pytest.approx((0, 10), abs=1e-9)
    assert (min(zs), max(zs)) == (-1, 2)


def test_from_an_unknown_start_only_the_first_moves_differ(program):
    unknown = read(PLATE, "rs274ngc-mill").cuts
    assert unknown[2:] == program.cuts[2:]
    assert unknown[0] != program.cuts[0]
    assert program.cuts[0].start != ZERO
