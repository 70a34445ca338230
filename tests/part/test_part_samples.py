"""The drawings that ship with jawcam."""

import math

import pytest
from part_help import TOLERANCE, arcs

from jawcam.part.formats import read_drawing
from jawcam.part.outline import sharp_corners, tightest_inside_radius, tightest_outside_radius
from jawcam.resources import folder
from jawcam.units import Units


def sample(name, layer="PROFILE"):
    path = folder("samples") / name
    return read_drawing(path, shown=name, layer=layer, units=None, tolerance=TOLERANCE)


def test_the_crank_lever():
    lever = sample("crank-lever.dxf")
    assert lever.outer.box == pytest.approx((-17, -17, 67, 17), abs=1e-9)
    assert len(lever.outer.segments) == 9
    assert sorted(arc.radius for arc in arcs(lever.outer)) == pytest.approx([1.5, 9, 17])
    assert [len(hole.segments) for hole in lever.holes] == [1, 8]
    assert lever.holes[0].area == pytest.approx(-36 * math.pi)
    assert tightest_inside_radius(lever).radius == pytest.approx(1.5)
    assert tightest_outside_radius(lever).radius == pytest.approx(9)
    sharp = sharp_corners(lever)
    assert [corner.at for corner in sharp if not corner.inside] == [(26, -17), (34, -17)]
    assert len([corner for corner in sharp if corner.inside]) == 1


def test_the_crank_lever_with_all_its_layers():
    assert "left out: 1 TEXT" in sample("crank-lever.dxf", layer=None).notes


def test_the_hopper_flange():
    flange = sample("hopper-flange.dxf")
    assert flange.units is Units.INCH
    assert flange.outer.box == pytest.approx((-30, -22, 30, 22), abs=1e-9)
    assert flange.outer.area == pytest.approx(60 * 44 - 36 * (4 - math.pi), abs=1e-9)
    assert [arc.radius for arc in arcs(flange.outer)] == pytest.approx([6] * 4)
    assert len(flange.holes) == 4


def test_the_burr_cam():
    cam = sample("burr-cam.dxf")
    left, _, right, _ = cam.outer.box
    assert right - left == pytest.approx(46, abs=0.01)
    assert len(arcs(cam.outer)) == len(cam.outer.segments) < 80
    assert sharp_corners(cam) == ()
