"""The target that the programs in the folder `stepped` are judged against: the pocket for the
stepped burr carrier of a hand-cranked coffee grinder, in blanks that are faced, with broken edges,
a groove along the foot of the seat's wall and a drilled hole for a stop pin beside it."""

from jawcam.hold.target import Blanks, Bolt, Groove, Hole, Level, Section, Target
from jawcam.tools.cutter import Cutter
from jawcam.units import Units


def _disc(radius):
    return ((radius, 0.0, 1.0), (-radius, 0.0, 1.0))


_DRILL = Cutter(4, "drill", 5.0, flute_len=40.0, stickout=60.0)
_WIDE, _NARROW = _disc(15.0), _disc(10.0)
TARGET = Target(
    name="burr-carrier",
    title="Burr carrier, jaws for the far side",
    units=Units.MM,
    levels=(Level(0.0, -3.0, (_WIDE,)), Level(-3.0, -7.0, (_NARROW,))),
    silhouette=(_WIDE,),
    holes=(),
    body=(
        Section(-7.0, (_NARROW,)),
        Section(-3.0, (_NARROW,)),
        Section(-3.0, (_WIDE,)),
        Section(4.0, (_WIDE,)),
    ),
    grip=0.05,
    side=0.0,
    part_top=4.0,
    blanks=Blanks(width=80.0, height=30.0, thickness=30.0, gap=6.0),
    zero=(0.0, 0.0, 0.0),
    work_offset=1,
    clearance=10.0,
    cutters=(
        Cutter(2, "end mill", 40.0, flutes=5),
        Cutter(3, "end mill", 8.0, flutes=3, flute_len=22.0, stickout=40.0),
        _DRILL,
        Cutter(5, "spot drill", 8.0),
        Cutter(6, "drill", 5.5),
        Cutter(7, "end mill", 3.0, flute_len=9.0, stickout=20.0),
        Cutter(9, "chamfer mill", 6.0, angle=90.0, tip_dia=0.4),
    ),
    bolts=(Bolt(-30.0, 18.0, 10.0, -10.0),),
    drilled=(Hole(28.0, 12.0, 5.0, -6.0, -6.0 - _DRILL.point_length, 4, "stop"),),
    groove=Groove(3.0, 0.3),
    facing=0.5,
    edge=0.4,
    edge_tool=9,
)
