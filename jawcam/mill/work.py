"""What the passes of one setup share, and what those of one of its levels do."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from jawcam.errors import Place
from jawcam.geometry.combine import difference, union
from jawcam.geometry.narrow import substantial
from jawcam.geometry.offset import grow, shrink
from jawcam.geometry.rings import Ring, rings
from jawcam.geometry.shapes import Region
from jawcam.hold.cavity import CutLevel, blank_regions
from jawcam.hold.target import Target
from jawcam.job.model import Job, Setup
from jawcam.mill.bite import Cleared
from jawcam.mill.driven import Chosen
from jawcam.mill.entry import has_way_down
from jawcam.mill.links import Air
from jawcam.mill.rest import Left, Rest, rest_of
from jawcam.mill.rough import Clearing
from jawcam.mill.steady import SteadyRing, planned
from jawcam.tolerance import Tolerance

__all__ = ["LevelWork", "Work"]


@dataclass(frozen=True)
class Work:
    """One setup of a job: its target, its levels as exact lines and arcs, as drawn and as they
    will be cut, and the cutters: the two that do most of it and that for the corners which the
    finishing one is too round for (itself, if there is no smaller one)."""

    job: Job
    setup: Setup
    target: Target
    cavity: tuple[CutLevel, ...]
    as_cut: tuple[tuple[Region, ...], ...]
    rough: Chosen
    finish: Chosen
    corner: Chosen
    tolerance: Tolerance
    place: Place

    @property
    def air(self) -> Air:
        """How to move without cutting."""
        return Air(self.target.clearance, self.rough.link_feed)

    @cached_property
    def levels(self) -> tuple[LevelWork, ...]:
        """The work at each level, from the top down."""
        groups = _groups(self)
        return tuple(
            LevelWork(self, number, group)
            for group in groups
            for number in range(group[0], group[-1] + 1)
        )

    @property
    def roughed_together(self) -> tuple[LevelWork, ...]:
        """The levels that are roughed; those above each are left to be cut with its wall."""
        return tuple(one for one in self.levels if one.is_last)


@dataclass(frozen=True)
class LevelWork:
    """One level. group: the numbers of the levels that are roughed in one go, as narrow as the
    lowest of them; most groups hold one level only."""

    work: Work
    number: int
    group: tuple[int, ...]

    def named(self, what: str) -> str:
        """What is done at it, as the program calls that."""
        count = len(self.work.cavity)
        return what if count == 1 else f"{what}, level {self.number + 1} of {count}"

    @property
    def pockets(self) -> tuple[Region, ...]:
        """What this level's walls run round."""
        return self.work.cavity[self.number].pockets

    @property
    def top(self) -> float:
        """The Z that the level begins at."""
        return self.work.cavity[self.number].top

    @property
    def floor(self) -> float:
        """The Z of its floor."""
        return self.work.cavity[self.number].floor

    @property
    def is_last(self) -> bool:
        """Whether it is the lowest of those that are roughed in one go."""
        return self.number == self.group[-1]

    @property
    def stock_top(self) -> float:
        """The Z that roughing has come down to before it begins here."""
        first = self.group[0]
        return self.work.levels[first - 1].rough_floor if first else 0.0

    @property
    def rough_floor(self) -> float:
        """The Z that roughing stops at."""
        last = self.work.cavity[self.group[-1]]
        high = self.work.cavity[self.group[0]].top
        return last.floor + min(self.work.setup.rough.leave_floor, (high - last.floor) / 2)

    @property
    def roughed_pockets(self) -> tuple[Region, ...]:
        """What roughing clears for it, stock to leave not yet taken off."""
        return self.work.cavity[self.group[-1]].pockets

    @cached_property
    def rough_rims(self) -> tuple[Ring, ...]:
        """Rings for the roughing cutter, where it has a way down or nothing smaller has."""
        rims = self.rims(self.work.rough, self.roughed_pockets)
        if self.work.finish.dia >= self.work.rough.dia:
            return rims
        job = self.clearing(self.work.rough, rims)
        return tuple(ring for ring in rims if has_way_down(ring.region, ring.middle, job))

    @cached_property
    def steadily(self) -> tuple[SteadyRing, ...]:
        """How its rings are cleared at a steady load, those that are."""
        if self.work.setup.rough.way != "steady":
            return ()
        return planned(self.clearing(self.work.rough, self.rough_rims))

    @cached_property
    def roughed(self) -> Cleared:
        """Where the roughing cutter has been."""
        return Cleared(tuple(ring.region for ring in self.rough_rims), self.work.rough.dia / 2)

    @cached_property
    def rest(self) -> Rest:
        """What the roughing cutter could not reach and the finishing cutter can."""
        work, been = self.work, self.roughed
        room = self._centre(self.roughed_pockets, work.rough.dia)
        return rest_of(
            Left(
                self.roughed_pockets,
                work.setup.rough.leave,
                been,
                tuple(one for one in room if one not in been.centre),
                blank_regions(work.target.blanks),
                work.finish.dia / 2,
                work.finish.stepover,
                work.tolerance,
            )
        )

    @cached_property
    def cleared(self) -> tuple[Cleared, ...]:
        """Where both cutters have been before the floor and the wall are finished."""
        return (self.roughed, Cleared(self.rest.centre, self.work.finish.dia / 2))

    @cached_property
    def deeper(self) -> tuple[Region, ...]:
        """Where the finishing cutter's centre finds nothing at this floor, as the levels below
        have been roughed already."""
        if not self.is_last:
            cleared = self.rough_floor <= self.floor
            return self._centre(self.roughed_pockets, self.work.finish.dia) if cleared else ()
        below = self.group[-1] + 1
        if below == len(self.work.cavity):
            return ()
        return self._centre(self.work.levels[below].roughed_pockets, self.work.finish.dia)

    @cached_property
    def finished(self) -> tuple[Region, ...]:
        """Where the finishing cutter's centre may be with nothing left on the wall."""
        return shrink(self.pockets, self.work.finish.dia / 2, self.work.tolerance)

    @cached_property
    def free(self) -> tuple[Region, ...]:
        """Where the finishing cutter's centre may be with stock left on the wall."""
        return self._centre(self.pockets, self.work.finish.dia)

    @cached_property
    def emptied(self) -> tuple[Region, ...]:
        """Where the finishing cutter's centre finds nothing to cut down to the rough floor, before
        anything is finished."""
        work = self.work
        been = [grow(one.centre, one.radius, work.tolerance) for one in self.cleared]
        whole = union([region for some in been for region in some], work.tolerance)
        return shrink(whole, work.finish.dia / 2, work.tolerance)

    @property
    def wall_first(self) -> bool:
        """Whether its wall is finished before its floor."""
        return self.work.setup.finish.first == "wall"

    @property
    def floored(self) -> bool:
        """Whether anything is left to finish at its floor."""
        return not self.is_last or self.rough_floor > self.floor

    @cached_property
    def corner_finished(self) -> tuple[Region, ...]:
        """Where the centre of the cutter for the corners may be with nothing left on the wall."""
        return shrink(self.pockets, self.work.corner.dia / 2, self.work.tolerance)

    @cached_property
    def corner_free(self) -> tuple[Region, ...]:
        """Where the centre of the cutter for the corners may be with stock left on the wall."""
        return self._centre(self.pockets, self.work.corner.dia)

    def _centre(self, pockets: Sequence[Region], dia: float) -> tuple[Region, ...]:
        """Where a cutter's centre may be with stock left on the wall."""
        margin = dia / 2 + self.work.setup.rough.leave
        return shrink(pockets, margin, self.work.tolerance)

    def rims(
        self, chosen: Chosen, pockets: Sequence[Region], off: float | None = None
    ) -> tuple[Ring, ...]:
        """Rings that clear pockets, so far off the wall in mm; None: the stock left on it."""
        margin = chosen.dia / 2 + (self.work.setup.rough.leave if off is None else off)
        return rings(pockets, margin, chosen.stepover, self.work.tolerance)

    def clearing(
        self,
        chosen: Chosen,
        rims: tuple[Ring, ...],
        cleared: tuple[Cleared, ...] = (),
        deeper: tuple[Region, ...] = (),
    ) -> Clearing:
        """How a cutter clears inside rings; cleared: where others have been before; deeper: where
        its centre finds nothing to cut any more."""
        work = self.work
        return Clearing(
            rings=rims,
            cleared=cleared,
            deeper=deeper,
            dia=chosen.dia,
            stepover=chosen.stepover,
            feed=chosen.feed,
            slot_feed=chosen.slot_feed,
            plunge_feed=chosen.plunge_feed,
            ramp=work.setup.rough.ramp,
            air=work.air,
            gap=work.target.blanks.gap,
            centre_cutting=chosen.cutter.centre_cutting,
            place=work.place,
            pace=chosen.clearing_pace,
        )


def _groups(work: Work) -> list[tuple[int, ...]]:
    """Levels that are roughed in one go: together no higher than a stepdown, and the widest of
    them no more than the stock to leave beyond the narrowest, as along a stepped taper."""
    groups: list[list[int]] = []
    for number, level in enumerate(work.cavity):
        first = work.cavity[groups[-1][0]] if groups else None
        if (
            first is not None
            and first.top - level.floor <= work.rough.stepdown
            and _nearly_as_wide(first, level, work)
        ):
            groups[-1].append(number)
        else:
            groups.append([number])
    return [tuple(group) for group in groups]


def _nearly_as_wide(wide: CutLevel, narrow: CutLevel, work: Work) -> bool:
    inside = shrink(wide.pockets, work.setup.rough.leave, work.tolerance)
    return not substantial(difference(inside, narrow.pockets, work.tolerance), work.tolerance)
