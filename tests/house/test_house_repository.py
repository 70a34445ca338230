"""What the repository holds: a fixed top level, samples and posts that are found, clean texts."""

from __future__ import annotations

import re
import shutil
import subprocess
import tomllib
from pathlib import Path

import pytest
from house_help import ROOT

from jawcam.job.load import load
from jawcam.resources import folder

TOP_LEVEL = {
    "DEVELOPERS.md",
    "README.md",
    "jawcam",
    "posts",
    "pyproject.toml",
    "samples",
    "tests",
}

DOCUMENTS = {name for name in TOP_LEVEL if name.endswith(".md")}

# What no text here may hold, and why.
FORBIDDEN = {
    r"(?<![\w.])/(work|root)/": "a path of somebody's machine",
    r"\b(TODO|FIXME|XXX|HACK)\b": "unfinished work: finish it, or say what does not work",
    r'(?i)(?<!scope=")\bsessions?\b': "how it was made: say what holds now",
    r"(?i)\b(issue|ticket|pull request) ?#?\d+": "a number that means nothing outside a tracker",
    r"(?i)\bco-authored-by\b": "who made it stands in the history",
    r"<{7} |>{7} ": "a merge left half done",
}

# Tests may write to temporary folders and show what becomes of somebody's paths.
FORBIDDEN_OUTSIDE_TESTS = {
    r"(?<![\w.])/(tmp|home|Users|opt)/": "a path of somebody's machine",
    r"\b[A-Z]:\\Users\\": "a path of somebody's machine",
}


def files():
    """Every file of the checkout that is not ignored."""
    git = shutil.which("git")
    if not git or not (ROOT / ".git").exists():
        pytest.skip("not a checkout")
    command = [git, "ls-files", "-z", "--cached", "--others", "--exclude-standard"]
    run = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)
    if run.returncode:
        pytest.skip(f"git can't tell: {run.stderr.strip()}")
    return [name for name in run.stdout.split("\0") if name and (ROOT / name).exists()]


def test_the_top_level_is_what_it_should_be():
    top = {name.partition("/")[0] for name in files()}
    assert {name for name in top if not name.startswith(".")} == TOP_LEVEL


def test_every_room_is_packed():
    """A folder that the project file does not list is missing from an installed jawcam."""
    listed = tomllib.loads((ROOT / "pyproject.toml").read_text())["tool"]["setuptools"]["packages"]
    rooms = {path.parent for path in (ROOT / "jawcam").rglob("*.py")}
    assert all((room / "__init__.py").is_file() for room in rooms)
    names = {".".join(room.relative_to(ROOT).parts) for room in rooms}
    assert set(listed) == names | {"jawcam.posts", "jawcam.samples"}


@pytest.mark.parametrize("name", ["posts", "samples"])
def test_data_is_found(name):
    assert folder(name).samefile(ROOT / name)
    assert list(folder(name).glob("*.toml"))


SAMPLES = sorted((ROOT / "samples").glob("*.toml"))


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_every_sample_is_read_and_has_its_drawing_beside_it(path):
    job = load(path, shown=path.name)
    if not job.part.turned:
        assert job.part.outline.is_file()
        assert job.part.outline.resolve().parent == path.parent
    posts = {post.stem for post in folder("posts").glob("*.toml")}
    assert {setup.post for setup in job.setups} <= posts


def test_every_drawing_belongs_to_a_sample():
    drawings = [load(path, shown=path.name).part.outline for path in SAMPLES]
    used = {drawing.name for drawing in drawings if drawing is not None}
    assert used == {path.name for path in (ROOT / "samples").glob("*.dxf")}


def test_no_text_holds_what_it_should_not():
    bad = []
    for name in files():
        path = ROOT / name
        text = _text(path)
        if text is None or path.samefile(__file__):
            continue
        patterns = FORBIDDEN if name.startswith("tests/") else FORBIDDEN | FORBIDDEN_OUTSIDE_TESTS
        for pattern, why in patterns.items():
            bad += [f"{_place(name, text, m)}: {m.group()!r}: {why}" for m in _found(pattern, text)]
    assert bad == []


def test_only_documents_that_exist_are_mentioned():
    bad = [
        f"{_place(name, text, match)}: {match.group()}"
        for name in files()
        if (text := _text(ROOT / name)) and not (ROOT / name).samefile(__file__)
        for match in _found(r"\b[A-Z]{3,}\.md\b", text)
        if match.group() not in DOCUMENTS
    ]
    assert bad == []


def test_the_patterns_find_what_they_are_for():
    patterns = FORBIDDEN | FORBIDDEN_OUTSIDE_TESTS
    bad = "/root/a /tmp/b C:\\Users\\me TODO sessions Issue #12 Co-authored-by: x <<<<<<< ours"
    assert all(re.search(pattern, bad) for pattern in patterns)
    clean = 'frame/root/a, hatch xxx, scope="session", an issue of 12 pages, tests/tmp/x'
    assert not any(re.search(pattern, clean) for pattern in patterns)


def _text(path: Path) -> str | None:
    """A file's text, None if it is a picture or the like."""
    data = path.read_bytes()
    return None if b"\0" in data else data.decode("utf-8", errors="replace")


def _found(pattern: str, text: str) -> list[re.Match[str]]:
    return list(re.finditer(pattern, text))


def _place(name: str, text: str, match: re.Match[str]) -> str:
    return f"{name}:{text.count(chr(10), 0, match.start()) + 1}"
