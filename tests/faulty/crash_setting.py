"""The target and the machine for the folder `crash`: the pocket for the adjusting ring, with all
told that a tool could run into. A bolt stands 8 mm above the jaw top, the vise's own jaws 4 mm;
spacers stand in the gap of 6 mm beside the pocket, 2 mm below the jaw top. X
goes 150 mm either way from the origin, Y 200 mm in all. Z goes 400 mm up from where the spindle's
nose is 50 mm above the origin."""

from dataclasses import replace

from faulty_setting import TARGET as RING

from jawcam.hold.target import Bolt, Spacer, Travel, Vise
from jawcam.tools.cutter import Cutter, HolderStep
from jawcam.tools.machine import Machine

SLIM, WIDE = (HolderStep(20.0, 60.0),), (HolderStep(28.0, 30.0), HolderStep(50.0, 40.0))


def _mill(number, flute_len, stickout, shank=8.0, holder=WIDE):
    return Cutter(number, "end mill", 8.0, 3, flute_len, stickout, shank=shank, holder=holder)


TARGET = replace(
    RING,
    cutters=(
        _mill(3, 22.0, 40.0),
        _mill(4, 5.0, 40.0),  # its shank as thick as the cutter
        _mill(5, 5.0, 40.0, shank=7.0),
        _mill(6, 5.0, 40.0, shank=10.0),
        _mill(7, 4.0, 5.0, shank=7.0, holder=SLIM),
        _mill(8, 6.5, 6.5, holder=SLIM),
        _mill(9, 8.0, 12.0, holder=(HolderStep(28.0, 98.0),)),
        _mill(10, 8.0, 8.0, holder=(HolderStep(10.0, 1.0), HolderStep(50.0, 101.0))),
        _mill(11, 22.0, 24.0, holder=(HolderStep(28.0, 20.0),)),
        _mill(12, 22.0, 40.0, holder=(HolderStep(28.0, 380.0),)),
        replace(_mill(13, 22.0, 40.0, shank=5.0), dia=5.0),
    ),
    bolts=(Bolt(16.0, 16.0, 12.0, 8.0),),
    spacers=(Spacer(-2.0, (25.0, 40.0)), Spacer(-2.0, (-40.0, -25.0))),
    vise=Vise(4.0, 100.0, 50.0, -30.0),
    travel_at=Travel(x=150.0, z=-50.0),
)
MACHINE = Machine(travel=Travel(300.0, 200.0, 400.0), change_height=60.0, rapids="dog-leg")
