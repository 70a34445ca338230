"""Jaw materials: surface speed and chip load for carbide end mills, to start from.

They are shop values, to be corrected by ear and by the chips; a tool's own numbers in the job win.
"""

from __future__ import annotations

import difflib
import re
from dataclasses import dataclass

from jawcam.units import MM_PER_INCH

__all__ = ["MATERIALS", "PRACTICE", "Chips", "Material", "find", "suggestion"]

PRACTICE = "common practice, no source"
_CHART = "a shop chart"

Chips = tuple[tuple[float, float], ...]
"""Rows of cutter diameter and chip load per tooth, in mm, growing."""


@dataclass(frozen=True)
class Material:
    """surface_speed: m/min; chips: chip load by diameter; speed_origin, chip_origin: where the
    two come from; aliases: other names for it, in lower case; group: its ISO 513 letter and
    VDI 3323 number, as hard as it is sold, "" where that has none for it.
    """

    name: str
    aliases: tuple[str, ...]
    surface_speed: float
    speed_origin: str
    chips: Chips
    chip_origin: str
    group: str = ""


def _inches(*rows: tuple[float, float]) -> Chips:
    return tuple((dia * MM_PER_INCH, chip * MM_PER_INCH) for dia, chip in rows)


# Rows of a shop chart: end mill diameter in inches, inches per tooth.
_ALUMINIUM_CHIPS = _inches(
    (1 / 8, 0.001),
    (3 / 16, 0.002),
    (1 / 4, 0.002),
    (3 / 8, 0.003),
    (1 / 2, 0.004),
    (5 / 8, 0.005),
    (3 / 4, 0.006),
    (1, 0.007),
)
_BRASS_CHIPS = _inches(
    (1 / 8, 0.001),
    (3 / 16, 0.001),
    (1 / 4, 0.002),
    (3 / 8, 0.0025),
    (1 / 2, 0.003),
    (5 / 8, 0.004),
    (3 / 4, 0.004),
    (1, 0.005),
)
# The ends of another chart's row for low-carbon steel and high-speed steel cutters.
_STEEL_CHIPS = _inches((1 / 4, 0.001), (1, 0.004))
_PLASTIC_CHIPS = ((3.0, 0.04), (6.0, 0.08), (12.0, 0.15), (25.0, 0.2))

MATERIALS = (
    Material(
        "aluminium 6061",
        ("aluminum 6061", "al 6061", "6061", "6061-t6", "aluminium 6061-t6", "aluminium"),
        200.0,
        PRACTICE,
        _ALUMINIUM_CHIPS,
        _CHART,
        "N22",
    ),
    Material(
        "aluminium 7075",
        ("aluminum 7075", "al 7075", "7075", "7075-t6", "aluminium 7075-t6"),
        180.0,
        PRACTICE,
        _ALUMINIUM_CHIPS,
        _CHART,
        "N22",
    ),
    Material(
        "brass 360",
        ("brass", "360 brass", "c36000", "cuzn36pb3", "cuzn39pb3"),
        150.0,
        PRACTICE,
        _BRASS_CHIPS,
        _CHART,
        "N26",
    ),
    Material(
        "mild steel",
        ("low-carbon steel", "low carbon steel", "s235", "s235jr", "1018", "a36"),
        90.0,
        PRACTICE,
        _STEEL_CHIPS,
        f"{_CHART}, for cutters of high-speed steel",
        "P1",
    ),
    Material(
        "acetal",
        ("pom", "pom-c", "pom-h", "polyoxymethylene"),
        200.0,
        PRACTICE,
        _PLASTIC_CHIPS,
        PRACTICE,
    ),
    Material(
        "nylon",
        ("pa6", "pa 6", "pa66", "polyamide", "polyamide 6"),
        180.0,
        PRACTICE,
        _PLASTIC_CHIPS,
        PRACTICE,
    ),
)


def find(name: str) -> Material | None:
    """Look a material up by its name or an alias; None if there is none of it."""
    return _BY_NAME.get(_plain(name))


def suggestion(name: str) -> str:
    """Say how to mend a material that isn't there: the one most like it, or all of them."""
    near = difflib.get_close_matches(_plain(name), _BY_NAME, n=1, cutoff=0.7)
    if near:
        return f"did you mean {_BY_NAME[near[0]].name}?"
    return "choose from " + ", ".join(material.name for material in MATERIALS)


def _plain(name: str) -> str:
    """Fold case, blanks and underscores away."""
    return re.sub(r"[\s_]+", " ", name.strip().casefold())


_BY_NAME = {
    _plain(name): material for material in MATERIALS for name in (material.name, *material.aliases)
}
