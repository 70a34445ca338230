"""The commented job file to start from for a turned part on the lathe."""

from __future__ import annotations

__all__ = ["LATHE"]

_PART = """\
title = "Crank bush of a coffee grinder, both ends turned"
units = "mm"                        # or "inch"

[let]                               # values with a name, in any order
collar = 34
journal = 22

[part]
material = "brass 360"              # speeds, feeds and depths of cut start from it
turned = [                          # end A first
    { dia = 20, len = 12, chamfer = 1, thread = "M20x1.5 6g" },
    { dia = 17, len = 3 },                          # an undercut: it takes a grooving tool
    { dia = "journal", len = 14, limits = [0, -0.013] },    # cut to the middle of its limits
    { dia = "collar", len = 5, round = 0.8 },       # its outer corners broken by a radius
    { dia = [28, 26], len = 6 },                    # a taper
    { dia = 24, len = 12, chamfer = 0.5 },
]
# The half profile may be drawn in place of `turned`, without its limits and threads:
# profile = "bush.dxf"              # the drawing, beside this file
# axis = "y = 0"                    # or the layer of its line, if the drawing leaves it open
# end_a = "left"                    # or "right"
bore = [                            # likewise, from end A
    { dia = 8, len = 36 },
    { dia = 14, len = 16 },
]
#edge = 0.2                         # how far the part's other edges are broken

"""

_TOOLS = """\
[[tool]]                            # one such table for each tool
number = 1
kind = "turning"
insert = "CNMG120408"               # after ISO 1832
approach = 95                       # degrees between its main edge and the feed along Z
#name = "rougher"
#offset = 1                         # the number of its wear offset
#hand = "right"                     # cuts towards the chuck; or "left", "neutral"
#turns = "clockwise"                # the spindle for it, M3; or "counter-clockwise": upside down
#shank = 20                         # how wide its holder is behind the edge
#overhang = 40                      # how far it stands out of its block
#tip = [60, -40]                    # how far its tip stands off the slide's point, see travel_at
#surface = 250                      # m/min; ft/min in an inch job. Without these three:
#feed = 0.25                        # per turn                      worked out from the
#depth = 2                          # of cut, on radius             part's material

[[tool]]
number = 2
kind = "turning"
insert = "DCMT11T304"
approach = 93

[[tool]]
number = 3
kind = "grooving"
width = 2                           # of its edge
reach = 8                           # how deep it goes
radius = 0.2                        # of its corners

[[tool]]
number = 4
kind = "threading"
#pitch_angle = 60                   # between the flanks of its insert

[[tool]]
number = 5
kind = "boring"
insert = "CCMT060204"
approach = 95
least_bore = 8                      # the smallest bore that it goes into
shank = 6
overhang = 32
#inside = true                      # so of every boring tool; of others where they work in a bore

[[tool]]
number = 6
kind = "drill"
dia = 8
flute_len = 75
#angle = 118                        # of its point
#surface = 60
#feed = 0.1                         # per turn; in a job with setups of the mill too write "0.1 mm"

[[tool]]
number = 7
kind = "centre drill"
dia = 3.15
#angle = 60

#[[tool]]                           # for part_off
#number = 8
#kind = "parting"
#width = 2
#reach = 20

"""

_MACHINE = """\
[machine]
#rapid = 10000
#accel = 2000                       # per second each second; this and what follows for the time
#corner = 200                       # how fast it runs round a square corner
#tool_change = 10                   # seconds
#rapids = "dog-leg"                 # each axis on its own, so that the way bends; or "straight"
#lathe_travel = { x = 400, z = 600 }  # how far X (as the programs write it) and Z go

"""

_FIRST = """\
[[setup]]                           # one such table for each end
name = "end-b"                      # the program's file is called so
cut = "turned profile"
post = "rs274ngc-lathe"             # the control's dialect
end = "B"                           # the end that is free; Z 0 is its finished face
reach = 20                          # how far along the part from that end, here to mid collar
stock = { dia = 36, allowance = 1 }
chuck = { grip = 15, dia = 160, max_rpm = 3000 }
rough = { tool = 1 }
finish = { tool = 2 }
drill = { tool = 6, centre = 7, peck = 5 }
bore = { tool = 5 }

"""

_SECOND = """\
[[setup]]
name = "end-a"
cut = "turned profile"
post = "rs274ngc-lathe"
end = "A"
reach = 32
work_offset = 2                     # 1 is the first, mostly G54
#clearance = 2                      # off the stock, where tools move freely
#coolant = "flood"                  # or "mist", "off"

[setup.stock]
dia = 36
allowance = 1                       # in front of the finished face of this end
bore = 8                            # drilled through already; without it solid
# or over = 2                       # cast or forged: so far over the part; no bar to part off

[setup.chuck]
grip = 11                           # the length held, here of the finished end B
dia = 160                           # of its body
jaws = 40                           # how far the jaws stand out of the body along Z
jaw_height = 30                     # how far they reach out from the gripped diameter
max_rpm = 3000                      # marked on it
# or tailstock = true               # the free end is supported, and not drilled or bored
# or centre = 5                     # the diameter of its centre hole, to whose rim it is faced
# For the speed that the grip allows, all three of:
#force = "30 kN"                    # of all jaws together at rest
#jaw_mass = 0.8                     # of one jaw, kg
#jaw_radius = 55                    # that its middle runs on
#count = 3                          # how many jaws

[setup.speeds]
#surface = 200                      # for all tools that say nothing themselves
clamp = 2500                        # the highest rpm; the control is told before all else
#constant = true                    # constant surface speed

[setup.rough]
tool = 1
#way = "along"                      # level passes along Z; "profile": parallel to it (castings)
#depth = 2                          # of a pass, on radius
#feed = 0.25
#leave = 0.2                        # stock to leave on radius
#leave_face = 0.1                   # and along Z

[setup.finish]
tool = 2
#feed = 0.08                        # without it from surface_ra and the nose radius
#surface_ra = 1.6                   # the roughness in micrometres
#compensation = "control"           # of the nose; without it "worked out"

[setup.groove]                      # what turning can't reach
tool = 3
#feed = 0.06
#peck = 1                           # without it in one go

[setup.thread]
tool = 4
#passes = 8                         # without it by the pitch
#infeed = "even"                    # chips of even area; "gentle": the first pass takes less
#spring = 1                         # passes at full depth
#flank = 29.5                       # degrees of infeed, 0 is straight in

#[setup.travel_at]                  # where the program's origin stands in lathe_travel, from the
#x = 30                             # lower end of each axis: where the point of the slide that
#z = 350                            # every tool's tip counts from is, with its tip at the origin

# Other tables of a setup:
#[setup.drill]
#tool = 6
#centre = 7                         # the centre drill before it
#peck = 5

#[setup.bore]                       # keys as in setup.rough
#tool = 5

#[setup.part_off]                   # the part off the bar, at its far end
#tool = 8
#edge = 0.3                         # how far the corner is broken before
#feed = 0.05
"""

_JAWS = """
# The chuck's soft jaws, bored to the end that they hold:
#[[tool]]
#number = 9
#kind = "grooving"
#inside = true
#width = 1.5
#reach = 2
#radius = 0.1
#least_bore = 13
#shank = 10

#[[setup]]
#name = "jaws-end-b"
#cut = "chuck jaws"
#post = "rs274ngc-lathe"
#grips = "B"                        # the end of the part that they will hold
#depth = 11                         # of the bore; as much as the chuck is to grip, or more
#jaws = { opening = 20, outer = 70, length = 40, ring = "plug", material = "mild steel" }
#chuck = { max_rpm = 3000, dia = 160 }
#speeds = { clamp = 2000 }
#bore = { tool = 5 }
#groove = { tool = 9 }              # a relief at the foot of the bore; without it none
"""

LATHE = _PART + _TOOLS + _MACHINE + _FIRST + _SECOND + _JAWS
"""Without the head that all of them share."""
