"""How a part comes to lie in the jaws, and where the program's origin is."""

from __future__ import annotations

import pytest

from jawcam.geometry.shapes import Path, polygon
from jawcam.hold.place import place
from jawcam.hold.seated import datum
from jawcam.job.model import Blanks, Datum, Hold
from jawcam.part.solid import Slab, Slice, Solid

BLANKS = Blanks(width=120, height=30, thickness=40, gap=6)
HOOK = polygon([(0, 0), (10, 0), (10, 2), (0, 6)])


def placed(hold: Hold) -> Path:
    slab, slices = Slab(0.0, 12.0, (HOOK,)), (Slice(0.0, (HOOK,)), Slice(12.0, (HOOK,)))
    (outer,) = place(Solid((slab,), (HOOK,), (), slices), hold).silhouette
    return outer


def test_a_part_is_flipped_then_turned_then_put_in_its_place():
    assert placed(Hold(depth=5, at=(1, 2))).box == pytest.approx((1, 2, 11, 8))
    flipped = placed(Hold(depth=5, flip=True))
    assert flipped.box == pytest.approx((-10, 0, 0, 6))
    assert flipped.area == pytest.approx(HOOK.area)
    turned = placed(Hold(depth=5, flip=True, turn=90))
    assert turned.box == pytest.approx((-6, -10, 0, 0))
    assert placed(Hold(depth=5, anchor="centre", at=(3, 0))).box == pytest.approx((-2, -3, 8, 3))


@pytest.mark.parametrize(
    ("zero", "point"),
    [
        (Datum(), (0, 0, 0)),
        (Datum(x="left", y="front", z="bottom"), (-60, -43, -30)),
        (Datum(x="right", y="back face"), (60, 3, 0)),
        (Datum(y="front face", shift=(1, 2, -3)), (1, -1, -3)),
        (Datum(y="back"), (0, 43, 0)),
    ],
)
def test_the_datum_lies_where_its_words_say(zero: Datum, point: tuple[float, float, float]):
    assert datum(zero, BLANKS) == pytest.approx(point)


@pytest.mark.parametrize(
    ("y", "at"),
    [
        ("front", -43 + 0.3),
        ("front face", -3 + 0.3),
        ("mid gap", (0.3 - 0.7) / 2),
        ("back face", 3 - 0.7),
        ("back", 43 - 0.7),
    ],
)
def test_on_shut_jaws_the_datum_has_gone_along_with_its_jaw(y: str, at: float):
    """The front one by 0.3, the back one by 0.7."""
    assert datum(Datum(y=y), BLANKS, 0.3, 0.7) == pytest.approx((0, at, 0))
