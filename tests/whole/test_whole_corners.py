"""A finishing cutter too round for the corners, and a smaller one that picks them out."""

import math

import pytest
from whole_jobs import CONTROLS, drawing, job_with, make_all, make_one, only, put
from whole_judged import found
from whole_words import blocks

import jawcam.mill.plan
from jawcam.errors import InputError
from jawcam.mill.corners import corners
from jawcam.post.dialect import load as load_dialect
from jawcam.reader.read import read
from jawcam.units import Units

TOOLS = (
    'number = 2\nkind = "end mill"\ndia = 6\nflutes = 3\n',
    """number = 3
kind = "end mill"
dia = 8
flutes = 3
flute_len = 14

[[tool]]
number = 2
kind = "end mill"
dia = 4
flutes = 3
""",
)
FINISH = ("rough = { stepdown = 5 }\n", 'rough = { way = "rings" }\nfinish = { tool = 3 }\n')
LAYERS = (
    "thickness = 9\n",
    """layers = [
    { layer = "FOOT", bottom = 0, top = 3 },
    { layer = "PLATE", bottom = 3, top = 9 },
]
""",
)
SHORT = "dia = 4\nflutes = 3\nflute_len = 4\n"


def box(space, x, y, **attributes):
    rows = [(-x, -y), (x, -y), (x, y), (-x, y)]
    space.add_lwpolyline(rows, close=True, dxfattribs=attributes)


def square_drawing():
    document, space = drawing()
    box(space, 20, 13)
    return document


def stepped_drawing():
    document, space = drawing()
    document.layers.add("FOOT")
    document.layers.add("PLATE")
    box(space, 14, 10, layer="FOOT")
    box(space, 20, 13, layer="PLATE")
    return document


@pytest.fixture(scope="module")
def square(tmp_path_factory):
    return make_one(tmp_path_factory.mktemp("square"), job_with(TOOLS, FINISH), square_drawing())


@pytest.fixture(scope="module")
def stepped(tmp_path_factory):
    text = job_with(TOOLS, FINISH, LAYERS)
    return make_one(tmp_path_factory.mktemp("stepped"), text, stepped_drawing())


def tools_by_pass(text):
    """Which tool cuts under which comment, in order."""
    found, tool = [], 0
    for line in text.splitlines():
        name = line.strip("()").lower()
        tool = int(line.split("T")[1].split()[0]) if line.startswith("T") else tool
        if name in ("wall", "corners", "corner relief") or name.startswith("wall,"):
            found.append((name, tool))
    return found


def picked(text):
    """The feed moves from the first picked corner on."""
    first = only(text, r"^\(corners\)$")
    return [b for b in blocks(text) if b.line > first and b.kind != "rapid"]


def test_corners_are_picked_and_relieved_by_the_smallest_cutter(square):
    assert square.report.ok
    assert [relief.radius for relief in square.target.reliefs] == [2.0] * 4
    assert tools_by_pass(square.text) == [("wall", 3), ("corners", 2), ("corner relief", 2)]
    assert any(note.startswith("T2:") for note in square.made.notes)


def test_the_way_of_a_relief_is_that_of_the_smaller_cutter(square):
    """Closed form: its centre ends up r off both walls, and bores r (sqrt(2) - 1) on, with the
    air that all reliefs have; the corner itself is rounded by the fit of 0.04."""
    for relief in square.target.reliefs:
        way = math.dist(relief.start, relief.end)
        assert way == pytest.approx((2 - 0.04) * (math.sqrt(2) - 1) + 0.02, abs=1e-4)


@pytest.mark.parametrize("post", CONTROLS)
@pytest.mark.parametrize("units", Units)
@pytest.mark.parametrize("name", ["square", "stepped"])
def test_it_is_proven_in_both_dialects_in_mm_and_inches(request, name, units, post):
    whole = request.getfixturevalue(name)
    control = load_dialect(post).control
    program = read(whole.written(post, units), control, "jaws.nc")
    assert found(program, whole.target).ok


def test_each_level_is_picked_from_the_top_down(stepped):
    assert stepped.report.ok
    floors = [level.floor for level in stepped.target.levels]
    names = [name for name, _ in tools_by_pass(stepped.text)]
    assert names == ["wall, level 1 of 2", "wall, level 2 of 2", "corners", "corners",
                     "corner relief", "corner relief"]  # fmt: skip
    level = [b for b in picked(stepped.text) if b.level and b.kind == "line"]
    for floor, tip in zip(floors, (18.04, 12.04), strict=True):
        assert max(abs(b.end[0]) for b in level if b.end[2] == floor) >= tip
    assert min(b.end[2] for b in level) == floors[-1]


@pytest.mark.parametrize("name", ["square", "stepped"])
def test_the_pass_left_out_is_found(tmp_path, monkeypatch, name):
    passes = tuple(one for one in jawcam.mill.plan.PASSES if one is not corners)
    assert len(passes) == len(jawcam.mill.plan.PASSES) - 1
    monkeypatch.setattr(jawcam.mill.plan, "PASSES", passes)
    draw = {"square": square_drawing, "stepped": stepped_drawing}[name]
    text = job_with(TOOLS, FINISH, *((LAYERS,) if name == "stepped" else ()))
    report = make_one(tmp_path, text, draw()).report
    assert not report.ok
    left = [f for f in report.findings if f.code == "P301"]
    assert len(left) >= 4
    for corner in ((x, y) for x in (-20, 20) for y in (-13, 13)):
        assert min(math.dist(corner, (f.x, f.y)) for f in left) < 4 * math.sqrt(2)


def test_a_block_of_it_left_out_is_found(square):
    """The one that goes into a corner."""
    deep = [b for b in picked(square.text) if b.end[2] == -5 and b.level]
    corner = next(b for b in deep if abs(b.end[0]) > 18 and abs(b.end[1]) > 11)
    lines = square.text.splitlines()
    text = "\n".join(line for n, line in enumerate(lines, 1) if n != corner.line) + "\n"
    assert not found(square.read_again(text), square.target).ok


def test_without_reliefs_what_stays_is_what_the_smaller_cutter_leaves(tmp_path):
    text = job_with(TOOLS, (FINISH[0], FINISH[1] + 'corners = { relief = "none" }\n'))
    whole = make_one(tmp_path, text, square_drawing())
    assert whole.report.ok
    assert whole.target.reliefs == ()
    assert tools_by_pass(whole.text) == [("wall", 3), ("corners", 2)]
    # the largest disc in what r leaves of a square corner, the fit's rounding apart
    size = 4 * (math.sqrt(2) - 1) / (math.sqrt(2) + 1)
    assert [u.size for u in whole.target.unreached] == pytest.approx([size] * 4, abs=0.03)


def test_a_groove_goes_into_the_corners_too(tmp_path):
    text = job_with(TOOLS, FINISH, ("depth = 5 }", "depth = 5, groove = 0.3 }"))
    whole = make_one(tmp_path, text, square_drawing())
    assert whole.report.ok
    assert min(b.end[2] for b in picked(whole.text)) == -5.3


def test_a_small_cutter_too_short_is_left_alone(tmp_path):
    short = job_with(TOOLS, FINISH).replace("dia = 4\nflutes = 3\nflute_len = 14\n", SHORT)
    assert SHORT in short
    whole = make_one(tmp_path, short, square_drawing())
    assert whole.report.ok
    assert tools_by_pass(whole.text) == [("wall", 3), ("corner relief", 3)]
    assert [relief.radius for relief in whole.target.reliefs] == [4.0] * 4


def test_a_pocket_that_the_finishing_cutter_does_not_get_into_is_refused(tmp_path):
    document, space = drawing()
    box(space, 20, 3.5)
    path = put(tmp_path, job_with(TOOLS, FINISH), document)
    with pytest.raises(InputError, match=r"the pocket is only 7\.08 mm wide here"):
        make_all(path)
