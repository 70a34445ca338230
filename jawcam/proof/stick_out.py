"""How far a tool must stand out of its holder, so that the holder meets nothing on its moves."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from jawcam.proof.bodies import Block, holder_of
from jawcam.proof.limits import Limits
from jawcam.proof.move import Move
from jawcam.proof.standing import rise
from jawcam.proof.stock import Stock
from jawcam.proof.sweep import path

__all__ = ["stick_out"]


def stick_out(
    own: Sequence[Move], blocks: Sequence[Block], clearance: float, limits: Limits, stock: Stock
) -> float:
    """The least of it for all the moves of one tool, mm. blocks: beside the blanks; clearance:
    above the jaw top.

    A holder that the job tells keeps `limits.holder` off all that stands at the time, and off the
    blocks. One that it doesn't tell is taken to be wider than anything: it stays at the clearance
    above the jaw top, and above whatever stands higher.
    """
    cutter = own[0].cutter
    if not cutter.holder:
        feeds = [move.low for move in own if move.kind != "rapid"]
        top = max([0.0, *(block.top for block in blocks)])
        return top + clearance - min([0.0, *feeds])
    tracks = np.array([path(move) for move in own], dtype=object)
    asides = [(block.top, block.aside(tracks)) for block in blocks]
    most = 0.0
    for body in holder_of(cutter):
        wide = body.radius + limits.holder
        rises = [rise(stock, own, wide, limits.level)]
        for top, aside in asides:
            close = aside <= wide
            rises += [top - m.low for m, yes in zip(own, close, strict=True) if yes]
        most = max(most, max(rises) + limits.holder - body.height)
    return most
