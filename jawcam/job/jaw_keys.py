"""The keys of a setup that bores a chuck's soft jaws to the part. Feeds are per turn."""

from __future__ import annotations

from jawcam.job import turn_keys
from jawcam.job.key import SIZE, Key

__all__ = ["SETUP"]

_OF_TURNING = {key.name: key for key in turn_keys.SETUP}
_OF_A_CHUCK = {key.name: key for key in _OF_TURNING["chuck"].keys}

_JAWS = (
    Key(
        "opening",
        "length",
        "the diameter that the jaws are open to before they are bored",
        "18",
        required=True,
        limits=SIZE,
    ),
    Key("outer", "length", "the diameter that the jaws go to", "60", required=True, limits=SIZE),
    Key("length", "length", "how long a jaw is along Z", "40", required=True, limits=SIZE),
    Key(
        "ring",
        "choice",
        "what the jaws are clamped on while they are bored",
        '"plug"',
        choices=("plug", "ring"),
    ),
    Key("material", "text", "what the jaws are made of", '"mild steel"'),
)

_CHUCK = (
    Key(
        "max_rpm",
        "speed",
        _OF_A_CHUCK["max_rpm"].says,
        "3000",
        required=True,
        limits=_OF_A_CHUCK["max_rpm"].limits,
    ),
    _OF_A_CHUCK["dia"],
)

SETUP = (
    Key(
        "grips",
        "choice",
        "the end of the part that the jaws will hold",
        '"B"',
        required=True,
        choices=("A", "B"),
    ),
    Key("depth", "length", "how deep the bore is", "18", required=True, limits=SIZE),
    Key("jaws", "table", "the soft jaws", required=True, keys=_JAWS),
    Key("chuck", "table", "the chuck that the jaws are on", required=True, keys=_CHUCK),
    _OF_TURNING["speeds"],
    Key("bore", "table", "the boring", keys=_OF_TURNING["bore"].keys),
    Key(
        "groove",
        "table",
        "the relief at the foot of the bore",
        default=None,
        keys=_OF_TURNING["groove"].keys,
    ),
    _OF_TURNING["clearance"],
    _OF_TURNING["travel_at"],
)
"""Those beside the ones that all setups have."""
