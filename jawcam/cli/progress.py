"""How far long work is, on one line of the terminal; nothing where nobody looks."""

from __future__ import annotations

import contextlib
import shutil
import sys
import time
from collections.abc import Iterator

from jawcam.progress import Told, silent

__all__ = ["telling"]

AFTER, EVERY = 0.4, 0.1
"""Seconds: work that is done by then tells nothing, and longer work no more often."""


@contextlib.contextmanager
def telling() -> Iterator[Told]:
    """What to tell progress to. It is written over itself on standard error, and gone at the end;
    a pipe or a file never gets any."""
    if not sys.stderr.isatty():
        yield silent
        return
    line = _Line()
    try:
        yield line.told
    finally:
        line.clear()


class _Line:
    """The line. wide: how many characters of it are written."""

    def __init__(self) -> None:
        self.wide = 0
        self.due = time.monotonic() + AFTER

    def told(self, what: str, done: int, whole: int) -> None:
        """Say how far it is, if it is time to."""
        now = time.monotonic()
        if now < self.due:
            return
        self.due = now + EVERY
        text = f"{what}: {done:,} of {whole:,}"[: shutil.get_terminal_size().columns - 1]
        self._write(f"\r{text.ljust(self.wide)}")
        self.wide = len(text)

    def clear(self) -> None:
        """Leave the terminal as it was."""
        if self.wide:
            self._write(f"\r{' ' * self.wide}\r")

    @staticmethod
    def _write(text: str) -> None:
        sys.stderr.write(text)
        sys.stderr.flush()
