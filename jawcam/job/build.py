"""The checked values of a job file -> the frozen job."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

from jawcam.job.check import Values
from jawcam.job.model import (
    Blanks,
    Bolt,
    Clamp,
    Corners,
    Datum,
    DrillHole,
    EdgeBreak,
    Facing,
    Finish,
    Fit,
    Hold,
    Job,
    Keep,
    Layer,
    Machine,
    NextCut,
    Part,
    Rough,
    Setup,
)
from jawcam.part.piece import Piece
from jawcam.tools.cutter import Cutter
from jawcam.units import Units

__all__ = ["built_job"]

_T = TypeVar("_T")


def built_job(values: Values, file: str, units: Units, lines: tuple[tuple[str, int], ...]) -> Job:
    """Build the job from values without a fault, in mm, degrees, minutes, N and N m.

    file: its name as the person typed it; lines: key path -> line of the file.
    """
    return Job(
        file=file,
        title=values["title"],
        units=units,
        part=_part(values["part"]),
        tools=tuple(Cutter(**tool) for tool in values["tool"]),
        setups=tuple(_setup(setup) for setup in values["setup"]),
        machine=Machine(**values["machine"]),
        together=values.get("together", False),
        lines=lines,
    )


def _part(values: Values) -> Part:
    units, turned = values["drawing_units"], values["turned"]
    layers = tuple(Layer(**layer) for layer in values["layers"])
    thickness = values["thickness"]
    if turned:
        thickness = sum(piece["len"] for piece in turned)
    elif layers:
        thickness = max(layer.top for layer in layers)
    return Part(
        **{
            **values,
            "thickness": thickness,
            "layers": layers,
            "drawing_units": units and Units(units),
            "turned": tuple(_piece(piece) for piece in turned),
            "bore": tuple(_piece(piece) for piece in values.get("bore", ())),
        }
    )


def _piece(values: Values) -> Piece:
    start, end = values["dia"]
    return Piece(
        start,
        end,
        values["len"],
        chamfer=values.get("chamfer", 0.0),
        rounding=values.get("round", 0.0),
        limits=values.get("limits"),
        thread=values.get("thread", ""),
    )


def _setup(values: Values) -> Setup:
    return Setup(
        **{
            **values,
            "jaws": Blanks(**values["jaws"]),
            "hold": Hold(**values["hold"]),
            "fit": _fit(values["fit"]),
            "keep": Keep(**values["keep"]),
            "bolts": tuple(Bolt(**_placed(bolt)) for bolt in values.get("bolts", ())),
            "face": _maybe(Facing, values["face"]),
            "rough": Rough(**values["rough"]),
            "finish": Finish(**values["finish"]),
            "corners": Corners(**values["corners"]),
            "edges": _maybe(EdgeBreak, values["edges"]),
            "holes": tuple(DrillHole(**_placed(hole)) for hole in values.get("holes", ())),
            "zero": Datum(**values["zero"]),
            "clamp": _maybe(Clamp, values["clamp"]),
            "next_cut": _maybe(NextCut, values["next_cut"]),
        }
    )


def _fit(values: Values) -> Fit:
    grip = values.get("grip", 0.0)
    letters = isinstance(grip, str)
    return Fit(**{**values, "grip": 0.0 if letters else grip, "letters": grip if letters else ""})


def _placed(values: Values) -> Values:
    """Give x and y in place of `at`."""
    x, y = values["at"]
    return {"x": x, "y": y, **{key: value for key, value in values.items() if key != "at"}}


def _maybe(made: Callable[..., _T], values: Values | None) -> _T | None:
    return None if values is None else made(**values)
