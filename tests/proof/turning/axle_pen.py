"""The axle of a hand-cranked coffee grinder and a right program for it, of which one thing or the
other can be made wrong."""

from dataclasses import replace

from turning_pen import CNMG, Pen, face, level_passes, target

from jawcam.hold.turn_target import Thread

R = CNMG.radius
M20 = Thread(0.0, -18.0, 10.0, 10.0, 1.534, 2.5, designation="M20x2.5 6g")


def axle(**changes):
    """M20 for 18 mm with a chamfer of 1.5, a groove of 4 mm to 8 mm radius, a shoulder of 15 mm."""
    b = -0.41421356237309503  # an inside quarter round
    r = 0.2
    goal = target(
        (0.0, 0.0),
        (0.0, 8.5),
        (-1.5, 10.0),
        (-18.0, 10.0),
        (-18.0, 8.0 + r, b),
        (-18.0 - r, 8.0),
        (-22.0 + r, 8.0, b),
        (-22.0, 8.0 + r),
        (-22.0, 15.0),
        (-40.0 + R, 15.0, b),
        (-40.0, 15.0 + R),
        (-40.0, 20.0),
        threads=(M20,),
    )
    return replace(goal, **changes)


def shape(pen, *, nose=0.8, chamfer=True, off=0.0):
    """Rough and finish the outside; `off` shifts the cylinder's radius."""
    face(pen)
    level_passes(pen, 15.0, -40.0)
    for x in (12.5, 10.0 + off):
        pen.rapid(3.0, 23.0).rapid(x=x).feed(z=-22.0 + 0.3 * (x > 12)).feed(x=16.0).rapid(x=23.0)
        pen.rapid(z=3.0)
    if chamfer:
        # the nose's middle on a line at 45 degrees, nose * sqrt(2) / 2 off both ways
        c = nose * (2**0.5 / 2 - 1)
        pen.rapid(x=8.5 + c - 1.0).feed(z=1.0 + c).feed(-3.0 + c, 11.5 + c).rapid(x=23.0)
    pen.rapid(z=3.0)
    return pen.home()


def groove(pen, *, low=-22.0, high=-21.0):
    """T3, 3 mm wide: two plunges make 4 mm."""
    pen.call(3).rapid(low, 23.0)
    pen.feed(x=8.0).feed(x=11.0).rapid(x=18.0).rapid(z=high).feed(x=8.0).feed(z=low)
    return pen.feed(x=18.0).home()


def threads(pen, *, lead=2.5, deeper=0.0, start=5.0, passes=(0.6, 1.0, 1.3, 1.534)):
    pen.call(5).rapid(start, 23.0)
    for depth in passes:
        last = deeper if depth == passes[-1] else 0.0
        pen.rapid(x=10.0 - depth - last).thread(-19.5, 10.0 - depth - last, lead)
        pen.rapid(x=23.0).rapid(z=start)
    return pen.home()


def whole(**changes):
    pen = Pen().with_state(clamp=2000.0)
    shape(pen, **{k: v for k, v in changes.items() if k in ("nose", "chamfer", "off")})
    groove(pen, **{k: v for k, v in changes.items() if k in ("low", "high")})
    more = {k: v for k, v in changes.items() if k in ("lead", "deeper", "start", "passes")}
    return threads(pen, **more)
