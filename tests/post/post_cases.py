"""One short program with every kind of motion, as a planner would give it."""

from __future__ import annotations

from functools import cache

from jawcam.motion.moves import (
    ArcFeed,
    Begin,
    Compensate,
    Coolant,
    Drill,
    Dwell,
    End,
    LineFeed,
    Rapid,
    Remark,
    Spindle,
    ToolChange,
    WorkOffset,
)
from jawcam.post import dialect as posts
from jawcam.post.dialect import names
from jawcam.post.write import write

load = cache(posts.load)
"""A post that ships; each is read once."""

MILLS = tuple(name for name in names() if load(name).kind == "mill")
LATHES = tuple(name for name in names() if load(name).kind == "lathe")

ZERO = (-65.0, 0.0, 0.0)  # the operator touches off on the left end of the blanks

HEAD = (
    Begin("crank-lever 21", ("Soft jaws for the crank lever, side two", "Zero: left end, top")),
    WorkOffset(1),
)
ROUGH = (
    ToolChange(3, "end mill 8, 3 flutes"),
    Spindle(7958),
    Rapid((12.0, 0.0, 25.0)),
    Coolant("flood"),
    Rapid((12.0, 0.0, 1.0)),
    LineFeed((12.0, 0.0, 0.2), 300),
    Remark("Helix down, then round the pocket"),
    ArcFeed((12.0, 0.0, -1.3), (10.5, 0.0), True, 240),
    ArcFeed((12.0, 0.0, -1.3), (10.5, 0.0), True, 240),
    LineFeed((20.0, 0.0, -1.3), 716),
    ArcFeed((10.0, 10.0, -1.3), (10.0, 0.0), True, 358),
    LineFeed((-20.0, 10.0, -1.3), 716),
    ArcFeed((-20.0, -10.0, -1.3), (-20.0, 0.0), True, 358),
    LineFeed((10.0, -10.0, -1.3), 716),
    ArcFeed((20.0, 0.0, -1.3), (10.0, 0.0), True, 358),
)
FINISH = (
    Compensate("left", 3),
    LineFeed((20.5, 1.5, -1.3), 500),
    ArcFeed((19.0, 3.0, -1.3), (19.0, 1.5), True, 300),
    Compensate("off"),
    LineFeed((12.0, 0.0, -1.3), 500),
    Rapid((12.0, 0.0, 25.0)),
    Coolant("off"),
    Spindle(0),
)
CHAMFER = (
    ToolChange(12, "chamfer mill 90 deg"),
    Spindle(4000, clockwise=False),
    Rapid((20.0, 0.0, 25.0)),
    Coolant("mist"),
    Rapid((20.0, 0.0, 0.5)),
    LineFeed((20.0, 0.0, -0.25), 150),
    ArcFeed((10.0, 10.0, -0.25), (10.0, 0.0), True, 400),
    Compensate("right", 12),
    LineFeed((5.0, 10.0, -0.25), 400),
    Compensate("off"),
    Rapid((5.0, 10.0, 25.0)),
)
SECOND_STATION = (
    WorkOffset(2),
    Rapid((20.0, 0.0, 25.0)),
    Rapid((20.0, 0.0, 0.5)),
    LineFeed((20.0, 0.0, -0.25), 150),
    Rapid((20.0, 0.0, 25.0)),
)
SPOTS = (
    Rapid((-32.0, 12.5, 25.0)),
    Rapid((-32.0, 12.5, 5.0)),
    Drill((-32.0, 12.5), 5.0, 1.0, -2.0, 120),
    Drill((32.0, 12.5), 5.0, 1.0, -2.0, 120),
    Drill((32.0, -12.5), 5.0, 1.0, -2.5, 120, dwell=0.25),
    Rapid((32.0, -12.5, 25.0)),
)
DEEP = (
    Rapid((-32.0, 12.5, 25.0)),
    Coolant("flood"),
    Rapid((-32.0, 12.5, 5.0)),
    Remark("Chips out every 4"),
    Drill((-32.0, 12.5), 5.0, 1.0, -9.0, 200, peck=4.0),
    LineFeed((-32.0, 13.0, 5.0), 500),
    Dwell(1.5),
    Rapid((-32.0, 13.0, 25.0)),
)
HOLES = (
    ToolChange(5, "spot drill 8"),
    Spindle(3000),
    *SPOTS,
    WorkOffset(1),
    *SPOTS,
    ToolChange(6, "drill 6.8"),
    Spindle(2800),
    *DEEP,
    WorkOffset(2),
    *DEEP,
)
EVERY_KIND = (*HEAD, *ROUGH, *FINISH, *CHAMFER, *SECOND_STATION, *HOLES, End())


def text_of(motions, dialect, units, zero):
    """The text, as `make` asks for it."""
    return write(motions, dialect, units=units, zero=zero)
