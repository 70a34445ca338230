"""The one target that the programs in this folder are judged against: the pocket for the adjusting
ring of a hand-cranked coffee grinder, a disc of 30 mm with 0.05 mm of grip, 6 mm deep."""

from jawcam.hold.target import Blanks, Bolt, Level, Section, Target
from jawcam.tools.cutter import Cutter
from jawcam.units import Units

_DISC = ((15.0, 0.0, 1.0), (-15.0, 0.0, 1.0))
TARGET = Target(
    name="ring-side-two",
    title="Adjusting ring, jaws for side two",
    units=Units.MM,
    levels=(Level(0.0, -6.0, (_DISC,)),),
    silhouette=(_DISC,),
    body=(Section(-6.0, (_DISC,)), Section(4.0, (_DISC,))),
    holes=(),
    grip=0.05,
    side=0.0,
    part_top=4.0,
    blanks=Blanks(width=80.0, height=30.0, thickness=30.0, gap=6.0),
    zero=(0.0, 0.0, 0.0),
    work_offset=1,
    clearance=10.0,
    cutters=(
        Cutter(3, "end mill", 8.0, flutes=3, flute_len=22.0, stickout=40.0),
        Cutter(5, "end mill", 10.0, flutes=3, flute_len=22.0, stickout=40.0),
        Cutter(6, "ball end mill", 8.0, flute_len=22.0, stickout=40.0),
        Cutter(8, "end mill", 8.0, flute_len=40.0, stickout=60.0, centre_cutting=True),
        Cutter(7, "end mill", 8.0, flute_len=5.0, stickout=12.0),
        Cutter(10, "chamfer mill", 8.0, flute_len=22.0, stickout=40.0),
    ),
    bolts=(Bolt(16.0, 16.0, 12.0, 3.0),),
)
