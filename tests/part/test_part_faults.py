"""Bad drawings: each fault says what, where and how to mend it, and nothing else comes out."""

import os
import pathlib
import random

import pytest
from part_help import INCH, MM, TOLERANCE, new_drawing, read

from jawcam.errors import InputError
from jawcam.part.formats import FORMATS, read_drawing
from jawcam.units import Units

BARE = "0\nSECTION\n2\nENTITIES\n0\nCIRCLE\n8\n0\n10\n0.0\n20\n0.0\n40\n5.0\n0\nENDSEC\n0\nEOF\n"


def refuse(path, *, layer=None, units=None):
    with pytest.raises(InputError) as caught:
        read_drawing(path, shown="my/part.dxf", layer=layer, units=units, tolerance=TOLERANCE)
    for fault in caught.value.faults:
        assert fault.place.file == "my/part.dxf"
        assert fault.mend
    return "\n".join(map(str, caught.value.faults))


def disc(units=MM, version="R2010"):
    document = new_drawing(units, version)
    document.layers.add("PROFILE")
    document.modelspace().add_circle((0, 0), 5, dxfattribs={"layer": "PROFILE"})
    return document


@pytest.fixture
def saved(tmp_path):
    path = tmp_path / "part.dxf"
    disc().saveas(path)
    return path


# --- the file --------------------------------------------------------------------------------


def test_an_unknown_ending_names_the_known_ones(tmp_path):
    text = refuse(tmp_path / "part.xyz")
    assert ".xyz" in text
    assert all(ending in text for ending in FORMATS)


def test_an_ending_in_capitals_will_do(tmp_path):
    path = tmp_path / "PART.DXF"
    disc().saveas(path)
    assert read_drawing(path, shown="p", layer=None, units=None, tolerance=TOLERANCE).outer


def test_a_missing_file_suggests_one_with_a_like_name(saved):
    assert "did you mean 'part.dxf'?" in refuse(saved.with_name("parts.dxf"))
    assert "there is no such drawing" in refuse(saved.parent / "nowhere" / "part.dxf")


def test_a_folder(tmp_path):
    (tmp_path / "part.dxf").mkdir()
    assert "it is a folder" in refuse(tmp_path / "part.dxf")


def test_a_file_that_may_not_be_read(saved, monkeypatch):
    def deny(_):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(pathlib.Path, "read_bytes", deny)
    assert "can't be read: permission denied" in refuse(saved)


@pytest.mark.skipif(
    not hasattr(os, "geteuid") or os.geteuid() == 0, reason="may read everything or has no modes"
)
def test_a_file_without_read_permission(saved):
    saved.chmod(0)
    assert "can't be read" in refuse(saved)


@pytest.mark.parametrize("content", [b"", b"  \n", b"hello\nworld\n", b"\x00\xff\x10" * 99])
def test_what_is_no_drawing(tmp_path, content):
    path = tmp_path / "part.dxf"
    path.write_bytes(content)
    assert refuse(path)


def test_a_decimal_comma_is_refused_with_its_line(saved):
    """A lenient reader would take 5,0 for 5 or even for 0 without a word."""
    text = saved.read_text()
    saved.write_text(text.replace("\n5.0\n", "\n5,0\n", 1))
    line = text[: text.index("\n5.0\n")].count("\n") + 2
    assert f"my/part.dxf:{line}: the drawing is damaged" in refuse(saved)


def test_a_file_cut_short_is_refused(saved):
    text = saved.read_text()
    for share in (0.02, 0.3, 0.6, 0.9, 0.97):
        saved.write_text(text[: int(share * len(text))])
        assert "damaged" in refuse(saved)


def test_no_damage_ends_in_a_traceback(saved):
    rng = random.Random(5)  # noqa: S311 - repeatable damage
    data = saved.read_bytes()
    lines = data.split(b"\n")
    words = [b"", b"abc", b"-1", b"1e999", b"nan", b"99999999", b"1,5", b"LINE", b"SECTION"]
    for k in range(60):
        bad = list(lines)
        at = rng.randrange(len(bad))
        if k % 2:
            bad[at] = rng.choice(words)
        else:
            del bad[at : at + rng.randrange(1, 20)]
        saved.write_bytes(b"\n".join(bad))
        try:
            read_drawing(saved, shown="p", layer=None, units=None, tolerance=TOLERANCE)
        except InputError as error:
            assert error.faults  # noqa: PT017 - either outcome will do, but no other


def test_a_binary_drawing_is_read(tmp_path):
    assert read(disc(), tmp_path, form="bin").outer.segments[0].radius == pytest.approx(5)
    assert read(disc(INCH), tmp_path, form="bin").outer.segments[0].radius == pytest.approx(127)


# --- units -----------------------------------------------------------------------------------


def test_a_drawing_without_units_is_refused_unless_told(tmp_path):
    path = tmp_path / "part.dxf"
    disc(0).saveas(path)
    text = refuse(path)
    assert "does not say what units" in text
    assert '"mm" or "inch"' in text
    for units, radius in ((Units.MM, 5), (Units.INCH, 127)):
        assert read(disc(0), tmp_path, units=units).outer.segments[0].radius == pytest.approx(
            radius
        )


def test_an_old_drawing_that_cannot_say_its_units_is_refused(tmp_path):
    path = tmp_path / "part.dxf"
    disc(MM, "R12").saveas(path)
    assert "does not say what units" in refuse(path)


def test_the_metres_that_the_library_makes_up_are_not_believed(tmp_path):
    path = tmp_path / "part.dxf"
    talks = BARE.replace(
        "0\nENDSEC", "0\nTEXT\n8\n0\n10\n0.0\n20\n0.0\n40\n1.0\n1\n$INSUNITS\n0\nENDSEC"
    )
    for text in (talks, BARE):
        path.write_text(text)
        assert "does not say what units" in refuse(path)
    outline = read_drawing(path, shown="p", layer=None, units=Units.MM, tolerance=TOLERANCE)
    assert outline.outer.segments[0].radius == pytest.approx(5)


@pytest.mark.parametrize(("code", "factor"), [(2, 304.8), (5, 10), (6, 1000), (9, 0.0254)])
def test_other_units_are_converted_and_noted(tmp_path, code, factor):
    document = new_drawing(code)
    document.modelspace().add_circle((0, 0), 0.5)
    outline = read(document, tmp_path)
    assert outline.outer.segments[0].radius == pytest.approx(factor / 2)
    assert any(note.startswith("the drawing is in ") for note in outline.notes)


def test_units_told_win_and_the_difference_is_noted(tmp_path):
    outline = read(disc(INCH), tmp_path, units=Units.MM)
    assert outline.outer.segments[0].radius == pytest.approx(5)
    assert "the drawing says inch, read as mm as told" in outline.notes
    assert read(disc(INCH), tmp_path, units=Units.INCH).notes == ()


# --- layers and entities ---------------------------------------------------------------------


def test_an_unknown_layer_suggests_one_and_lists_all(saved):
    text = refuse(saved, layer="PROFIL")
    assert "did you mean 'PROFILE'?" in text
    assert "0, Defpoints, PROFILE" in text


def test_units_and_layer_are_told_in_one_run(tmp_path):
    path = tmp_path / "part.dxf"
    disc(0).saveas(path)
    text = refuse(path, layer="NOPE")
    assert "units" in text
    assert "NOPE" in text


def test_a_layer_with_nothing_to_use(tmp_path):
    document = disc()
    document.layers.add("NOTES")
    document.modelspace().add_text("crank lever", dxfattribs={"layer": "NOTES"})
    path = tmp_path / "part.dxf"
    document.saveas(path)
    text = refuse(path, layer="notes")
    assert "only 1 TEXT" in text
    assert "PROFILE" in text


def test_an_empty_drawing(tmp_path):
    path = tmp_path / "part.dxf"
    new_drawing().saveas(path)
    assert "nothing to use" in refuse(path)


def test_all_that_is_not_flat_is_told_in_one_run(tmp_path):
    document = new_drawing()
    space = document.modelspace()
    space.add_line((0, 0, 0), (1, 0, 5))
    space.add_circle((0, 0), 5, dxfattribs={"extrusion": (0, 1, 1)})
    space.add_polyline3d([(0, 0, 0), (1, 1, 1)])
    space.add_spline([(0, 0, 0), (1, 1, 1), (2, 3, 0)])
    space.add_ellipse((0, 0), (3, 0, 1), 0.5)
    space.add_polymesh((3, 3))
    space.add_circle((0, 0), 5)
    path = tmp_path / "part.dxf"
    document.saveas(path)
    text = refuse(path)
    for kind in ("LINE", "CIRCLE", "POLYLINE", "SPLINE", "ELLIPSE"):
        assert f"my/part.dxf: {kind} " in text
    assert text.count("to mend") == 6
    assert "its Z runs from 0 to 5" in text


def test_coordinates_that_are_no_place_for_a_part(tmp_path):
    document = new_drawing()
    document.modelspace().add_line((float("nan"), 0), (1, 0))
    document.modelspace().add_line((1e300, 0), (1, 0))
    path = tmp_path / "part.dxf"
    document.saveas(path)
    assert refuse(path).count("is not a number or more than 1 km away") == 2


@pytest.mark.parametrize(
    ("knots", "weights", "word"),
    [
        ([0, 0, 0, 1, 1], [], "5 knots instead of 6"),
        ([0, 0, 0, 1, 1, 0], [], "run backwards"),
        ([0, 0, 0, 0, 0, 0], [], "nothing to draw"),
        ([0, 0, 0, 1, 1, 1], [1, -1, 1], "weights must be positive"),
    ],
)
def test_a_spline_that_contradicts_itself(tmp_path, knots, weights, word):
    document = new_drawing()
    spline = document.modelspace().add_spline(degree=2)
    spline.control_points = [(0, 0, 0), (5, 8, 0), (10, 0, 0)]
    spline.knots, spline.weights = knots, weights
    path = tmp_path / "part.dxf"
    document.saveas(path)
    assert word in refuse(path)


def test_the_outlines_own_faults_come_through(tmp_path):
    document = new_drawing()
    document.modelspace().add_lwpolyline([(0, 0), (10, 10), (10, 0), (0, 10)], close=True)
    path = tmp_path / "part.dxf"
    document.saveas(path)
    assert "my/part.dxf: X 5 Y 5: the outline crosses or touches itself" in refuse(path)


def test_nothing_but_specks(tmp_path):
    document = new_drawing()
    document.modelspace().add_line((1, 1), (1, 1))
    path = tmp_path / "part.dxf"
    document.saveas(path)
    assert "nothing has any length" in refuse(path)
