"""The target and the machine for the folder `lathe_travel`: the axle, on a lathe of which all is
told. X goes 160 mm by diameter and Z 200 mm; the program's origin stands 20 and 130 mm above their
lower ends. The tip of T1 is what they count for, that of T3 stands 10 mm (by diameter) farther out
and 20 mm nearer to the chuck, and of T5 nobody knows."""

from dataclasses import replace

from turning_setting import TARGET as AXLE

from jawcam.tools.machine import Machine, Travel

TIPS = {1: (0.0, 0.0), 3: (10.0, -20.0)}
TARGET = replace(
    AXLE,
    tools=tuple(replace(tool, tip=TIPS.get(tool.number)) for tool in AXLE.tools),
    travel_at=Travel(x=20.0, z=130.0),
)
MACHINE = Machine(lathe_travel=Travel(x=160.0, z=200.0), rapids="straight")
