"""The keys of the tables within a setup that tell what stands round the cutter's work."""

from __future__ import annotations

from jawcam.job.key import ANYWHERE, SIZE, Key, Limits

__all__ = ["SPACER", "TRAVEL_AT", "VISE"]

VISE = (
    Key(
        "top",
        "length",
        "the Z of the vise's own jaws behind the blanks",
        "-5",
        required=True,
        limits=ANYWHERE,
    ),
    Key("width", "length", "its own jaws along X", "150", limits=SIZE),
    Key("back", "length", "how far they reach back from the blanks", "50", limits=SIZE),
    Key("bed", "length", "the Z of its bed", "-38", limits=ANYWHERE),
)

TRAVEL_AT = tuple(
    Key(
        axis,
        "length",
        f"where the program's origin stands in the travel of {axis.upper()}, from its lower end",
        example,
        limits=ANYWHERE,
    )
    for axis, example in (("x", "250"), ("y", "200"), ("z", "-50"))
)

SPACER = (
    Key(
        "top",
        "length",
        "the Z of its top, counted down from the jaw top",
        "-12",
        required=True,
        limits=Limits(least=-10000, most=0),
    ),
    Key("x", "lengths", "where it begins and ends along X", "[-60, -40]", count=2, limits=ANYWHERE),
)
