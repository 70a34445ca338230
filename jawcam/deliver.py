"""Files that appear whole or not at all."""

from __future__ import annotations

import contextlib
import os
import signal
import threading
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path

from jawcam.errors import Fault, InputError, Place

__all__ = ["deliver"]


def deliver(folder: Path, files: Mapping[str, Callable[[Path], None]]) -> tuple[Path, ...]:
    """Write files into a folder (made if missing): each is written under a passing name, and
    only when all of them are whole do they get their names.

    files: name -> a function that writes the file at the path it is given. Raises InputError
    when the folder can't be written to; nothing is left behind then, nor on any other failure.
    """
    made = not folder.exists()
    passing = {name: folder / f".part-{os.getpid()}-{name}" for name in files}
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for name, save in files.items():
            save(passing[name])
        with _uninterrupted():
            for name in files:
                passing[name].replace(folder / name)
    except OSError as error:
        place = Place(file=str(folder))
        what = f"can't write here: {error.strerror or error}"
        raise InputError(Fault(what, place, "name another folder with --out")) from error
    finally:
        for path in passing.values():
            path.unlink(missing_ok=True) if path.parent.is_dir() else None
        if made and folder.is_dir() and not any(folder.iterdir()):
            folder.rmdir()
    return tuple(folder / name for name in files)


@contextlib.contextmanager
def _uninterrupted() -> Iterator[None]:
    """Ctrl-C waits until all the names are given."""
    if threading.current_thread() is not threading.main_thread():
        yield  # only the main thread is ever interrupted
        return
    asked: list[int] = []
    before = signal.signal(signal.SIGINT, lambda number, _: asked.append(number))
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before if before is not None else signal.SIG_DFL)
    if asked:
        raise KeyboardInterrupt
