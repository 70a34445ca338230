"""Jobs whose parts have threads: the adjusting nut and the filler neck of a hand-cranked coffee
grinder, turned from a bar and parted off it."""

TURNING = """\

[[tool]]
number = 1
kind = "turning"
insert = "CNMG120408"
approach = 95

[[tool]]
number = 2
kind = "turning"
insert = "DCMT11T304"
approach = 93

[[tool]]
number = 3
kind = "grooving"
width = "2 mm"
radius = "0.1 mm"
reach = "8 mm"

[[tool]]
number = 4
kind = "threading"
pitch_angle = 60

[[tool]]
number = 5
kind = "boring"
insert = "CCMT060204"
approach = 95
least_bore = "8 mm"
shank = "6 mm"
overhang = "40 mm"

[[tool]]
number = 6
kind = "drill"
dia = "9 mm"
flute_len = "75 mm"

[[tool]]
number = 7
kind = "threading"
inside = true
least_bore = "9.5 mm"
shank = "6.5 mm"
overhang = "40 mm"
pitch_angle = 60

[[tool]]
number = 8
kind = "parting"
width = "2 mm"
reach = "20 mm"

[[tool]]
number = 9
kind = "grooving"
inside = true
width = "1.5 mm"
radius = "0.1 mm"
reach = "2 mm"
least_bore = "9.5 mm"
shank = "5 mm"
overhang = "40 mm"
"""

PARTED = """
[[setup]]
name = "nut"
cut = "turned profile"
post = "rs274ngc-lathe"
end = "A"
stock = { dia = "36 mm", allowance = "1 mm" }
chuck = { grip = "40 mm" }
drill = { tool = 6 }
bore = { tool = 5 }
part_off = { tool = 8 }
"""

BOTH_ENDS = """
[[setup]]
name = "outside"
cut = "turned profile"
post = "rs274ngc-lathe"
end = "B"
stock = { dia = "36 mm", allowance = "1 mm" }
chuck = { grip = "10 mm" }
reach = "16 mm"

[[setup]]
name = "nut"
cut = "turned profile"
post = "rs274ngc-lathe"
end = "A"
stock = { dia = "36 mm", allowance = "1 mm" }
chuck = { grip = "12 mm" }
drill = { tool = 6 }
bore = { tool = 5 }
"""


def job(turned, bore, *, units="mm", flanks=60, setups=PARTED):
    """A job's text. turned, bore: the rows of the tables; flanks: of both threading tools."""
    head = f'title = "Threads of a grinder"\nunits = "{units}"\n\n[part]\n'
    part = f'material = "brass 360"\nedge = "0.2 mm"\nturned = [{turned}]\nbore = [{bore}]\n'
    tools = TURNING.replace("pitch_angle = 60", f"pitch_angle = {flanks}")
    return head + part + tools + setups


COLLAR = "{ dia = 34, len = 10, chamfer = 0.5 }"
SLEEVE = "{ dia = 24, len = 6, chamfer = 0.5 }, " + COLLAR

NUT = job(
    SLEEVE,
    '{ dia = 13, len = 1 }, { dia = 12, len = 8, thread = "M12x1.75 6H" }, { dia = 12.6, len = 4 }',
)
"""Blind: a relief, behind it the hole that was drilled."""

THROUGH = job(SLEEVE, '{ dia = 13, len = 1 }, { dia = 12, len = 15, thread = "M12x1.75 6H" }')
SECOND = job(
    SLEEVE.replace("len = 10", "len = 24"),
    '{ dia = 13, len = 1 }, { dia = 10.2, len = 29, thread = "M12x1.75 6H" }',
    setups=BOTH_ENDS,
)
"""The end behind the thread was turned before."""

PIPE = job(
    '{ dia = [20.44, 21.38], len = 15, thread = "R 1/2" }, { dia = 17.6, len = 4 }, ' + COLLAR,
    "{ dia = 10, len = 29 }",
    flanks=55,
)
PIPE_INSIDE = job(
    "{ dia = 34, len = 26, chamfer = 0.5 }",
    '{ dia = [18.63, 17.63], len = 16, thread = "Rc 1/2" }, { dia = 21, len = 5 }',
    flanks=55,
)
INCH_PIPE = job(
    '{ dia = [0.8156, 0.8544], len = 0.62, thread = "1/2-14 NPT" }, { dia = 0.67, len = 0.16 }, '
    "{ dia = 1.34, len = 0.4, chamfer = 0.02 }",
    "{ dia = 0.4, len = 1.18 }",
    units="inch",
)
INCH_NUT = job(
    "{ dia = 0.95, len = 0.24, chamfer = 0.02 }, { dia = 1.34, len = 0.4 }",
    '{ dia = 0.5, len = 0.35, thread = "1/2-13 UNC 2B" }, { dia = 0.515, len = 0.16 }',
    units="inch",
)
CONE = job(
    '{ dia = [20, 22], len = 16, thread = "M20x1.5" }, { dia = 17, len = 4 }, ' + COLLAR,
    "{ dia = 10, len = 30 }",
)
STARTS = job(
    '{ dia = 20, len = 16, thread = "M20xPh5P2.5 6g" }, { dia = 15, len = 4 }, ' + COLLAR,
    "{ dia = 10, len = 30 }",
)
STARTS_INSIDE = job(
    "{ dia = 34, len = 30, chamfer = 0.5 }",
    '{ dia = 16, len = 16, thread = "M16xPh4.5P1.5-6H" }, { dia = 16.5, len = 5 }',
)

JOBS = {
    "nut": NUT,
    "through": THROUGH,
    "second end": SECOND,
    "pipe": PIPE,
    "pipe inside": PIPE_INSIDE,
    "inch pipe": INCH_PIPE,
    "inch nut": INCH_NUT,
    "cone": CONE,
    "starts": STARTS,
    "starts inside": STARTS_INSIDE,
}
