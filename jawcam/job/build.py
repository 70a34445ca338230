"""The checked values of a job file -> the frozen job."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

from jawcam.job.build_turned import built_jaws, built_turner, built_turning
from jawcam.job.check import Values
from jawcam.job.key import CHUCK_JAWS, TURNED
from jawcam.job.lookup import on_lathe
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
    Spacer,
    Travel,
    Vise,
)
from jawcam.job.single import DrillFeed
from jawcam.part.piece import Piece
from jawcam.tools.cutter import KINDS, Cutter, HolderStep
from jawcam.tools.turner import KINDS as LATHE_KINDS
from jawcam.units import Units

__all__ = ["built_job"]

_T = TypeVar("_T")


def built_job(values: Values, file: str, units: Units, lines: tuple[tuple[str, int], ...]) -> Job:
    """Build the job from values without a fault, in mm, degrees, minutes, N and N m.

    file: its name as the person typed it; lines: key path -> line of the file.
    """
    setups = values["setup"]
    milled = [setup for setup in setups if not on_lathe(setup)]
    turned = [setup for setup in setups if setup["cut"] == TURNED]
    bored = [setup for setup in setups if setup["cut"] == CHUCK_JAWS]
    turners = [tool for tool in values["tool"] if tool["kind"] in LATHE_KINDS]
    if not turned and not bored:
        turners = [tool for tool in turners if tool["kind"] not in KINDS]
    return Job(
        file=file,
        title=values["title"],
        units=units,
        part=_part(values["part"]),
        tools=tuple(_cutter(tool) for tool in values["tool"] if tool["kind"] in KINDS),
        setups=tuple(_setup(setup) for setup in milled),
        machine=_machine(values["machine"]),
        together=values.get("together", False),
        turnings=tuple(built_turning(setup) for setup in turned),
        turners=tuple(built_turner(tool) for tool in turners),
        order=tuple(setup["name"] for setup in setups),
        lines=lines,
        jaw_borings=tuple(built_jaws(setup) for setup in bored),
    )


def _part(values: Values) -> Part:
    units, turned = values["drawing_units"], values["turned"]
    layers = tuple(Layer(**layer) for layer in values["layers"])
    thickness = values["thickness"]
    if turned:
        thickness = sum(piece["len"] for piece in turned)
    elif values["profile"]:
        thickness = 0.0  # the drawing tells it
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


def _machine(values: Values) -> Machine:
    curve = tuple(sorted((row["rpm"], row["power"]) for row in values.get("curve", ())))
    travels = {key: Travel(**values.get(key, {})) for key in ("travel", "lathe_travel")}
    return Machine(**{**values, **travels, "curve": curve})


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


def _cutter(values: Values) -> Cutter:
    """Build a milling cutter, or a drill without what only a lathe asks for."""
    own = {key: value for key, value in values.items() if key not in ("offset", "tip")}
    if isinstance(own.get("feed"), DrillFeed):
        own["feed"] = own["feed"].minute
    own["holder"] = tuple(HolderStep(one["dia"], one["len"]) for one in values.get("holder", ()))
    return Cutter(**own)


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
            "vise": _maybe(Vise, values["vise"]),
            "spacers": tuple(Spacer(**spacer) for spacer in values.get("spacers", ())),
            "travel_at": Travel(**values["travel_at"]),
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
