"""The texts of the job file to start from for turned parts in vise jaws."""

from __future__ import annotations

__all__ = ["TURNED_PART", "TURNED_SETUPS"]

TURNED_PART = """\
title = "Burr spindle of a coffee grinder, soft jaws for both ends"
units = "mm"                        # or "inch"
together = true                     # one program for all setups, each tool loaded once

[let]                               # values with a name, in any order
gap = 6
collar = 24
neck = 10

[part]
#material = "brass 360"
turned = [                          # end A first
    { dia = "neck", len = 14, chamfer = 0.5, thread = "M10x1.5 6g" },
    { dia = "collar", len = 6, round = 0.8 },       # its outer corners broken by a radius
    { dia = [18, 16], len = 12 },                   # a taper
    { dia = 16, len = 20, limits = [-0.006, -0.017] },
    { dia = 12, len = 8, chamfer = 0.5 },
]
# The half profile may be drawn in place of `turned`, without its limits and threads:
# profile = "spindle.dxf"           # the drawing, beside this file
#bore = [ { dia = 5, len = 60 } ]   # from end A
#edge = 0.2                         # how far the part's edges are broken

"""

TURNED_SETUPS = """\
[[setup]]                           # one such table for each vise station
name = "end-b-up"                   # the program's file is called so
cut = "jaws"
post = "rs274ngc-mill"              # the control's dialect
work_offset = 1                     # 1 is the first, mostly G54
jaws = { width = 130, height = 38, thickness = 40, gap = "gap" }
hold = { depth = 18, flip = true }  # on end A, down to the middle of the collar
fit = { grip = 0.02 }

[[setup]]
name = "end-a-up"
cut = "jaws"
post = "rs274ngc-mill"
work_offset = 2
#clearance = 5                      # above the jaw top, where the cutter moves freely
#coolant = "flood"                  # or "mist", "off"

[setup.jaws]                        # the blanks, both alike
width = 130                         # along the jaws, X
height = 38                         # from the jaw top down, Z
thickness = 40                      # each blank from its face to its back, Y
gap = "gap"                         # between the faces, the spacer, while the pocket is cut
#moving = "both"                    # the jaw that moves when the vise closes, or "front", "back"
#material = "aluminium 6061"

[setup.hold]                        # how the part stands in them, here on end B
depth = 20                          # how deep it sits below the jaw top
#flip = false                       # true: on end A
#lie = false                        # true: along X, end A at the left
#turn = 0                           # degrees counter-clockwise
#at = [0, 0]                        # where its axis stands; X 0 mid width, Y 0 mid gap
#groove = 0.2                       # cut along the foot of the wall, for the part's lower edge

[setup.fit]
grip = "H7/g6"                      # a fit of ISO 286, pocket and part, or a clearance: 0.02
#size = 16                          # what the letters count on; without it the diameter held
#side = 0.1                         # play either way along X on top of it
#step = 0.1                         # how far the wall of a taper's pocket may stand off it

"""
