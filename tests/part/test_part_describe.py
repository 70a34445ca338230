"""An outline in words."""

from jawcam.geometry.shapes import circle, from_bulges, polygon
from jawcam.part.describe import describe
from jawcam.part.outline import Outline
from jawcam.units import Units


def test_a_plate_in_inches():
    inch = 25.4
    plate = polygon([(0, 0), (4 * inch, 0), (4 * inch, 2 * inch), (0, 2 * inch)])
    hole = circle((inch, inch), inch / 4, ccw=False)
    text = "\n".join(describe(Outline(plate, (hole,), ("a note",), "plate.dxf", Units.INCH)))
    assert "plate.dxf: silhouette 4 in by 2 in" in text
    assert "4 lines, 12 in round" in text
    assert "tightest inside radius: no arc" in text
    assert "sharp inside corners: none" in text
    assert "sharp outside corners: 4" in text
    assert "X 4 Y 2, turning 90.0 degrees" in text
    assert "circle, dia 0.5 in, centre X 1 Y 1" in text
    assert "note: a note" in text


def test_radii_come_with_their_places():
    slot = from_bulges([(0, 0, 0), (10, 0, 1), (10, 6, 0), (0, 6, 1)])
    text = "\n".join(describe(Outline(slot)))
    assert "2 lines, 2 arcs" in text
    assert "tightest outside radius: 3 mm at X 13 Y 3" in text


def test_many_corners_are_counted_not_listed():
    teeth = polygon([p for k in range(20) for p in ((k, -k * k / 99), (k + 0.5, 5 + k))][::-1])
    text = "\n".join(describe(Outline(teeth)))
    assert "more" in text
