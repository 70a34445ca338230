"""Stepped pockets made by hand, for the stepped burr carrier of a hand-cranked coffee grinder: a
disc of 30 mm down to 3 mm, one of 20 mm from there down to 7, both grown by 0.05 mm."""

from dataclasses import replace

from proof_pen import TARGET, Pen, ring_out

from jawcam.hold.target import Level


def disc(radius, x=0.0, y=0.0):
    return ((x + radius, y, 1.0), (x - radius, y, 1.0))


WIDE, NARROW = disc(15.0), disc(10.0)
STEPPED = replace(TARGET, levels=(Level(0.0, -3.0, (WIDE,)), Level(-3.0, -7.0, (NARROW,))))


def stepped_pocket(upper=11.05, shelf=-3.0, lower=6.05, seat=-7.0, pen=None):
    """A correct way to cut it: helices, circles outwards, at each floor."""
    pen = pen or Pen()
    pen.rapid(3.0, 0.0).rapid(z=10.0).rapid(z=0.5).feed(z=0.0)
    pen.circle(shelf, turns=3)
    ring_out(pen, upper, shelf).feed(3.0, 0.0)
    pen.circle(seat, turns=4)
    return ring_out(pen, lower, seat).rapid(z=10.0)
