"""How long one job's program is in each post, and how far it lies off what was planned. The figures
are those that the tests hold the posts to; there is no baseline."""

from __future__ import annotations

from collections.abc import Iterator

from measuring import ROOT, Row

__all__ = ["rows"]

SAMPLES = ("bearing-bracket", "burr-spindle")


def rows(*, quick: bool) -> Iterator[Row]:
    """The rows of this file; they cost nothing, so that `quick` changes none."""
    del quick
    for sample in SAMPLES:
        path = ROOT / "tests" / "golden" / "samples" / sample / "all-posts.txt"
        _, *lines = path.read_text(encoding="utf-8").splitlines()
        for post, count, *_, off in map(str.split, lines):
            yield Row(f"{sample} in {post}", float(count), unit="lines")
            yield Row(f"{sample} in {post}, farthest off", float(off), unit="um")
