"""Parts from the outlines of several drawing layers."""

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from part_help import TOLERANCE, new_drawing, polygon
from turned_help import place

from jawcam.errors import InputError
from jawcam.geometry.shapes import circle
from jawcam.geometry.shapes import polygon as closed
from jawcam.part.flip import flipped
from jawcam.part.layers import layered, read_layers, upright
from jawcam.part.outline import Outline
from jawcam.units import Units


def box(x0, y0, x1, y1):
    return closed([(x0, y0), (x1, y0), (x1, y1), (x0, y1)])


BASE = Outline(
    box(-30, -20, 30, 20),
    holes=tuple(circle((x, 0), 3, ccw=False) for x in (-25, 0)),
    notes=("2 inner loops: shown, not cut",),
)
BOSS = Outline(circle((0, 0), 12), holes=(circle((0, 0), 5, ccw=False),))
RIB = Outline(box(0, -3, 28, 3))


def stack(*layers, units=Units.MM, edge=0.0):
    return layered(layers, units=units, place=place, edge=edge)


def refuse(*layers, units=Units.MM):
    with pytest.raises(InputError) as caught:
        stack(*layers, units=units)
    assert all(fault.mend for fault in caught.value.faults)
    return {fault.place.key.removeprefix("part."): fault.what for fault in caught.value.faults}


def test_an_upright_part_is_one_slab():
    solid = upright(BASE, 12, edge=0.3)
    assert [(slab.bottom, slab.top, slab.outlines) for slab in solid.slabs] == [
        (0, 12, (BASE.outer,))
    ]
    assert [(one.height, one.outlines) for one in solid.slices] == [
        (0, (BASE.outer,)),
        (12, (BASE.outer,)),
    ]
    assert solid.silhouette == (BASE.outer,)
    assert solid.holes == BASE.holes
    assert solid.notes == BASE.notes
    assert (solid.broken_below, solid.broken_above, solid.least_depth) == (0.3, 0.3, 0)


def test_slabs_end_wherever_a_layer_begins_or_ends():
    solid = stack((BASE, 0, 5), (BOSS, 0, 20), (RIB, 5, 12))
    assert [(slab.bottom, slab.top, slab.outlines) for slab in solid.slabs] == [
        (0, 5, (BASE.outer, BOSS.outer)),
        (5, 12, (BOSS.outer, RIB.outer)),
        (12, 20, (BOSS.outer,)),
    ]
    assert [one.height for one in solid.slices] == [0, 5, 5, 12, 12, 20]
    assert solid.silhouette == (BASE.outer, BOSS.outer, RIB.outer)
    assert solid.height == 20


def test_a_hole_is_hidden_by_what_stands_above_it():
    solid = stack((BASE, 0, 5), (BOSS, 5, 20))
    assert solid.holes == (BASE.holes[0], BOSS.holes[0])
    assert all(hole.area < 0 for hole in solid.holes)


def test_a_layer_given_twice_is_there_once():
    solid = stack((BASE, 0, 5), (BASE, 5, 9), (BASE, 0, 9))
    assert solid.silhouette == (BASE.outer,)
    assert [len(slab.outlines) for slab in solid.slabs] == [1, 1]
    assert solid.notes == BASE.notes
    assert solid.holes == BASE.holes


def test_heights_that_differ_by_rounding_only_are_one():
    solid = stack((BASE, 1e-12, 0.1 + 0.2), (BOSS, 0.3, 2))
    assert [(slab.bottom, slab.outlines) for slab in solid.slabs] == [
        (0, (BASE.outer,)),
        (0.3, (BOSS.outer,)),
    ]


def test_a_gap_in_the_stack_is_a_fault():
    assert refuse((BASE, 0, 5), (BOSS, 6, 20), (RIB, 25, 30)) == {
        "layers": "no layer fills the part from 20 mm to 25 mm"
    }
    with pytest.raises(InputError, match="from 5 mm to 6 mm"):
        stack((BASE, 0, 5), (BOSS, 6, 20), (RIB, 25, 30))
    assert refuse((BASE, 2.54, 5), units=Units.INCH) == {
        "layers": "no layer fills the part from 0 in to 0.1 in"
    }


def test_a_layer_needs_a_height():
    found = refuse((BASE, 0, 5), (BOSS, 5, 5), (RIB, -1, 4))
    assert set(found) == {"layers[2]", "layers[3]"}
    assert "it ends at 5 mm but begins at 5 mm" in found["layers[2]"]
    assert "1 mm below the part's underside" in found["layers[3]"]


def test_upside_down_a_drawing_is_mirrored():
    solid = flipped(stack((BASE, 0, 5), (BOSS, 5, 20), (RIB, 5, 12), edge=0.2))
    assert [(slab.bottom, slab.top) for slab in solid.slabs] == [(0, 8), (8, 15), (15, 20)]
    assert solid.slabs[1].outlines[1].box == (-28, -3, 0, 3)
    assert solid.slabs[1].outlines[1].area > 0
    assert solid.holes[0].box == pytest.approx((22, -3, 28, 3))
    assert solid.holes[0].area < 0
    assert (solid.broken_below, solid.broken_above) == (0.2, 0.2)


BOXES = st.tuples(*[st.integers(-20, 20)] * 2, *[st.integers(1, 20)] * 2)


@given(st.lists(st.tuples(BOXES, st.integers(0, 9), st.integers(1, 9)), min_size=1, max_size=5))
@settings(max_examples=60)
def test_a_stack_fills_what_its_layers_fill(rows):
    layers = [(Outline(box(x, y, x + w, y + h)), low, low + up) for (x, y, w, h), low, up in rows]
    layers.append((RIB, 0, max(top for *_, top in layers)))
    solid = stack(*layers)
    assert solid.slabs[0].bottom == 0
    for k in range(36):
        height = k / 2 + 0.25
        true = shapely.union_all(
            [polygon(outline.outer) for outline, low, top in layers if low < height < top]
        )
        ours = [slab for slab in solid.slabs if slab.bottom < height < slab.top]
        got = shapely.union_all([polygon(path) for slab in ours for path in slab.outlines])
        assert len(ours) == (height < solid.height)
        assert got.equals(true) or got.symmetric_difference(true).area < 1e-9
    volume = math.fsum(
        (slab.top - slab.bottom) * shapely.union_all([polygon(path) for path in slab.outlines]).area
        for slab in solid.slabs
    )
    assert volume <= solid.height * shapely.union_all(
        [polygon(path) for path in solid.silhouette]
    ).area * (1 + 1e-9)


# --- reading ---------------------------------------------------------------------------------


@pytest.fixture
def drawing(tmp_path):
    """A bearing cap: a flange with bolt holes, a boss, and a layer that was left open."""
    document = new_drawing()
    space = document.modelspace()
    for name in ("FLANGE", "BOSS", "OPEN", "NOTES"):
        document.layers.add(name)
    space.add_lwpolyline(
        [(-30, -20), (30, -20), (30, 20), (-30, 20)], close=True, dxfattribs={"layer": "FLANGE"}
    )
    space.add_circle((-25, 0), 3, dxfattribs={"layer": "FLANGE"})
    space.add_circle((0, 0), 12, dxfattribs={"layer": "BOSS"})
    space.add_lwpolyline([(0, 0), (9, 0), (9, 9)], dxfattribs={"layer": "OPEN"})
    space.add_text("deburr", dxfattribs={"layer": "NOTES"})
    path = tmp_path / "cap.dxf"
    document.saveas(path)
    return path


def read(path, *layers):
    return read_layers(path, layers, shown="cap.dxf", units=None, tolerance=TOLERANCE)


def test_each_layer_is_read_with_its_heights(drawing):
    found = read(drawing, ("FLANGE", 0, 5), ("boss", 5, 20))
    assert [(low, top) for _, low, top in found] == [(0, 5), (5, 20)]
    assert found[0][0].outer.area == pytest.approx(60 * 40)
    assert found[1][0].outer.area == pytest.approx(math.pi * 144)
    assert found[0][0].notes == ("layer FLANGE: 1 inner loop: shown, not cut",)
    assert layered(found, units=Units.MM, place=place).height == 20


def test_the_faults_of_all_layers_are_told_in_one_run(drawing):
    with pytest.raises(InputError) as caught:
        read(drawing, ("FLANGE", 0, 5), ("OPEN", 5, 9), ("NOTES", 9, 12), ("BOS", 0, 3))
    told = [str(fault) for fault in caught.value.faults]
    assert len(told) == 3
    assert "layer OPEN" in told[0]
    assert "the outline is open" in told[0]
    assert "nothing to use on layer 'NOTES'" in told[1]
    assert "did you mean 'BOSS'?" in told[2]


def test_a_fault_of_the_whole_drawing_is_told_once(tmp_path):
    with pytest.raises(InputError) as caught:
        read(tmp_path / "gone.dxf", ("FLANGE", 0, 5), ("BOSS", 5, 9))
    (fault,) = caught.value.faults
    assert fault.what == "there is no such drawing"
    assert fault.place.key == ""
