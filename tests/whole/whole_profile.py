"""A turned part as a table and as the drawing of its half profile, in one job each."""

import math
import tomllib

import ezdxf
from whole_jobs import MM, SAMPLES

from jawcam.geometry.shapes import Arc
from jawcam.job.load import load
from jawcam.part.profile import half_profile

SAMPLE = SAMPLES / "burr-spindle.toml"

MILL = """
[[tool]]
number = 11
kind = "end mill"
dia = 8
flutes = 3
flute_len = 40
stickout = 48

[[tool]]
number = 12
kind = "end mill"
dia = 5
flutes = 3
flute_len = 20
stickout = 28

[[setup]]
name = "end-b-down"
cut = "jaws"
post = "rs274ngc-mill"
jaws = { width = 110, height = 45, thickness = 40, gap = 6 }
hold = { depth = 24 }
fit = { grip = 0.02, step = 0.3 }
rough = { way = "rings" }
finish = { tool = 11 }

[[setup]]
name = "end-a-down"
cut = "jaws"
post = "rs274ngc-mill"
jaws = { width = 110, height = 45, thickness = 40, gap = 6 }
hold = { depth = 38, flip = true }
fit = { grip = 0.02, step = 0.3 }
rough = { way = "rings" }
finish = { tool = 11 }

[[setup]]
name = "lying"
cut = "jaws"
post = "rs274ngc-mill"
jaws = { width = 110, height = 45, thickness = 40, gap = 6 }
hold = { depth = 16, lie = true }
fit = { grip = 0.02, side = 0.1 }
rough = { way = "rings" }
finish = { tool = 12 }
"""
"""Vise jaws for the burr spindle: on end B up into its flange, on end A up into its taper, and on
its side."""


def plain_table(text, cuts):
    """The sample with some of its kinds of setups, without what a drawing doesn't say: threads,
    limits, the job's own edge."""
    head, *setups = text.split("[[setup]]")
    head = head.replace(', thread = "M12x1.75 6g"', "").replace(", limits = [0, -0.018]", "")
    head = head.replace("edge = 0.2 ", "edge = 0 ")
    part = tomllib.loads(head)["part"]
    assert part["edge"] == 0
    assert not any({"thread", "limits"} & piece.keys() for piece in part["turned"])
    kept = [one for one in setups if any(f'cut = "{cut}"' in one for cut in cuts)]
    return "[[setup]]".join([head, *kept])


def drawing_of(segments, layer):
    """The half profile drawn above a centre line, from left to right."""
    document = ezdxf.new("R2010", units=MM)
    document.linetypes.add("CENTER", pattern=[2.0, 1.25, -0.25, 0.25, -0.25])
    space = document.modelspace()
    for segment in segments:
        if isinstance(segment, Arc):
            angles = [
                math.degrees(math.atan2(y - segment.centre[1], x - segment.centre[0]))
                for x, y in (segment.start, segment.end)
            ]
            radius = math.dist(segment.start, segment.centre)
            ends = angles if segment.ccw else reversed(angles)
            space.add_arc(segment.centre, radius, *ends, dxfattribs={"layer": layer})
        else:
            space.add_line(segment.start, segment.end, dxfattribs={"layer": layer})
    space.add_line((-5, 0), (95, 0), dxfattribs={"layer": layer, "linetype": "CENTER"})
    return document


def both_jobs(folder, text):
    """Two files: the job as it is, and the same with a drawing in the place of its table."""
    table, drawn = folder / "table.toml", folder / "drawn.toml"
    table.write_text(text, encoding="utf-8")
    job = load(table)
    drawing_of(half_profile(job.part.turned, units=job.units, place=str), "PROFILE").saveas(
        folder / "spindle.dxf"
    )
    drawn.write_text(with_drawing(text), encoding="utf-8")
    return table, drawn


def with_drawing(text):
    start, end = text.index("turned = ["), text.index("[[tool]]")
    return text[:start] + 'profile = "spindle.dxf"\nlayer = "PROFILE"\n\n' + text[end:]
