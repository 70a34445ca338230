"""The checked values of a lathe's tools and setups -> their part of the frozen job."""

from __future__ import annotations

from jawcam.job.check import Values
from jawcam.job.jaw_model import BoringChuck, ChuckJaws, JawSetup
from jawcam.job.turn_model import (
    Chuck,
    Drilling,
    Grooving,
    PartingOff,
    Speeds,
    Stock,
    Threading,
    TurnFinish,
    TurnRough,
    TurnSetup,
)
from jawcam.tools.machine import Travel
from jawcam.tools.turner import Turner

__all__ = ["built_jaws", "built_turner", "built_turning"]

_OF_A_DRILL = ("number", "name", "offset", "tip", "dia", "surface")
_NAMED_OTHERWISE = {"angle": "point_angle"}


def built_turner(values: Values) -> Turner:
    """Build a tool of the lathe; of a drill what both machines ask for, its stickout being how far
    it stands out of the block.
    """
    kind = values["kind"]
    own = {_NAMED_OTHERWISE.get(key, key): value for key, value in values.items()}
    if kind == "drill":
        feed = values.get("feed")
        own = {key: values[key] for key in _OF_A_DRILL if key in values}
        own |= {"kind": kind, "feed": feed and feed.turn, "overhang": values.get("stickout")}
        if "angle" in values:
            own["point_angle"] = values["angle"]
    return Turner(**{"inside": kind == "boring", **own})


def built_turning(values: Values) -> TurnSetup:
    """Build a setup on the lathe."""
    own = {key: value for key, value in values.items() if key != "cut"}
    drill, bore, part_off = values["drill"], values["bore"], values["part_off"]
    return TurnSetup(
        **{
            **own,
            "stock": Stock(**values["stock"]),
            "chuck": Chuck(**values["chuck"]),
            "speeds": Speeds(**values["speeds"]),
            "rough": TurnRough(**values["rough"]),
            "finish": TurnFinish(**values["finish"]),
            "groove": Grooving(**values["groove"]),
            "thread": Threading(**values["thread"]),
            "drill": None if drill is None else Drilling(**drill),
            "bore": None if bore is None else TurnRough(**bore),
            "part_off": None if part_off is None else PartingOff(**part_off),
            "travel_at": Travel(**values["travel_at"]),
        }
    )


def built_jaws(values: Values) -> JawSetup:
    """Build a setup that bores a chuck's jaws."""
    own = {key: value for key, value in values.items() if key != "cut"}
    groove = values["groove"]
    return JawSetup(
        **{
            **own,
            "jaws": ChuckJaws(**values["jaws"]),
            "chuck": BoringChuck(**values["chuck"]),
            "speeds": Speeds(**values["speeds"]),
            "bore": TurnRough(**values["bore"]),
            "groove": None if groove is None else Grooving(**groove),
            "travel_at": Travel(**values["travel_at"]),
        }
    )
