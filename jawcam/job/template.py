"""The commented job files to start from."""

from __future__ import annotations

from jawcam.errors import Fault, InputError
from jawcam.job.words import listing, nearest, quoted

__all__ = ["TEMPLATES", "template"]

_JAWS = """\
# A job for jawcam: the pocket in a pair of vise soft jaws.
#
# Any number may be a bare number in `units`, a quantity such as "3/8 in" or "9.5 mm", or an
# expression over the names in [let], such as "gap / 2 + 0.5 mm". Angles are in degrees.
# Lines that begin with # and a key show what may be added.
# What is wrong is named with line, column and key; setup[2] is the second [[setup]].

title = "My part, soft jaws"
units = "mm"                        # or "inch"

[let]                               # values with a name, in any order
gap = 6
depth = 8

[part]
outline = "part.dxf"                # the drawing, beside this file, seen from above
thickness = 12                      # the part's height
#material = "brass 360"
#layer = "PROFILE"                  # if the drawing has more than the outline
#drawing_units = "mm"               # if the drawing states none

[[tool]]                            # one such table for each tool
number = 3
kind = "end mill"
dia = 8
flutes = 3
flute_len = 22
#name = "8 mm rougher"
#stickout = 30                      # from the holder's face to the tip
#centre_cutting = true              # it may go straight down
#rpm = 7500                         # without these three: worked out from the jaws' material
#feed = 1200                        # per minute
#plunge_feed = 400

[[tool]]
number = 4
kind = "end mill"
dia = 6
flutes = 3
flute_len = 16

[machine]
#max_rpm = 8000
#max_feed = 5000
#rapid = 10000

[[setup]]                           # one such table for each vise station
name = "side-one"                   # the program's file is called so
cut = "jaws"
post = "rs274ngc-mill"              # the control's dialect
#work_offset = 1                    # 1 is the first, mostly G54
#clearance = 5                      # above the jaw top, where the cutter moves freely
#coolant = "flood"                  # or "mist", "off"
#reliefs = true                     # relieve corners that the part would not seat in

[setup.jaws]                        # the blanks, both alike
width = 130                         # along the jaws, X
height = 38                         # from the jaw top down, Z
thickness = 40                      # each blank from its face to its back, Y
gap = "gap"                         # between the faces, the spacer, while the pocket is cut
#moving = "both"                    # the jaw that moves when the vise closes, or "front", "back"
#material = "aluminium 6061"

[setup.hold]                        # how the part lies in them
depth = "depth"                     # how deep it sits below the jaw top
#turn = 0                           # degrees counter-clockwise
#flip = false                       # true: upside down, flipped about Y
#at = [0, 0]                        # where its anchor lies; X 0 mid width, Y 0 mid gap
#anchor = "centre"                  # the middle of the outline; "origin": the drawing's own

[setup.fit]
#grip = 0.03                        # clearance all round
#side = 0.1                         # play either way along X on top of it

#[[setup.bolts]]                    # one such table for each bolt to keep away from
#at = [50, 23]
#dia = 14                           # of its head
#top = -20                          # Z of its top; the jaw top is 0

[setup.rough]
#tool = 3                           # without it the largest that fits
#stepdown = 3
#stepover = 3.2
#leave = 0.2                        # stock to leave on the walls
#leave_floor = 0.1
#feed = 1200
#slot_feed = 600                    # where the cutter is engaged over its full width
#ramp = 3                           # degrees of helix and ramp entry

[setup.finish]
#tool = 4                           # without it the smallest end mill
#feed = 900
#spring = 1                         # how often the wall is passed again
#lead = 2                           # radius of lead-in and lead-out
#compensation = 24                  # offset register to dial the fit in with

[setup.zero]                        # the program's origin
#x = "middle"                       # or "left", "right"
#y = "mid gap"                      # or "front", "front face", "back face", "back"
#z = "top"                          # or "bottom"
#shift = [0, 0, 0]
"""

TEMPLATES = {"jaws": _JAWS}


def template(kind: str) -> str:
    """Give the commented job file to start from for `kind`, such as ``jaws``.

    It loads as it is once its drawing ``part.dxf`` stands beside it. Raises InputError if there
    is no such kind.
    """
    if kind in TEMPLATES:
        return TEMPLATES[kind]
    mend = nearest(kind, TEMPLATES, f"there is {listing(TEMPLATES)}")
    raise InputError(Fault(f"there is no job to start from called {quoted(kind)}", mend=mend))
