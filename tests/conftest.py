"""Golden files: a text is compared with the one in the repository, or replaces it on demand.
Property tests try the same examples in every run, unless they are asked to search for new ones
with ``--hypothesis-profile=search``. Files that take long begin first: a core that is given one in
the end would be waited for."""

from __future__ import annotations

from pathlib import Path

import hypothesis
import pytest

hypothesis.settings.register_profile("steady", derandomize=True, deadline=None)
hypothesis.settings.register_profile("search", derandomize=False, deadline=None)
hypothesis.settings.load_profile("steady")

HERE = Path(__file__).parent
GOLDEN = HERE / "golden"
LONG = (
    "whole/",
    "faulty/",
    "post/test_post_samples.py",
    "proof/test_proof_field.py",
    "show/test_show_page.py",
    "turn/test_turn_groove.py",
    "turn/test_turn_rough.py",
)


def pytest_addoption(parser):
    parser.addoption(
        "--update-goldens",
        action="store_true",
        help="rewrite the files in tests/golden that differ, if their texts pass their check",
    )


def pytest_collection_modifyitems(items):
    items.sort(key=lambda item: not item.path.relative_to(HERE).as_posix().startswith(LONG))


@pytest.fixture
def golden(request):
    """Compare `text` with the file `name` in tests/golden.

    `check` is called with the text first, so that an update never stores one that fails it.
    """

    def compare(name, text, check=lambda _: None):
        check(text)
        path = GOLDEN / name
        if request.config.getoption("--update-goldens"):
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(text.encode())
        assert path.is_file(), f"{path} is missing: run pytest --update-goldens and read it"
        assert text == path.read_bytes().decode()

    return compare
