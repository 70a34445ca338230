"""Bites that are far fuller at one place than anywhere else at the same feed.

Whoever sets a feed has a bite in mind. Where at one feed nearly all of the way takes about the same
and one place far more, something that should have been cut before it still stands there: a pass is
left out, or two come in the wrong order. Nothing is known here of what was meant, only what the
program itself does elsewhere.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from jawcam.proof.bite import WINDOW, sums, windows
from jawcam.proof.curve import Floats
from jawcam.proof.report import Finding
from jawcam.proof.scene import Scene
from jawcam.tools.reasons import feed_words

__all__ = ["uneven"]

NEARLY_ALL = 0.97
"""Of the way at a feed that cuts: what nothing but single places takes more than."""

FULLER = 1.5
"""Times as much, and it is told (common practice, no source)."""

HEAVY = 0.06
"""Of the cutter's diameter squared: a smaller bite is no matter, whatever the others are (common
practice, no source)."""

LONG = 25.0
"""Diameters of cutting way at a feed: what is shorter tells nothing of the rest."""


def uneven(scene: Scene) -> list[Finding]:
    """One finding for each tool, feed and block with such a bite."""
    bitten = scene.bitten
    feeds = np.array([scene.program.cuts[move.index].feed for move in bitten.moves])
    level = np.array([move.high - move.low < scene.limits.level for move in bitten.moves])
    found: list[Finding] = []
    for tool in dict.fromkeys(move.cutter.number for move in bitten.moves):
        rows = bitten.by(tool)
        rows = rows[level[bitten.number[rows]]]  # on its way down a cutter bites otherwise
        own = feeds[bitten.number[rows]]
        order = np.argsort(own, kind="stable")
        for some in np.split(rows[order], np.flatnonzero(np.diff(own[order])) + 1):
            if len(some) and feeds[bitten.number[some[0]]] > 0:
                found += _at(scene, some)
    return found


def _at(scene: Scene, rows: NDArray[np.intp]) -> Iterator[Finding]:
    """Those of one tool at one feed."""
    bitten = scene.bitten
    dia = bitten.move(int(rows[0])).cutter.dia
    way = bitten.cut[rows]
    if way.sum() < LONG * dia:
        return
    full = _fullness(scene, rows, WINDOW * dia)
    usual = _share(full, way, NEARLY_ALL)
    much = (full > FULLER * usual) & (full > HEAVY * dia * dia)
    for number in np.unique(bitten.number[rows[much]]).tolist():
        here = np.flatnonzero(much & (bitten.number[rows] == number))
        worst = int(here[np.argmax(full[here])])
        yield _finding(scene, int(rows[worst]), float(full[worst]), float(full[worst] / usual))


def _fullness(scene: Scene, rows: NDArray[np.intp], window: float) -> Floats:
    """What is taken to each mm of way from each row on, mm2: the mean over `window` mm, no farther
    than rows follow each other."""
    bitten = scene.bitten
    apart = (np.diff(rows) > 1) | (np.diff(bitten.run[rows]) != 0)
    run = np.concatenate(([0], np.cumsum(apart)))
    first, last = windows(bitten.way[rows], run, np.full(len(rows), window))
    return sums(bitten.volume[rows], first, last) / window


def _share(values: Floats, weights: Floats, share: float) -> float:
    """The value that so large a share of the weight lies at or under."""
    order = np.argsort(values)
    total = np.cumsum(weights[order])
    return float(values[order][np.searchsorted(total, share * total[-1])])


def _finding(scene: Scene, row: int, full: float, times: float) -> Finding:
    bitten = scene.bitten
    by, at, thick = bitten.move(row), bitten.place(row), float(bitten.thick[row])
    wide = min(full / thick, by.cutter.dia) if thick > 0 else by.cutter.dia
    feed = feed_words(scene.program.cuts[by.index].feed, scene.target.units)
    what = (
        f"T{by.cutter.number} bites {scene.say(wide)} wide and {scene.say(thick)} deep at {feed}, "
        f"{times:.1f} times as much as nearly everywhere else at that feed"
    )
    mend = "cut first what still stands there, or slow down for it"
    return scene.find("P611", "warn", what, by=by, at=at, amount=wide, mend=mend)
