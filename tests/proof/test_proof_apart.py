"""The judge shares no code with the judged."""

import ast
from pathlib import Path

import pytest

import jawcam.proof
from jawcam.proof.codes import CODES

ROOM = Path(jawcam.proof.__file__).parent
FORBIDDEN = ("geometry", "motion", "mill", "turn", "post", "job", "part", "show", "make", "cli")


@pytest.mark.parametrize("path", sorted(ROOM.glob("*.py")), ids=lambda path: path.stem)
def test_no_module_imports_what_plans_or_writes(path):
    for node in ast.walk(ast.parse(path.read_text())):
        names = [node.module or ""] if isinstance(node, ast.ImportFrom) else []
        names += [alias.name for alias in node.names] if isinstance(node, ast.Import) else []
        for name in names:
            room = name.removeprefix("jawcam.").split(".")[0]
            assert not (name.startswith("jawcam") and room in FORBIDDEN), name
            assert room not in ("pyclipper", "posts"), name


def test_every_code_in_the_text_is_in_the_table():
    text = "".join(path.read_text() for path in ROOM.glob("*.py") if path.stem != "codes")
    used = {code for code in CODES if f'"{code}"' in text}
    assert used == set(CODES)
