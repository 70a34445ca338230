"""The one target that the programs in this folder are judged against: the filler neck of a
hand-cranked coffee grinder, turned and bored already, of which only the threads are missing.

Outside R 1/2 for 15 mm (ISO 7-1, from memory: a gauge diameter of 20.955 mm 8.2 mm from the small
end, 14 threads to the inch, a depth of 0.640327 P, 55 degrees, a taper of 1 in 16), an undercut of
4 mm to a diameter of 17.6, a collar of 34. In the bore M12x1.75 6H for 12 mm (ISO 965-1: a minor
diameter of 10.106 to 10.441, a pitch diameter of 10.863 to 11.063, to the middle of both), a relief
of 4 mm to a diameter of 12.6, and through with 9."""

import math

from jawcam.hold.turn_target import Thread, TurnTarget
from jawcam.tools.turner import Turner
from jawcam.units import Units

PIPE_PITCH = 25.4 / 14
SMALL, LARGE = (20.955 - 8.2 / 16) / 2, (20.955 + 6.8 / 16) / 2
PIPE = Thread(
    0.0,
    -15.0,
    SMALL,
    LARGE,
    0.640327 * PIPE_PITCH,
    PIPE_PITCH,
    designation="R 1/2",
    flanks=55.0,
)

MINOR, MIDDLE = (10.106 + 10.441) / 4, (10.863 + 11.063) / 4
M12 = Thread(
    0.0,
    -12.0,
    MINOR,
    MINOR,
    MIDDLE + 3 / 8 * math.sqrt(3) / 2 * 1.75 - MINOR,
    1.75,
    inside=True,
    designation="M12x1.75 6H",
)

_NECK = (
    (-30.0, 4.5, 0.0),
    (-16.0, 4.5, 0.0),
    (-16.0, 6.3, 0.0),
    (-12.0, 6.3, 0.0),
    (-12.0, MINOR, 0.0),
    (0.0, MINOR, 0.0),
    (0.0, SMALL, 0.0),
    (-15.0, LARGE, 0.0),
    (-15.0, 8.8, 0.0),
    (-19.0, 8.8, 0.0),
    (-19.0, 17.0, 0.0),
    (-30.0, 17.0, 0.0),
)

TARGET = TurnTarget(
    name="neck",
    title="Filler neck, threads",
    units=Units.MM,
    finished=_NECK,
    stock=_NECK,
    limit=-22.0,
    threads=(PIPE, M12),
    keep_off=(((-60.0, 17.0, 0.0), (-25.0, 17.0, 0.0), (-25.0, 47.0, 0.0), (-60.0, 47.0, 0.0)),),
    tools=(
        Turner(4, "threading", pitch_angle=55.0),
        Turner(5, "threading", pitch_angle=60.0),
        Turner(7, "threading", inside=True, least_bore=9.5, shank=6.5, overhang=30.0),
    ),
    work_offset=1,
    clearance=2.0,
    clamp=2500.0,
)
