"""A part and a pair of jaw blanks in, the target out."""

from __future__ import annotations

from dataclasses import dataclass

from jawcam.errors import Fault, InputError, Place
from jawcam.geometry.shapes import Region, to_bulges
from jawcam.hold.cavity import blank_regions, cavity_of, check_blanks
from jawcam.hold.closing import check_closing, closing, words
from jawcam.hold.corners import corners_of, pocket_as_cut
from jawcam.hold.place import place
from jawcam.hold.target import Blanks, Level, Section, Target
from jawcam.job.model import Datum, Job, Setup
from jawcam.job.places import place_in_setup
from jawcam.part.outline import Outline
from jawcam.tolerance import Tolerance
from jawcam.tools.choose import finisher
from jawcam.tools.cutter import Cutter

__all__ = ["Held", "hold"]


@dataclass(frozen=True)
class Held:
    """The target, plain, for all; its cavity as exact lines and arcs, for the planner."""

    target: Target
    cavity: Region


def hold(job: Job, setup: Setup, outline: Outline, tolerance: Tolerance) -> Held:
    """One setup of a job -> what must go and what must stay.

    Raises InputError when the blanks can't hold the part, when the jaws would meet each other
    before it, when the finishing cutter is too large or too short for the pocket, or when there
    is none.
    """
    where = place_in_setup(job, setup)
    deep = place_in_setup(job, setup, "hold.depth")
    placed = place(outline, setup.hold)
    cavity = cavity_of(placed.outer, setup.fit, tolerance)
    blanks = place_in_setup(job, setup, "jaws")
    check_blanks(cavity, setup.jaws, setup.hold.depth, job.units, blanks)
    cutter = finisher(job.tools, setup.finish.tool, where)
    check_flutes(cutter, setup.hold.depth, job, deep)
    corners = corners_of(
        placed.outer,
        cavity,
        blank_regions(setup.jaws),
        cutter.dia,
        tolerance,
        relieve=setup.corners.relief != "none",
        floor=-setup.hold.depth,
        units=job.units,
        place=where,
    )
    cut = pocket_as_cut(cavity, corners, cutter.dia, tolerance)
    # parted by a neck that the cutter can't pass, the whole cavity is the better guess
    closed = closing(placed.outer, cut[0] if len(cut) == 1 else cavity, setup.jaws, tolerance)
    check_closing(closed, job.units, place_in_setup(job, setup, "jaws.gap"))
    target = Target(
        name=setup.name,
        title=job.title,
        units=job.units,
        levels=(Level(0.0, -setup.hold.depth, (to_bulges(placed.outer),)),),
        silhouette=(to_bulges(placed.outer),),
        holes=tuple(to_bulges(hole) for hole in placed.holes),
        body=(
            Section(-setup.hold.depth, (to_bulges(placed.outer),)),
            Section(job.part.thickness - setup.hold.depth, (to_bulges(placed.outer),)),
        ),
        grip=setup.fit.grip,
        side=setup.fit.side,
        part_top=job.part.thickness - setup.hold.depth,
        blanks=setup.jaws,
        zero=datum(setup.zero, setup.jaws),
        work_offset=setup.work_offset,
        clearance=setup.clearance,
        cutters=job.tools,
        bolts=setup.bolts,
        reliefs=corners.reliefs,
        unreached=corners.unreached,
        notes=(*outline.notes, *words(closed, job.units)),
    )
    return Held(target, cavity)


def datum(zero: Datum, blanks: Blanks) -> tuple[float, float, float]:
    """The jaw coordinates (mm) of the point that the operator touches off."""
    near, far = blanks.gap / 2, blanks.gap / 2 + blanks.thickness
    x = {"left": -blanks.width / 2, "middle": 0.0, "right": blanks.width / 2}[zero.x]
    y = {"front": -far, "front face": -near, "mid gap": 0.0, "back face": near, "back": far}[zero.y]
    z = {"top": 0.0, "bottom": -blanks.height}[zero.z]
    return (x + zero.shift[0], y + zero.shift[1], z + zero.shift[2])


def check_flutes(cutter: Cutter, depth: float, job: Job, place: Place) -> None:
    """Raise InputError when a cutter's flutes are shorter than the pocket is deep."""
    if cutter.flute_len is not None and cutter.flute_len < depth:
        say = job.units.say
        raise InputError(
            Fault(
                f"tool {cutter.number} has flutes of {say(cutter.flute_len)}, but the pocket is "
                f"{say(depth)} deep",
                place,
                "take a cutter with longer flutes, or hold the part less deep",
            )
        )
