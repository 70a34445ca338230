"""The judge of lathe programs shares no code with what writes them, and keeps one list of codes."""

import ast
import re
from pathlib import Path

import pytest

import jawcam.proof.turning
from jawcam.proof.codes import CODES, TURNING_CODES

ROOM = Path(jawcam.proof.turning.__file__).parent
TEXT = "".join(path.read_text() for path in sorted(ROOM.glob("*.py")))
ALLOWED = (
    "jawcam.hold.turn_target",
    "jawcam.tools.machine",
    "jawcam.tools.turner",
    "jawcam.reader.cuts",
    "jawcam.units",
)


@pytest.mark.parametrize("path", sorted(ROOM.glob("*.py")), ids=lambda path: path.stem)
def test_no_module_imports_what_plans_or_writes(path):
    for node in ast.walk(ast.parse(path.read_text())):
        names = [node.module or ""] if isinstance(node, ast.ImportFrom) else []
        names += [alias.name for alias in node.names] if isinstance(node, ast.Import) else []
        for name in names:
            ours = name.startswith("jawcam.") and not name.startswith("jawcam.proof.")
            assert not ours or name in ALLOWED, name
            assert name.split(".")[0] not in ("pyclipper", "posts"), name


def test_every_code_in_the_text_is_in_the_table():
    assert set(re.findall(r'"(T\d{3})"', TEXT)) == set(TURNING_CODES)
    assert not set(CODES) & set(TURNING_CODES)


def test_every_code_is_looked_for_by_some_test():
    here = "".join(path.read_text() for path in sorted(Path(__file__).parent.glob("test_*.py")))
    looked_for = set(re.findall(r'"(T\d{3})"', here))
    assert set(TURNING_CODES) - looked_for == set()
