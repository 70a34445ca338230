"""The commented job files to start from."""

from __future__ import annotations

from jawcam.errors import Fault, InputError
from jawcam.job.template_lathe import LATHE
from jawcam.job.template_turned import TURNED_PART, TURNED_SETUPS
from jawcam.job.words import listing, nearest, quoted

__all__ = ["TEMPLATES", "template"]

_HOW = """\
#
# Any number may be a bare number in `units`, a quantity such as "3/8 in" or "9.5 mm", or an
# expression over the names in [let], such as "gap / 2 + 0.5 mm". Angles are in degrees.
# Lines that begin with # and a key show what may be added.
# What is wrong is named with line, column and key; setup[2] is the second [[setup]].

"""

_JAWS_PART = """\
title = "My part, soft jaws"
units = "mm"                        # or "inch"
#together = true                    # one program for all setups, each tool loaded once

[let]                               # values with a name, in any order
gap = 6
depth = 8

[part]
outline = "part.dxf"                # the drawing, beside this file, seen from above
thickness = 12                      # the part's height
#material = "brass 360"
#layer = "PROFILE"                  # if the drawing has more than the outline
# A stepped part has each height on a layer, in place of `layer` and `thickness`:
# layers = [ { layer = "FOOT", bottom = 0, top = 3 }, { layer = "PLATE", bottom = 3, top = 12 } ]
#drawing_units = "mm"               # if the drawing states none
#edge = 0.2                         # how far the part's edges are broken

"""

_TOOLS = """\
[[tool]]                            # one such table for each tool
number = 3
kind = "end mill"
dia = 8
flutes = 3
flute_len = 22
#name = "8 mm rougher"
#stickout = 30                      # from the holder's face to the tip
#shank = 8                          # its diameter above the flutes, if not the cutter's
#holder = [ { dia = 28, len = 30 }, { dia = 50, len = 40 } ]  # from its face up to the spindle
#centre_cutting = true              # it may go straight down
#rpm = 7500                         # what isn't given is worked out from the jaws' material
#feed = 1200                        # per minute
# In place of the two the cutting speed and what each tooth takes:
# surface = 200                     # m/min; ft/min in an inch job
# chip = 0.05
#plunge_feed = 400

[[tool]]
number = 4
kind = "end mill"
dia = 6
flutes = 3
flute_len = 20

#[[tool]]                           # breaks the edges
#number = 7
#kind = "chamfer mill"
#dia = 6
#angle = 90                         # between its flanks; of a drill, of its point
#tip_dia = 0.5

#[[tool]]
#number = 8
#kind = "drill"
#dia = 4

#[[tool]]
#number = 9
#kind = "spot drill"
#dia = 6

[machine]
#max_rpm = 8000
#max_feed = 5000
#rapid = 10000
#accel = 2000                       # per second each second; this and what follows for the time
#corner = 200                       # how fast it runs round a square corner
#tool_change = 10                   # seconds
#change_height = 100                # of a tip above the jaw top where the tool is changed
#rapids = "dog-leg"                 # each axis on its own, so that the way bends; or "straight"
#travel = { x = 500, y = 400, z = 400 }
#min_rpm = 200                      # this and what follows hold the feeds of mills
#power = "2.2 kW"                   # of the spindle's motor
#torque = "12 N m"                  # at the spindle, the highest
#curve = [ { rpm = 1000, power = 0.5 }, { rpm = 6000, power = 2.2 } ]  # in place of one power
#efficiency = 0.8                   # what share of the motor's power a cut gets

"""

_JAWS_SETUP = """\
[[setup]]                           # one such table for each vise station
name = "side-one"                   # the program's file is called so
cut = "jaws"
post = "rs274ngc-mill"              # the control's dialect
#work_offset = 1                    # 1 is the first, mostly G54
#clearance = 5                      # above the jaw top, where the cutter moves freely
#coolant = "flood"                  # or "mist", "off"

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
#groove = 0.2                       # cut along the foot of the wall, for the part's lower edge

[setup.fit]
#grip = 0.03                        # clearance all round
#side = 0.1                         # play either way along X on top of it

"""

_CUTS = """\
[setup.keep]                        # the least that must be left
#floor = 2                          # under the pocket
#wall = 1                           # beside and behind it
#bolt = 1                           # between the cutter and a bolt

#[[setup.bolts]]                    # one such table for each bolt to keep away from
#at = [50, 23]
#dia = 14                           # of its head
#top = -20                          # Z of its top; the jaw top is 0

#[setup.face]                       # face the jaw tops first
#take = 0.5                         # how far they stand above Z 0 before
#tool = 3                           # without it the largest end mill
#stepover = 6
#feed = 1200

[setup.rough]
#tool = 3                           # without it the largest that fits
#stepdown = 3
#stepover = 3.2
#leave = 0.2                        # stock to leave on the walls
#leave_floor = 0.1
#feed = 1200
#slot_feed = 600                    # where the cutter is engaged over its full width
#ramp = 3                           # degrees of helix and ramp entry
#way = "quickest"                   # or "rings", or "steady": how the pocket is cleared

[setup.finish]
#tool = 4                           # without it the smallest end mill
#feed = 900
#spring = 1                         # how often the wall is passed again
#lead = 2                           # radius of lead-in and lead-out
#tolerance = 0.02                   # how far the wall may be off: the cutter bends by half of it
#compensation = 24                  # offset register to dial the fit in with
#first = "wall"                     # of floor and wall; without it "floor"

[setup.corners]                     # corners that the part would not seat in
#relief = "drilled"                 # or "along wall", "none"; without it "bisector"
#tool = 8                           # the drill, for "drilled" only
#peck = 2

#[setup.edges]                      # break the pocket's top edges
#width = 0.3
#tool = 7                           # without it the only chamfer mill
#feed = 400

#[[setup.holes]]                    # one such table for each hole for a stop or a dowel
#at = [40, 30]
#depth = 12                         # of its full diameter, below the jaw top
#tool = 8
#spot = 9                           # the spot drill before it
#peck = 3

[setup.zero]                        # the program's origin
#x = "middle"                       # or "left", "right"
#y = "mid gap"                      # or "front", "front face", "back face", "back"
#z = "top"                          # or "bottom"
#shift = [0, 0, 0]

"""

_ROOM = """\
#[[setup.spacers]]                  # one such table for each spacer in the gap
#top = -12                          # Z of its top; the jaw top is 0
#x = [-60, -40]                     # where it begins and ends; without it longer than the jaws

#[setup.vise]                       # round the blanks, for what can crash
#top = -5                           # Z of its own jaws behind the blanks; the jaw top is 0
#width = 150                        # of them along X
#back = 50                          # how far they reach back from the blanks
#bed = -38                          # Z of its bed

#[setup.travel_at]                  # where the program's origin stands in the machine's travel,
#x = 250                            # from the lower end of each axis; of Z, where the spindle's
#y = 200                            # nose would touch the origin
#z = -50

"""

_GRIP = """\
# For the margin of the grip, which the sheet states:
#[setup.clamp]
#torque = "40 N m"                  # on the vise's screw, or "350 lbf in"
# or force = "12 kN", between the jaws, without lead and efficiency
#lead = 5                           # of the screw
#efficiency = 0.35                  # how much of the torque becomes force
#surface = "machined"               # of the part where it is gripped, or "ground", "raw"
#safety = 2.5                       # how many times the cutting force it must bear

#[setup.next_cut]                   # what is cut next on the part in these jaws
#down = 3                           # below the part's top
#clear = 1                          # above the jaw top
#stepdown = 2
#chip = 0.08                        # the thickest one
#teeth = 1                          # how many cut at once
"""

TEMPLATES = {
    "jaws": "# A job for jawcam: the pocket in a pair of vise soft jaws.\n"
    + _HOW
    + _JAWS_PART
    + _TOOLS
    + _JAWS_SETUP
    + _CUTS
    + _ROOM
    + _GRIP,
    "turned": "# A job for jawcam: the pockets of a turned part in two pairs of vise soft jaws.\n"
    + _HOW
    + TURNED_PART
    + _TOOLS
    + TURNED_SETUPS
    + _CUTS
    + _ROOM
    + _GRIP,
    "lathe": "# A job for jawcam: both ends of a turned part on the lathe.\n" + _HOW + LATHE,
}


def template(kind: str) -> str:
    """Give the commented job file to start from for `kind`, such as ``jaws``.

    It loads as it is; that for jaws once its drawing ``part.dxf`` stands beside it. Raises
    InputError if there is no such kind.
    """
    if kind in TEMPLATES:
        return TEMPLATES[kind]
    mend = nearest(kind, TEMPLATES, f"there is {listing(TEMPLATES)}")
    raise InputError(Fault(f"there is no job to start from called {quoted(kind)}", mend=mend))
