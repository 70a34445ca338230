"""What a job says of its part: frozen, in mm, every default filled in."""

from __future__ import annotations

import pathlib
from dataclasses import dataclass
from typing import Literal

from jawcam.part.piece import Piece
from jawcam.units import Units

__all__ = ["Layer", "Part"]


@dataclass(frozen=True)
class Layer:
    """A drawing layer whose outline the part fills from `bottom` to `top`, heights in mm above the
    part's underside as it is drawn."""

    layer: str
    bottom: float
    top: float


@dataclass(frozen=True)
class Part:
    """The part: either an outline or a turned one, whose table or half profile is given.

    outline: its drawing, already resolved against the job's folder; layer: the drawing layer to
    take, None for all; layers: several of them with their heights; drawing_units: for a drawing
    that states none; thickness: its height, of a turned part its length, 0 of one
    with a half profile, whose drawing tells it. turned, bore: along the
    axis from end A; bore is told and drawn only. edge: how far its edges are broken. profile: the
    drawing of a half profile; axis: where its axis is, ``y = 0`` or a layer, None for what the
    drawing shows; end_a: at which end of the drawing end A is.
    """

    material: str
    thickness: float
    outline: pathlib.Path | None = None
    layer: str | None = None
    layers: tuple[Layer, ...] = ()
    drawing_units: Units | None = None
    turned: tuple[Piece, ...] = ()
    bore: tuple[Piece, ...] = ()
    edge: float = 0.0
    profile: pathlib.Path | None = None
    axis: str | None = None
    end_a: Literal["left", "right"] = "left"
