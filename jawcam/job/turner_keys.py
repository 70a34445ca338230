"""The keys of lathe tools, by kind: their feeds are per turn, their speeds those of the surface."""

from __future__ import annotations

from dataclasses import replace

from jawcam.job.key import ANYWHERE, NOT_NEGATIVE, PER_TURN, SIZE, SURFACE, Key, Limits

__all__ = ["of_drills", "of_turners"]

_HAND = Key("hand", "choice", "its hand", '"right"', choices=("right", "left", "neutral"))
_INSERT = Key("insert", "insert", "the designation of its insert", '"DCMT11T304"', required=True)
_APPROACH = Key(
    "approach",
    "angle",
    "the angle between its main edge and the feed along Z",
    "93",
    limits=Limits(least=30, most=120),
)
_WIDTH = Key("width", "length", "the width of its edge", "3", required=True, limits=SIZE)
_RADIUS = Key("radius", "length", "the radius of its corners", "0.2", limits=NOT_NEGATIVE)
_REACH = Key("reach", "length", "how deep it goes", "12", required=True, limits=SIZE)
_PITCH_ANGLE = Key(
    "pitch_angle",
    "angle",
    "the angle between the flanks of its insert",
    "60",
    limits=Limits(over=0, most=90),
)
_INSIDE = Key("inside", "flag", "whether it works in a bore", "true")
_LEAST_BORE = Key("least_bore", "length", "the smallest bore that it goes into", "16", limits=SIZE)
_SHANK = Key("shank", "length", "how wide its holder is behind the edge", "20", limits=SIZE)
_OVERHANG = Key("overhang", "length", "how far it stands out of its block", "40", limits=SIZE)
_TURNS = Key(
    "turns",
    "choice",
    "which way the spindle turns for it",
    '"clockwise"',
    choices=("clockwise", "counter-clockwise"),
)
_OFFSET = Key(
    "offset", "whole", "the number of its wear offset", "3", limits=Limits(least=0, most=99)
)
_SURFACE = Key("surface", "surface speed", "its cutting speed", "200", limits=SURFACE)
_FEED = Key("feed", "feed per turn", "its feed per turn", "0.2", limits=PER_TURN)
_DEPTH = Key("depth", "length", "its depth of cut on radius", "1.5", limits=SIZE)
_POINT = Key("angle", "angle", "the angle of its point", "60", limits=Limits(over=0, most=180))
_DIA = Key("dia", "length", "its diameter", "4", required=True, limits=Limits(over=0, most=200))

_TIP = Key(
    "tip",
    "lengths",
    "how far its tip stands off the slide's point that the travel counts for, X and Z",
    "[60, -40]",
    count=2,
    limits=ANYWHERE,
)

_HELD = (_OFFSET, _HAND, _TURNS, _SHANK, _OVERHANG, _TIP, _SURFACE, _FEED)
_IN_BORES = (_INSIDE, _LEAST_BORE)

_KINDS: tuple[tuple[str, tuple[Key, ...]], ...] = (
    ("turning", (_INSERT, _APPROACH, _DEPTH, *_IN_BORES, *_HELD)),
    ("boring", (_INSERT, _APPROACH, _DEPTH, *_IN_BORES, *_HELD)),
    ("grooving", (_WIDTH, _REACH, _RADIUS, *_IN_BORES, *_HELD)),
    ("threading", (_PITCH_ANGLE, *_IN_BORES, *_HELD)),
    ("parting", (_WIDTH, _REACH, _RADIUS, *_HELD)),
    ("centre drill", (_DIA, _POINT, _OFFSET, _OVERHANG, _TIP, _SURFACE, _FEED)),
)


def of_turners(common: tuple[Key, ...]) -> tuple[tuple[str, tuple[Key, ...]], ...]:
    """Give the keys of each kind of lathe tool but drills, behind those that all tools have."""
    return tuple((kind, (*common, *keys)) for kind, keys in _KINDS)


def of_drills(cutter: tuple[Key, ...]) -> tuple[Key, ...]:
    """Give the keys of a drill, which serves the mill and the lathe: those of a cutter, its feed
    by its unit per minute or per turn, and what a lathe asks for.
    """
    own = tuple(
        replace(key, kind="drill feed", says="its feed per minute, or with a unit per turn")
        if key.name == "feed"
        else key
        for key in cutter
    )
    return (*own, _OFFSET, _TIP)
