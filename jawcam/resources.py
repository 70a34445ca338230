"""Where the data that ships with jawcam lies, installed or in a checkout."""

from __future__ import annotations

from pathlib import Path

from jawcam.errors import InternalError

__all__ = ["folder"]


def folder(name: str) -> Path:
    """The folder `name` (``posts`` or ``samples``).

    An installed package has it inside, an editable one beside. Raises InternalError if neither.
    """
    inside = Path(__file__).resolve().parent / name
    beside = Path(__file__).resolve().parents[1] / name
    for place in (inside, beside):
        if place.is_dir():
            return place
    raise InternalError(f"the folder {name!r} is missing from this installation")
