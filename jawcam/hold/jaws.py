"""A part and a pair of jaw blanks in, the target out."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from jawcam.errors import Fault, FaultList, InputError, Place
from jawcam.geometry.shapes import Path, Region, to_bulges
from jawcam.hold.blanks import check_blanks
from jawcam.hold.cavity import MOST_LEVELS, CutLevel, cavity_levels
from jawcam.hold.closing import Closing, Wall, check_closing, closing
from jawcam.hold.closing_words import words
from jawcam.hold.cornered import corners_by_level, levels_as_cut
from jawcam.hold.corners import Corners
from jawcam.hold.drilled import drilled_of
from jawcam.hold.fit import fitted
from jawcam.hold.grip import grip_words
from jawcam.hold.lying import rested
from jawcam.hold.place import place
from jawcam.hold.proud import check_proud, proud_words
from jawcam.hold.seat import check_groove, groove_of, seat_words
from jawcam.hold.seated import datum, seated
from jawcam.hold.target import Hole, Level, Section, Target
from jawcam.job.model import Fit, Job, Setup
from jawcam.job.places import place_in_setup
from jawcam.part.solid import Slab, Solid
from jawcam.tolerance import Tolerance
from jawcam.tools.choose import chamfer_mill, corner_cutter, finisher
from jawcam.tools.cutter import Cutter

__all__ = ["Held", "hold"]

_EXACT = 1e-6  # mm


@dataclass(frozen=True)
class Held:
    """The target, plain, for all; its levels as exact lines and arcs, as drawn and (`as_cut`) as
    the finishing cutter and that for the corners leave them, relieved, for the planner."""

    target: Target
    levels: tuple[CutLevel, ...]
    as_cut: tuple[tuple[Region, ...], ...]


def hold(job: Job, setup: Setup, solid: Solid, tolerance: Tolerance) -> Held:
    """One setup of a job -> what must go and what must stay. solid: the part as it is drawn.

    Raises InputError with all that is found wrong: the blanks can't hold the part, the jaws would
    meet each other before it, the finishing cutter is too large or too short for the pocket, a
    bolt is in the way, or what is cut next does not clear the jaws.
    """

    def where(key: str = "") -> Place:
        return place_in_setup(job, setup, key)

    faults = FaultList()
    placed = place(solid, setup.hold)
    _check_lying(placed, job, setup, faults, where)
    held = _held_dia(placed, setup.hold.depth)
    fit = fitted(_on_nominal(setup.fit, held, job), held, job.units, where("fit"))
    rests = rested(placed, setup, job.units, where, faults)
    levels = cavity_levels(rests.slabs, setup.hold.depth, fit.grip, setup.fit.side, tolerance)
    _check_count(levels, faults, where)
    _check_clearance(job, setup, faults, where)
    cutter = finisher(job.tools, setup.finish.tool, where())
    check_flutes(cutter, setup.hold.depth + setup.hold.groove, job, where("hold.depth"))
    small = corner_cutter(job.tools, cutter, setup.hold.depth + setup.hold.groove)
    corners = corners_by_level(job, setup, levels, small, tolerance, faults)
    faults.raise_if_any()
    as_cut = levels_as_cut(levels, corners, small, tolerance)
    drilled = (*drilled_of(setup, job.tools, where), *corners.drilled)
    closed = _closed(setup, rests.slabs, levels, as_cut, tolerance)
    for check in (
        lambda: check_blanks(
            [(pockets, level.floor) for level, pockets in zip(levels, as_cut, strict=True)],
            drilled,
            setup.jaws,
            setup.bolts,
            setup.keep,
            groove_of(setup.hold.groove, cutter),
            job.units,
            where,
            tolerance,
            facing=setup.face.take if setup.face else 0.0,
        ),
        lambda: check_closing(closed, job.units, where("jaws.gap")),
        lambda: check_groove(
            levels[-1], setup.hold.groove, cutter, setup.jaws, job.units, tolerance, where
        ),
        lambda: check_proud(placed.height, setup, job.units, where),
    ):
        _collect(faults, check)
    faults.raise_if_any()
    notes = (
        *rests.notes,
        *_remarks(placed, setup.hold.depth, levels),
        *placed.notes,
        *fit.notes,
        *_words(job, setup, placed, closed),
    )
    target = _target(job, setup, placed, levels, corners, drilled, fit.grip, cutter, notes)
    return Held(replace(target, seated=seated(closed, setup)), levels, as_cut)


def _words(job: Job, setup: Setup, placed: Solid, closed: Closing) -> tuple[str, ...]:
    """What is to be said of how the part stands, how the jaws close on it and how they grip."""
    drawn = "closing is told of the part as drawn, not of its class"
    return (
        *proud_words(placed.height, setup, job.units),
        *words(closed, job.units),
        *([drawn] if setup.fit.letters else []),
        *seat_words(placed.broken_below, setup, job.units, lies=placed.lying is not None),
        *grip_words(setup.clamp, setup.next_cut, job.part.material, job.units),
    )


def _target(
    job: Job,
    setup: Setup,
    placed: Solid,
    levels: Sequence[CutLevel],
    corners: Corners,
    drilled: tuple[Hole, ...],
    grip: float,
    cutter: Cutter,
    notes: tuple[str, ...],
) -> Target:
    depth, edges = setup.hold.depth, setup.edges
    mill = None
    if edges is not None:
        mill = chamfer_mill(job.tools, edges.tool, place_in_setup(job, setup, "edges")).number
    return Target(
        name=setup.name,
        title=job.title,
        units=job.units,
        levels=tuple(
            Level(one.top, one.floor, tuple(to_bulges(path) for path in one.outlines))
            for one in levels
        ),
        silhouette=tuple(to_bulges(path) for path in placed.silhouette),
        holes=tuple(to_bulges(hole) for hole in placed.holes),
        body=tuple(
            Section(one.height - depth, tuple(to_bulges(path) for path in one.outlines))
            for one in placed.slices
        ),
        grip=grip,
        side=setup.fit.side,
        part_top=placed.height - depth,
        blanks=setup.jaws,
        zero=datum(setup.zero, setup.jaws),
        work_offset=setup.work_offset,
        clearance=setup.clearance,
        cutters=job.tools,
        bolts=setup.bolts,
        reliefs=corners.reliefs,
        unreached=corners.unreached,
        drilled=drilled,
        groove=groove_of(setup.hold.groove, cutter),
        facing=setup.face.take if setup.face else 0.0,
        edge=edges.width if edges else 0.0,
        edge_tool=mill,
        keep=setup.keep,
        notes=notes,
        vise=setup.vise,
        spacers=setup.spacers,
        travel_at=setup.travel_at,
    )


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


def _collect(faults: FaultList, check: Callable[[], None]) -> None:
    try:
        check()
    except InputError as error:
        faults.faults.extend(error.faults)


def _check_lying(
    placed: Solid, job: Job, setup: Setup, faults: FaultList, where: Callable[[str], Place]
) -> None:
    """Upright walls meet a round part that lies only where it is widest."""
    least, depth = placed.least_depth, setup.hold.depth
    if depth < least:
        say = job.units.say
        faults.add(
            f"lying, the part must sit to its axis at least, {say(least)}: at {say(depth)} the "
            "walls do not reach up to where it is widest, and closing would lift it out",
            where("hold.depth"),
            f"hold it {say(least)} deep or more",
        )


def _check_clearance(
    job: Job, setup: Setup, faults: FaultList, where: Callable[[str], Place]
) -> None:
    """The cutter moves freely above the blanks before they are faced too."""
    if setup.face is not None and setup.clearance <= setup.face.take:
        faults.add(
            f"the clearance is no more than what is faced off, {job.units.say(setup.face.take)}",
            where("clearance"),
            "give a larger clearance",
        )


def _check_count(
    levels: Sequence[CutLevel], faults: FaultList, where: Callable[[str], Place]
) -> None:
    """Nobody wants to wait for hundreds of steps."""
    if len(levels) > MOST_LEVELS:
        faults.add(
            f"the cavity would have more than {MOST_LEVELS} levels, each roughed and finished",
            where("fit.step"),
            "let its steps stand farther off the taper: give a larger fit.step",
        )


def _remarks(placed: Solid, depth: float, levels: Sequence[CutLevel]) -> list[str]:
    """What is to be said of the part below the jaw top, of its steps only where it has them."""
    floors = [level.floor + depth for level in levels]
    return [
        one.text
        for one in placed.remarks
        if one.bottom < depth
        and (not one.stepped or any(one.bottom < height < one.top for height in floors))
    ]


def _held_dia(placed: Solid, depth: float) -> float | None:
    """The diameter of the widest round outline below the jaw top, None if it is not round."""
    held = [path for slab in placed.slabs if slab.bottom < depth for path in slab.outlines]
    round_ones = [path.box[2] - path.box[0] for path in held if _is_circle(path)]
    return max(round_ones) if len(round_ones) == len(held) and held else None


def _on_nominal(fit: Fit, held: float | None, job: Job) -> Fit:
    """The fit on the size that a cylinder cut to the middle of its limits is called by."""
    if fit.letters and fit.size is None and held is not None:
        for piece in job.part.turned:
            if piece.limits and abs(piece.start + sum(piece.limits) / 2 - held) < _EXACT:
                return replace(fit, size=piece.start)
    return fit


def _is_circle(path: Path) -> bool:
    arcs = [getattr(segment, "centre", None) for segment in path.segments]
    return None not in arcs and len(set(arcs)) == 1


def _closed(
    setup: Setup,
    slabs: Sequence[Slab],
    levels: Sequence[CutLevel],
    as_cut: Sequence[tuple[Region, ...]],
    tolerance: Tolerance,
) -> Closing:
    """The jaws closed on the part, slab by slab, each in the pockets of the level it lies in."""
    # parted by a neck that the cutter can't pass, the whole cavity is the better guess
    pockets = [
        cut if len(cut) == len(level.pockets) else level.pockets
        for level, cut in zip(levels, as_cut, strict=True)
    ]
    walls, depth = [], setup.hold.depth
    for slab in reversed(slabs):
        top, floor = min(slab.top - depth, 0.0), slab.bottom - depth
        if floor >= 0:
            continue
        number = next(n for n, level in enumerate(levels) if level.floor <= (top + floor) / 2)
        walls.append(Wall(slab.outlines, pockets[number], top, floor))
    return closing(walls, setup.jaws, tolerance, mouth=levels[0].pockets)
