"""Pictures into files: the same picture gives the same bytes."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from matplotlib.figure import Figure

from jawcam.errors import Fault, InputError, Place
from jawcam.show.style import drawing_style

__all__ = ["ENDINGS", "check_ending", "save"]

ENDINGS: dict[str, dict[str, Any]] = {
    ".png": {"Software": None},
    ".svg": {"Date": None, "Creator": None},
    ".pdf": {"CreationDate": None, "Creator": None, "Producer": None},
}
"""What each kind of file says about itself: no date, no program version."""

PACKING: dict[str, dict[str, Any]] = {".png": {"pil_kwargs": {"compress_level": 1}}}
"""How tightly files are packed: line drawings gain little from more, and it costs time."""


def save(figure: Figure, path: Path | str, settings: Mapping[str, Any] | None = None) -> None:
    """Write a figure to a .png, .svg or .pdf file, as the ending says. settings: those that it was
    drawn with beside the pictures' own style. Raises InputError for any other ending and for a file
    that can't be written.
    """
    path = Path(path)
    ending = check_ending(path)
    try:
        with drawing_style(settings):
            figure.savefig(
                path,
                format=ending[1:],
                dpi=150,
                metadata=ENDINGS[ending],
                **PACKING.get(ending, {}),
            )
    except OSError as error:
        reason = error.strerror or str(error)
        fault = Fault(
            f"the picture can't be written: {reason}",
            Place(file=str(path)),
            "name a folder that exists and may be written to",
        )
        raise InputError(fault) from error


def check_ending(path: Path) -> str:
    """The ending of a picture's file, in lower case. Raises InputError if it is none we write."""
    ending = path.suffix.lower()
    if ending not in ENDINGS:
        fault = Fault(
            f"a picture can't be written as {ending or 'a file without an ending'}",
            Place(file=str(path)),
            "let the file's name end in .png, .svg or .pdf",
        )
        raise InputError(fault)
    return ending
