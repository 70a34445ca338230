"""Tables whose keys depend on one of their values, as those of a setup do on its `cut`."""

from __future__ import annotations

from collections.abc import Mapping

from jawcam.job.key import TURNED, Key
from jawcam.job.turn_keys import INSTEAD
from jawcam.job.words import guess, quoted

__all__ = ["chosen", "form_of"]


def chosen(key: Key, table: Mapping[str, object]) -> str | None:
    """Tell which form of a table is meant: one that is spelled wrong counts as the nearest one;
    None if there is no telling.
    """
    choices = next(one for one in key.keys if one.name == key.by).choices
    value = table.get(key.by)
    if not isinstance(value, str):
        return None
    return value if value in choices else guess(value, choices)


def form_of(key: Key, table: Mapping[str, object]) -> tuple[tuple[Key, ...], dict[str, str]]:
    """Give the keys of a table, and how to mend those that only other forms of it have. Where
    there is no telling which form it is, those are `keys`.
    """
    forms = dict(key.forms)
    if not forms:
        return key.keys, {}
    value = chosen(key, table)
    keys = forms.get(value or "", key.keys)
    known = {one.name for one in keys}
    in_tables = {part.name for one in keys if one.kind == "table" for part in one.keys}
    having: dict[str, list[str]] = {}
    for choice in next(one for one in key.keys if one.name == key.by).choices:
        for one in forms.get(choice, key.keys):
            if one.name not in known and one.name not in in_tables:
                having.setdefault(one.name, []).append(quoted(choice))
    mends = {
        name: f"leave it out; it goes with {key.by} = {' or '.join(values)}"
        for name, values in having.items()
    }
    if value == TURNED:
        mends |= INSTEAD
    return keys, mends
