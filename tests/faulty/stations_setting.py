"""Two stations in one program, for the folder `stations`: the pockets for the adjusting ring of a
hand-cranked coffee grinder in work offset 1, and for its smaller crank nut in work offset 2."""

from faulty_setting import TARGET as RING

from jawcam.hold.target import Blanks, Level, Section, Target

_DISC = ((12.0, 0.0, 1.0), (-12.0, 0.0, 1.0))
NUT = Target(
    name="nut",
    title="Crank nut, jaws",
    units=RING.units,
    levels=(Level(0.0, -4.0, (_DISC,)),),
    silhouette=(_DISC,),
    body=(Section(-4.0, (_DISC,)), Section(6.0, (_DISC,))),
    holes=(),
    grip=0.05,
    side=0.0,
    part_top=6.0,
    blanks=Blanks(width=60.0, height=25.0, thickness=25.0, gap=5.0),
    zero=(0.0, 0.0, 0.0),
    work_offset=2,
    clearance=10.0,
    cutters=RING.cutters,
)
TARGETS = (RING, NUT)
