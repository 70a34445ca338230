"""The one target that the programs in this folder are judged against: the axle of a hand-cranked
coffee grinder, turned from a bar of 40 mm. A thread M20x2.5 for 18 mm with a chamfer of 1.5 mm, a
groove of 4 mm to a diameter of 16, a shoulder of 30 mm diameter that ends in a round of 0.8."""

import math

from jawcam.hold.turn_target import Thread, TurnTarget
from jawcam.tools.turner import Insert, Turner
from jawcam.units import Units

_IN = -math.tan(math.pi / 8)
"""The bulge of a quarter round in an inside corner."""

TARGET = TurnTarget(
    name="axle",
    title="Crank axle, threaded end",
    units=Units.MM,
    finished=(
        (-70.0, 0.0, 0.0),
        (0.0, 0.0, 0.0),
        (0.0, 8.5, 0.0),
        (-1.5, 10.0, 0.0),
        (-18.0, 10.0, 0.0),
        (-18.0, 8.2, _IN),
        (-18.2, 8.0, 0.0),
        (-21.8, 8.0, _IN),
        (-22.0, 8.2, 0.0),
        (-22.0, 15.0, 0.0),
        (-39.2, 15.0, _IN),
        (-40.0, 15.8, 0.0),
        (-40.0, 20.0, 0.0),
        (-70.0, 20.0, 0.0),
    ),
    stock=((-80.0, 0.0, 0.0), (1.0, 0.0, 0.0), (1.0, 20.0, 0.0), (-80.0, 20.0, 0.0)),
    limit=-50.0,
    threads=(Thread(0.0, -18.0, 10.0, 10.0, 1.534, 2.5, designation="M20x2.5 6g"),),
    keep_off=(((-90.0, 20.0, 0.0), (-55.0, 20.0, 0.0), (-55.0, 50.0, 0.0), (-90.0, 50.0, 0.0)),),
    tools=(
        Turner(
            1, "turning", insert=Insert("CNMG 12 04 08", "C", 80.0, 0.0, 12.7, 0.8), approach=95.0
        ),
        Turner(
            2,
            "turning",
            insert=Insert("CNMG 12 04 08", "C", 80.0, 0.0, 12.7, 0.8),
            approach=95.0,
            turns="counter-clockwise",
        ),
        Turner(3, "grooving", width=3.0, radius=0.2, reach=10.0),
        Turner(5, "threading", pitch_angle=60.0),
        Turner(
            6,
            "turning",
            insert=Insert("CNMG 12 04 08", "C", 80.0, 0.0, 12.7, 0.8),
            approach=95.0,
            overhang=16.0,
        ),
    ),
    work_offset=1,
    clearance=2.0,
    clamp=2500.0,
)
