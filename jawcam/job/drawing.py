"""The drawing that a job names: where it must lie, and what to say when it doesn't."""

from __future__ import annotations

import difflib
import pathlib

from jawcam.job.words import WrongValueError, listing, quoted

__all__ = ["find_drawing"]

_MANY = 2000  # entries of a folder that are looked at for a better name
_SHOWN = 5


def find_drawing(folder: pathlib.Path, name: str, *, outside: bool) -> pathlib.Path:
    """Find the drawing `name` in the job's `folder`.

    Unless `outside`, it must not leave that folder: not as an absolute path, not by ``..`` and
    not through a symbolic link. Raises WrongValueError.
    """
    path = pathlib.PurePath(name)
    if not outside and (path.is_absolute() or path.anchor or ".." in path.parts):
        raise _outside(name)
    drawing = folder / path
    try:
        if not outside and not drawing.resolve().is_relative_to(folder.resolve()):
            raise _outside(name)
        if drawing.is_file():
            return drawing
        found = "is a folder" if drawing.is_dir() else "does not exist"
    except (OSError, ValueError, RuntimeError) as error:  # too long, or a link to itself
        what = f"the drawing {quoted(name)} can't be looked up"
        raise WrongValueError(what, "check its name") from error
    raise WrongValueError(f"the drawing {quoted(name)} {found}", _suggestion(drawing))


def _outside(name: str) -> WrongValueError:
    what = f"the drawing {quoted(name)} lies outside the job's folder"
    return WrongValueError(what, "put the drawing beside the job, or pass `--outside`")


def _suggestion(drawing: pathlib.Path) -> str:
    """Name the file meant, or those of the same kind beside it."""
    try:
        entries = sorted(entry.name for entry in drawing.parent.iterdir())[:_MANY]
    except OSError:
        return "check its name; its folder can't be read"
    folded = {name.casefold(): name for name in entries}
    near = difflib.get_close_matches(drawing.name.casefold(), folded, n=1)
    near = near or [one for one in folded if pathlib.PurePath(one).stem == drawing.name.casefold()]
    if near:
        return f"did you mean {folded[near[0]]}?"
    alike = [name for name in entries if pathlib.PurePath(name).suffix.casefold() in _KINDS]
    return f"its folder holds {listing(alike[:_SHOWN])}" if alike else "put the drawing there"


_KINDS = (".dxf", ".svg")
