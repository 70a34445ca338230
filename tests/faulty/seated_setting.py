"""The target for the folder `seated`, whose programs cut the adjusting ring while the jaws hold it:
a disc of 30 mm that stands 4 mm proud of them. Each jaw has come on by 0.05 mm. A bolt beside it
stands 3 mm above the jaw top, the vise's own jaws 2 mm. What is cut is to stay 1 mm above the
jaws."""

from dataclasses import replace

from faulty_setting import TARGET as RING

from jawcam.hold.target import Bolt, Seated, Vise
from jawcam.tools.cutter import Cutter, HolderStep

SLIM, WIDE = (HolderStep(20.0, 60.0),), (HolderStep(50.0, 60.0),)
TARGET = replace(
    RING,
    cutters=(
        Cutter(3, "end mill", 8.0, 3, 22.0, 40.0, shank=8.0, holder=WIDE),
        Cutter(4, "end mill", 8.0, 3, 22.0, 40.0, shank=8.0, holder=WIDE, centre_cutting=True),
        Cutter(5, "end mill", 8.0, 3, 4.0, 4.0, shank=7.0, holder=WIDE, centre_cutting=True),
        Cutter(6, "end mill", 8.0, 3, 2.0, 40.0, shank=12.0, holder=WIDE),
        Cutter(9, "drill", 5.0, 2, 30.0, 40.0, shank=5.0, holder=SLIM),
    ),
    bolts=(Bolt(30.0, 20.0, 12.0, 3.0),),
    vise=Vise(2.0, 100.0, 50.0, -30.0),
    seated=Seated(front=0.05, back=0.05, clear=1.0),
)
