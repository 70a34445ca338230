"""How far long work is, told to whoever wants to know."""

from __future__ import annotations

from collections.abc import Callable

__all__ = ["Told", "silent"]

Told = Callable[[str, int, int], None]
"""Called now and then with what is done, in words such as ``blocks read``, how many and of how
many."""


def silent(what: str, done: int, whole: int) -> None:
    """Nobody wants to know."""
    del what, done, whole
