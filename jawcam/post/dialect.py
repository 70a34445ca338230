"""The posts: their names, and one read from its file with every fault named."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from pathlib import Path

from jawcam.errors import Fault, FaultList, InputError, Place
from jawcam.post.check_lathe import check_lathe
from jawcam.post.check_mill import check_mill
from jawcam.post.check_words import check_words
from jawcam.post.fields import Form, nearest, parse
from jawcam.post.lathe_tables import LatheDialect
from jawcam.post.mill_tables import MillDialect
from jawcam.post.tables import Dialect
from jawcam.resources import folder

__all__ = ["Dialect", "load", "names", "text_of"]


def names() -> tuple[str, ...]:
    """The names of the posts that ship with jawcam, sorted."""
    return tuple(sorted(path.stem for path in folder("posts").glob("*.toml")))


def text_of(name_or_path: str, *, near: Path | None = None) -> str:
    """The text of a post's file, found as `load` finds it. Raises InputError."""
    try:
        return _path(name_or_path, near).read_text(encoding="utf-8")
    except (OSError, ValueError) as error:  # ValueError: no UTF-8, or no path at all
        why = error.strerror if isinstance(error, OSError) else "it is no UTF-8 text"
        fault = Fault(f"this post file can't be read: {why}", Place(name_or_path))
        raise InputError(fault) from None


def load(name_or_path: str, *, near: Path | None = None, controls: Collection[str] = ()) -> Dialect:
    """Read a post: a bare name is one that ships with jawcam, what ends in ``.toml`` is a file,
    its path taken from the folder `near`. controls: the kinds of control that a program can be
    read back as, to judge the post's; () for any.

    Raises InputError, holding every fault of the file with its line, column and key.
    """
    text = text_of(name_or_path, near=near)
    faults = FaultList()
    data = parse(text, name_or_path, faults)
    faults.raise_if_any()
    form = Form(text, name_or_path, faults)
    dialect = _built(form, data or {}, Path(name_or_path).stem)
    _check(dialect, form)
    if controls and form.sound("control") and dialect.control not in controls:
        what = f"no kind of control is called {dialect.control!r}"
        form.fault(what, "control", nearest(dialect.control, controls))
    faults.faults.sort(key=lambda fault: (fault.place.line, fault.place.column))
    faults.raise_if_any()
    return dialect


def _built(form: Form, data: Mapping[str, object], name: str) -> Dialect:
    """The post from its tables, which its kind says; if it doesn't, what they look like does."""
    kind = data.get("kind")
    if kind not in ("mill", "lathe"):
        known = "'mill' or 'lathe'"
        if "kind" in data:
            form.fault(f"there is no kind {kind!r} of machine", "kind", f"write {known}")
        else:
            form.fault("this key is missing", "kind", f"add it: {known}")
        kind = "lathe" if "lathe" in data else "mill"
    data = {**data, "kind": kind}
    if kind == "lathe":
        return form.build(LatheDialect, data, name=name)
    return form.build(MillDialect, data, name=name)


def _path(name_or_path: str, near: Path | None) -> Path:
    if name_or_path.endswith(".toml"):
        return (near or Path()) / name_or_path
    if name_or_path in names():
        return folder("posts") / f"{name_or_path}.toml"
    mend = f"{nearest(name_or_path, names())}; the posts are {', '.join(names())}"
    raise InputError(Fault(f"there is no post {name_or_path!r}", mend=mend))


def _check(dialect: Dialect, form: Form) -> None:
    """What no single key can tell."""
    check_words(dialect, form)
    match dialect:
        case MillDialect():
            check_mill(dialect, form)
        case LatheDialect():
            check_lathe(dialect, form)
