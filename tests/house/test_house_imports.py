"""Who may import whom. The table of ranks below is the order of the rooms; to add a room, add
its row."""

from __future__ import annotations

import ast
import graphlib
import sys

import pytest
from house_help import MODULES, closure, room_of, targets

# Imports run down: a module may import from its own room and from rooms of a lower rank.
RANKS = {
    "": 0,
    "errors": 0,
    "units": 1,
    "tolerance": 1,
    "resources": 1,
    "toml_places": 1,
    "cautions": 1,
    "deliver": 1,
    "progress": 1,
    "geometry": 2,
    "part": 3,
    "tools": 3,
    "job": 4,
    "hold": 5,
    "motion": 6,
    "mill": 7,
    "turn": 7,
    "post": 8,
    "reader": 9,
    "proof": 10,
    "show": 11,
    "made": 12,
    "make_turned": 13,
    "quicker": 13,
    "make": 14,
    "cli": 15,
    "__main__": 16,
}

# What each library is for, and so the only rooms that may import it.
HOMES = {
    "PIL": {"show"},
    "click": {"cli"},
    "ezdxf": {"part"},
    "matplotlib": {"show"},
    "numpy": {"geometry", "hold", "mill", "proof", "show"},
    "pyclipper": {"geometry"},
    "shapely": {"proof", "show"},
}

# The judge shares no code with the judged.
JUDGES = {"reader", "proof"}
JUDGED = {"motion", "post", "posts", "mill", "turn", "geometry"}

# What the planner and the judge both read: plain data, and nothing that computes.
TARGET = {
    "jawcam.hold.target",
    "jawcam.job.jaw_model",
    "jawcam.job.model",
    "jawcam.job.part_model",
    "jawcam.job.room_model",
    "jawcam.job.turn_model",
    "jawcam.part.piece",
    "jawcam.tools.cutter",
    "jawcam.tools.machine",
    "jawcam.tools.turner",
    "jawcam.units",
}

# Packages whose own module holds more than a docstring, and what may be taken from it.
SPEAKING = {"jawcam": {"__version__"}, "jawcam.cli": {"main"}}


def test_every_room_has_its_rank():
    assert {module.room for module in MODULES.values()} <= set(RANKS)


def test_imports_are_written_in_full():
    bad = [
        f"{module.at(found.line)}: {'.' * found.level}{found.source} {found.name}"
        for module in MODULES.values()
        for found in module.imports
        if found.level
        or found.name == "*"
        or (found.library == "jawcam" and not _names_a_module(found))
    ]
    assert bad == []


def _names_a_module(found):
    """`from jawcam.room.module import name`, or `from jawcam.room import module`."""
    if not found.name or found.source not in MODULES:
        return False
    if f"{found.source}.{found.name}" in MODULES:
        return True
    return not MODULES[found.source].is_package or found.name in SPEAKING.get(found.source, ())


def test_private_names_stay_in_their_module():
    bad = [
        f"{module.at(found.line)}: {found.source} {found.name}"
        for module in MODULES.values()
        for found in module.imports
        if found.name.startswith("_") and found.name != "__version__"
    ]
    assert bad == []


def test_imports_run_down_only():
    bad = [
        f"{module.at(found.line)}: {module.room} imports {target}"
        for module in MODULES.values()
        for target, found in targets(module)
        if room_of(target) != module.room and RANKS[room_of(target)] >= RANKS[module.room]
    ]
    assert bad == []


def test_no_modules_import_each_other_in_a_circle():
    graph = {name: {target for target, _ in targets(MODULES[name])} for name in MODULES}
    try:
        order = list(graphlib.TopologicalSorter(graph).static_order())
    except graphlib.CycleError as error:
        pytest.fail(" -> ".join(error.args[1]))
    assert set(order) >= set(MODULES)


def test_the_judge_shares_no_code_with_the_judged():
    bad = [
        f"{name} leads to {met}"
        for name, module in MODULES.items()
        if module.room in JUDGES
        for met in sorted(closure(name))
        if MODULES[met].room in JUDGED
    ]
    assert bad == []


def test_the_target_is_plain_data():
    assert closure("jawcam.hold.target") == TARGET
    outside = {
        found.library
        for name in TARGET
        for found in MODULES[name].imports
        if found.library not in sys.stdlib_module_names
    }
    assert outside == {"jawcam"}


def test_package_modules_hold_a_docstring_only():
    for name, module in MODULES.items():
        if module.is_package and name not in SPEAKING:
            assert len(module.tree.body) == 1, module.path
            assert ast.get_docstring(module.tree), module.path
    version = [ast.unparse(node) for node in MODULES["jawcam"].tree.body[1:]]
    assert [text.partition(" = ")[0] for text in version] == ["__version__"]


def test_libraries_stay_in_their_rooms():
    bad = [
        f"{module.at(found.line)}: {found.library} in {module.room}"
        for module in MODULES.values()
        for found in module.imports
        if found.library not in sys.stdlib_module_names | {"jawcam"}
        if module.room not in HOMES.get(found.library, ())
    ]
    assert bad == []


def test_the_drawing_library_is_imported_when_a_drawing_is_read():
    bad = [
        module.at(found.line)
        for module in MODULES.values()
        for found in module.imports
        if found.library == "ezdxf" and found.at_top
    ]
    assert bad == []


def test_no_import_is_hidden_from_run_time():
    bad = [
        module.at(node.lineno)
        for module in MODULES.values()
        for node in ast.walk(module.tree)
        if (isinstance(node, ast.Name) and node.id == "TYPE_CHECKING")
        or (isinstance(node, ast.Attribute) and node.attr == "TYPE_CHECKING")
        or (isinstance(node, ast.Try) and any(map(_is_import, node.body)))
    ]
    assert bad == []


def _is_import(node):
    return isinstance(node, ast.Import | ast.ImportFrom)
