"""Outlines to try things on: typed-in polygons, and random ones of lines and arcs."""

import math

from hypothesis import strategies as st

from jawcam.geometry.shapes import Path, Region, circle, from_bulges, polygon


def rounded_rectangle(width: float, height: float, radius: float) -> Path:
    x, y, bulge = width / 2, height / 2, math.tan(math.pi / 8)
    return from_bulges(
        [
            (-x + radius, -y, 0),
            (x - radius, -y, bulge),
            (x, -y + radius, 0),
            (x, y - radius, bulge),
            (x - radius, y, 0),
            (-x + radius, y, bulge),
            (-x, y - radius, 0),
            (-x, -y + radius, bulge),
        ]
    )


def _frame() -> Region:
    window = polygon([(20, 20), (20, 60), (60, 60), (60, 20)])
    return Region(polygon([(0, 0), (80, 0), (80, 80), (0, 80)]), (window,))


def _washer_plate() -> Region:
    holes = tuple(circle((x, 20), 8, ccw=False) for x in (18, 50, 82))
    return Region(polygon([(0, 0), (100, 0), (100, 40), (0, 40)]), holes)


# seidel-3 of the public polygon archive (area 227130, turned the right way up); the others are
# drawn for the troubles that they make
POLYGONS: dict[str, Region] = {
    "seidel-3": Region(
        polygon(
            [
                (115, -189), (112, -746), (198, -657), (285, -780), (294, -490), (384, -583),
                (430, -650), (513, -540), (579, -600), (616, -516), (707, -287), (579, -216),
                (594, -101), (506, -155), (505, -17), (428, -95), (363, -186), (318, -263),
                (247, -315), (175, -282),
            ]
        )
    ),
    "comb": Region(
        polygon(
            [
                (0, 0), (70, 0), (70, 50), (60, 50), (60, 12), (50, 12), (50, 50), (40, 50),
                (40, 12), (30, 12), (30, 50), (20, 50), (20, 12), (10, 12), (10, 50), (0, 50),
            ]
        )
    ),
    "spiral": Region(
        polygon(
            [
                (0, 0), (90, 0), (90, 80), (15, 80), (15, 25), (65, 25), (65, 55), (35, 55),
                (35, 45), (55, 45), (55, 35), (25, 35), (25, 70), (80, 70), (80, 10), (0, 10),
            ]
        )
    ),
    "star": Region(
        polygon(
            [
                (round((50 if k % 2 == 0 else 19) * math.cos(math.pi * k / 7)),
                 round((50 if k % 2 == 0 else 19) * math.sin(math.pi * k / 7)))
                for k in range(14)
            ]
        )
    ),
    "cross": Region(
        polygon(
            [
                (20, 0), (40, 0), (40, 20), (60, 20), (60, 40), (40, 40), (40, 60), (20, 60),
                (20, 40), (0, 40), (0, 20), (20, 20),
            ]
        )
    ),
    "dumb-bell": Region(
        polygon(
            [
                (0, 0), (30, 0), (30, 12), (60, 12), (60, 0), (90, 0), (90, 30), (60, 30),
                (60, 18), (30, 18), (30, 30), (0, 30),
            ]
        )
    ),
    "arrow": Region(polygon([(0, 0), (80, 30), (0, 60), (40, 30)])),
    "needle": Region(polygon([(0, 0), (100, 2), (100, 4), (40, 4), (40, 40), (0, 40)])),
    "frame": _frame(),
    "three holes": _washer_plate(),
    "zigzag": Region(
        polygon(
            [
                (0, 0), (10, 14), (20, 0), (30, 14), (40, 0), (50, 14), (60, 0), (60, 20),
                (50, 34), (40, 20), (30, 34), (20, 20), (10, 34), (0, 20),
            ]
        )
    ),
    "stairs": Region(
        polygon([(0, 0), (50, 0), (50, 10), (40, 10), (40, 20), (30, 20), (30, 30), (0, 30)])
    ),
}  # fmt: skip


def contour_table_12() -> Path:
    """The part contour of NISTIR 6556, table 12 (area 18 + pi, perimeter 12 + 2 pi)."""
    quarter = math.tan(math.pi / 8)
    slope = math.degrees(math.atan2(0.8, 0.6))
    lower, upper = (math.tan(math.radians(a) / 4) for a in (90 + slope, 90 - slope))
    clockwise = [
        (2.0, 3.0, -quarter), (3.0, 2.0, 0.0), (3.0, -1.0, -quarter), (2.0, -2.0, 0.0),
        (-2.0, -2.0, -lower), (-2.6, -0.2, 0.0), (1.4, 2.8, -upper),
    ]  # fmt: skip
    return from_bulges(clockwise).reversed()


@st.composite
def outlines(draw: st.DrawFn) -> Path:
    """A star-shaped outline of lines and arcs, some of them bent in, some nearly straight."""
    count = draw(st.integers(3, 16))
    radii = draw(st.lists(st.floats(9, 30), min_size=count, max_size=count))
    bulges = draw(
        st.lists(
            st.one_of(st.just(0.0), st.floats(-0.25, -0.001), st.floats(0.001, 0.25)),
            min_size=count,
            max_size=count,
        )
    )
    rows = [
        (r * math.cos(2 * math.pi * k / count), r * math.sin(2 * math.pi * k / count), b)
        for k, (r, b) in enumerate(zip(radii, bulges, strict=True))
    ]
    return from_bulges(rows)
