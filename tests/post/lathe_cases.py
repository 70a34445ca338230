"""One short lathe program with every kind of motion, as a planner would give it: points (Z, X, 0),
X a radius, Z = 0 at the finished face. The knob of a coffee grinder's crank."""

from __future__ import annotations

from jawcam.motion.moves import (
    ArcFeed,
    Begin,
    Compensate,
    Coolant,
    Dwell,
    End,
    FeedPer,
    LineFeed,
    Rapid,
    Remark,
    Spindle,
    SurfaceSpeed,
    ThreadCut,
    ToolChange,
    WorkOffset,
)

HEAD = (
    Begin("knob 4", ("Knob of the crank, first end", "Zero: finished face, on the axis")),
    WorkOffset(1),
)
ROUGH = (
    ToolChange(1, "turning, 80 deg, nose 0.8"),
    SurfaceSpeed(180, 2500),
    Rapid((2.0, 17.0, 0)),
    Coolant("flood"),
    FeedPer("turn"),
    Rapid((0.1, 17.0, 0)),
    LineFeed((0.1, -0.8, 0), 0.2),
    Rapid((2.0, -0.8, 0)),
    Rapid((2.0, 12.6, 0)),
    LineFeed((-27.4, 12.6, 0), 0.25),
    ArcFeed((-30.0, 15.2, 0), (-27.4, 15.2), False, 0.15),
    LineFeed((-30.0, 16.5, 0), 0.25),
    Rapid((2.0, 16.5, 0)),
)
FINISH = (
    ToolChange(2, "turning, 55 deg, nose 0.4", 12),
    SurfaceSpeed(240, 3000),
    Rapid((2.0, 9.0, 0)),
    Remark("Finish with the nose compensated"),
    Compensate("right", 12),
    LineFeed((0.0, 10.0, 0), 0.1),
    LineFeed((-1.0, 12.0, 0), 0.08),
    Compensate("off"),
    LineFeed((-22.0, 12.0, 0), 0.1),
    ArcFeed((-24.5, 12.0, 0), (-23.25, 10.0), True, 0.05),
    ArcFeed((-27.0, 14.5, 0), (-24.5, 14.5), False, 0.05),
    ArcFeed((-28.0, 15.5, 0), (-28.0, 14.5), True, 0.05),
    LineFeed((-30.0, 15.5, 0), 0.1),
    Rapid((2.0, 16.5, 0)),
    Coolant("off"),
)
DRILLED = (
    ToolChange(5, "drill 6.8"),
    Spindle(1800),
    FeedPer("minute"),
    Rapid((3.0, 0.0, 0)),
    Coolant("mist"),
    LineFeed((-12.0, 0.0, 0), 160),
    Dwell(0.25),
    Rapid((3.0, 0.0, 0)),
    Spindle(0),
)
THREADED = (
    ToolChange(7, "threading 60 deg"),
    Spindle(900, clockwise=False),
    Rapid((6.0, 14.0, 0)),
    Rapid((6.0, 11.6, 0)),
    ThreadCut((-18.0, 11.6, 0), 1.5),
    Rapid((-18.0, 14.0, 0)),
    Rapid((6.0, 14.0, 0)),
    Rapid((6.0, 11.08, 0)),
    ThreadCut((-18.0, 11.08, 0), 1.5),
    ThreadCut((-19.0, 12.5, 0), 1.5),
    Rapid((6.0, 14.0, 0)),
)
PARTED = (
    ToolChange(9, "parting 3"),
    SurfaceSpeed(110, 1500),
    FeedPer("turn"),
    Rapid((-43.0, 17.0, 0)),
    LineFeed((-43.0, -0.2, 0), 0.06),
    Rapid((-43.0, 17.0, 0)),
    Rapid((2.0, 17.0, 0)),
)
EVERY_KIND = (*HEAD, *ROUGH, *FINISH, *DRILLED, *THREADED, *PARTED, End())
