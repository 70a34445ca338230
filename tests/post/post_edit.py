"""A post file with some of its keys set to other values."""

from __future__ import annotations

import re

from jawcam.post.dialect import load
from jawcam.resources import folder


def edited(folder_, changes, base="rs274ngc-mill"):
    """The dialect of a shipped post's file in which keys such as ``numbers.sign`` stand otherwise;
    values as TOML. Written into a folder and loaded from there, as a person's own would be."""
    text = (folder("posts") / f"{base}.toml").read_text(encoding="utf-8")
    for path, value in changes.items():
        *table, key = path.split(".")
        begin = text.index(f"[{table[0]}]") if table else 0
        found = re.compile(rf"(?m)^{key} = .*$").search(text, begin)
        assert found, path
        text = f"{text[: found.start()]}{key} = {value}{text[found.end() :]}"
    (folder_ / "mine.toml").write_text(text, encoding="utf-8")
    return load("mine.toml", near=folder_)
