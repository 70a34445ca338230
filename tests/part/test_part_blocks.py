"""Block references, layers and what is left out."""

import math

import pytest
from part_help import TOLERANCE, arcs, ellipse_length, new_drawing, polygon, read

from jawcam.errors import InputError


def tab(block):
    """An L of legs 1 wide, 4 long, its tip a quarter disc: area 4 + 2 + pi / 4."""
    rows = [(0, 0, 0), (4, 0, 0), (4, 1, 0), (1, 1, 0), (1, 3, math.tan(math.pi / 8))]
    block.add_lwpolyline([*rows, (0, 4, 0)], format="xyb", close=True)


def test_the_tab_itself(tmp_path):
    document = new_drawing()
    tab(document.modelspace())
    outer = read(document, tmp_path).outer
    assert outer.area == pytest.approx(4 + 2 + math.pi / 4, abs=1e-9)
    assert polygon(outer).area == pytest.approx(outer.area, abs=1e-4)


@pytest.mark.parametrize("turn", [0, 30, 90, 217])
@pytest.mark.parametrize(("across", "up"), [(2, 2), (-2, 2), (2, -2), (-3, -3)])
def test_nested_blocks_turned_scaled_and_mirrored(tmp_path, turn, across, up):
    document = new_drawing()
    inner = document.blocks.new("INNER")
    tab(inner)
    outer_block = document.blocks.new("OUTER", base_point=(1, 1))
    outer_block.add_blockref("INNER", (5, 2), {"rotation": 40, "xscale": -1, "yscale": 1})
    where = {"rotation": turn, "xscale": across, "yscale": up}
    document.modelspace().add_blockref("OUTER", (10, 20), where)
    path = read(document, tmp_path).outer
    area = (6 + math.pi / 4) * abs(across * up)
    assert path.area == pytest.approx(area, abs=1e-9)
    assert polygon(path).area == pytest.approx(area, rel=1e-4)
    (arc,) = arcs(path)
    assert arc.radius == pytest.approx(abs(across), abs=1e-9)
    # The corner (0, 0) of the tab, by hand: the inner reference, less the base, then the outer.
    x, y = 5 - 1, 2 - 1
    a = math.radians(turn)
    x, y = across * x, up * y
    corner = (10 + x * math.cos(a) - y * math.sin(a), 20 + x * math.sin(a) + y * math.cos(a))
    assert any(math.dist(s.start, corner) < 1e-9 for s in path.segments)


def test_a_block_seen_from_behind(tmp_path):
    document = new_drawing()
    tab(document.blocks.new("TAB"))
    space = document.modelspace()
    space.add_blockref("TAB", (0, 0), {"extrusion": (0, 0, -1)})
    path = read(document, tmp_path).outer
    assert path.box == pytest.approx((-4, 0, 0, 4))
    assert path.area == pytest.approx(6 + math.pi / 4, abs=1e-9)


def test_uneven_scale_turns_a_circle_into_an_ellipse_of_arcs(tmp_path):
    document = new_drawing()
    document.blocks.new("DISC").add_circle((1, 0), 5)
    document.modelspace().add_blockref("DISC", (0, 0), {"xscale": 4, "yscale": 2, "rotation": 25})
    outline = read(document, tmp_path)
    length = ellipse_length(20, 10)
    assert outline.outer.area == pytest.approx(200 * math.pi, abs=TOLERANCE.fit * length)
    assert outline.outer.length == pytest.approx(length, abs=1e-3)
    assert all("arcs or lines within" in note for note in outline.notes)


def test_uneven_scale_of_a_polyline_with_bulges_still_closes(tmp_path):
    document = new_drawing()
    tab(document.blocks.new("TAB"))
    document.modelspace().add_blockref("TAB", (0, 0), {"xscale": 3, "yscale": 1})
    path = read(document, tmp_path).outer
    assert path.area == pytest.approx(3 * (6 + math.pi / 4), abs=TOLERANCE.fit * path.length)


def test_a_block_in_rows_and_columns(tmp_path):
    document = new_drawing()
    document.blocks.new("HOLE").add_circle((0, 0), 1)
    space = document.modelspace()
    space.add_lwpolyline([(-5, -5), (30, -5), (30, 20), (-5, 20)], close=True)
    grid = {"column_count": 3, "row_count": 2, "column_spacing": 10, "row_spacing": 8}
    space.add_blockref("HOLE", (0, 0), grid)
    outline = read(document, tmp_path)
    centres = sorted(
        (round(x, 9), round(y, 9)) for x, y in (arcs(h)[0].centre for h in outline.holes)
    )
    assert centres == [(0, 0), (0, 8), (10, 0), (10, 8), (20, 0), (20, 8)]


def test_a_block_that_holds_itself_is_named(tmp_path):
    document = new_drawing()
    block = document.blocks.new("LOOP")
    block.add_circle((0, 0), 1)
    block.add_blockref("LOOP", (5, 5))
    document.modelspace().add_blockref("LOOP", (0, 0))
    with pytest.raises(InputError, match="'LOOP' holds itself"):
        read(document, tmp_path)


def test_a_missing_block_is_named(tmp_path):
    document = new_drawing()
    document.modelspace().add_circle((0, 0), 5)
    document.modelspace().add_blockref("GONE", (0, 0))
    with pytest.raises(InputError, match="'GONE' is missing"):
        read(document, tmp_path)


def test_blocks_without_end_are_refused(tmp_path, monkeypatch):
    monkeypatch.setattr("jawcam.part.blocks._MOST", 1000)
    document = new_drawing()
    grid = {"column_count": 40, "row_count": 40, "column_spacing": 1, "row_spacing": 1}
    document.blocks.new("DOT").add_text("x")
    document.modelspace().add_blockref("DOT", (0, 0), grid)
    with pytest.raises(InputError, match="unfold into more than"):
        read(document, tmp_path)


# --- layers ----------------------------------------------------------------------------------


def layered():
    document = new_drawing()
    document.layers.add("PROFILE")
    document.layers.add("CENTRE")
    space = document.modelspace()
    space.add_circle((0, 0), 5, dxfattribs={"layer": "PROFILE"})
    space.add_circle((40, 0), 3, dxfattribs={"layer": "CENTRE"})
    return document


@pytest.mark.parametrize("name", ["PROFILE", "profile", "Profile"])
def test_a_layer_is_chosen_in_any_case(tmp_path, name):
    assert read(layered(), tmp_path, layer=name).outer.area == pytest.approx(25 * math.pi)


def test_layers_that_are_off_or_frozen_are_passed_over(tmp_path):
    for hide in ("off", "freeze"):
        document = layered()
        getattr(document.layers.get("CENTRE"), hide)()
        assert read(document, tmp_path).outer.area == pytest.approx(25 * math.pi)
        assert read(document, tmp_path, layer="CENTRE").outer.area == pytest.approx(9 * math.pi)


def test_what_was_drawn_on_layer_0_of_a_block_counts_for_the_reference(tmp_path):
    document = layered()
    block = document.blocks.new("B")
    block.add_circle((80, 0), 2)
    block.add_circle((90, 0), 1, dxfattribs={"layer": "CENTRE"})
    document.layers.add("TOP")
    document.modelspace().add_blockref("B", (0, 0), {"layer": "TOP"})
    assert read(document, tmp_path, layer="TOP").outer.area == pytest.approx(4 * math.pi)


def test_a_reference_on_a_frozen_layer_shows_nothing(tmp_path):
    document = layered()
    document.layers.get("CENTRE").freeze()
    document.blocks.new("B").add_circle((80, 0), 2, dxfattribs={"layer": "PROFILE"})
    document.modelspace().add_blockref("B", (0, 0), {"layer": "CENTRE"})
    assert read(document, tmp_path).outer.area == pytest.approx(25 * math.pi)


def test_paper_space_and_invisible_entities_are_passed_over(tmp_path):
    document = new_drawing()
    document.modelspace().add_circle((0, 0), 5)
    document.modelspace().add_circle((50, 0), 5, dxfattribs={"invisible": 1})
    document.layout("Layout1").add_circle((20, 20), 5)
    assert read(document, tmp_path).outer.area == pytest.approx(25 * math.pi)


def test_what_is_no_outline_is_counted_in_a_note(tmp_path):
    document = new_drawing()
    space = document.modelspace()
    space.add_circle((0, 0), 5)
    space.add_text("crank")
    space.add_text("lever")
    space.add_point((1, 1))
    space.add_hatch()
    assert "left out: 1 HATCH, 1 POINT, 2 TEXT" in read(document, tmp_path).notes
