"""What the passes of one setup share."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from jawcam.errors import Place
from jawcam.geometry.offset import shrink
from jawcam.geometry.rings import Ring, rings
from jawcam.geometry.shapes import Region
from jawcam.hold.target import Target
from jawcam.job.model import Setup
from jawcam.mill.bite import Cleared
from jawcam.mill.chosen import Chosen
from jawcam.mill.links import Air
from jawcam.mill.rest import rest_pockets
from jawcam.mill.rough import Clearing
from jawcam.tolerance import Tolerance

__all__ = ["Work"]


@dataclass(frozen=True)
class Work:
    """One setup's target, its cavity as exact lines and arcs, and its two cutters."""

    setup: Setup
    target: Target
    cavity: Region
    rough: Chosen
    finish: Chosen
    tolerance: Tolerance
    place: Place

    @property
    def rough_floor(self) -> float:
        """The Z that roughing stops at."""
        return self.target.floor + min(self.setup.rough.leave_floor, -self.target.floor / 2)

    @property
    def air(self) -> Air:
        """How to move without cutting."""
        return Air(self.target.clearance, self.rough.link_feed)

    @cached_property
    def roughed(self) -> Cleared:
        """Where the roughing cutter has been."""
        return Cleared(self.centre(self.rough), self.rough.dia / 2)

    @cached_property
    def rest(self) -> tuple[Ring, ...]:
        """Rings for the finishing cutter where the roughing cutter could not get."""
        return rest_pockets(
            self.cavity,
            self.setup.rough.leave,
            self.rough.dia,
            self.finish.dia,
            self.finish.stepover,
            self.tolerance,
        )

    @cached_property
    def cleared(self) -> tuple[Cleared, ...]:
        """Where both cutters have been before the floor and the wall are finished."""
        rested = tuple(ring.region for ring in self.rest)
        return (self.roughed, Cleared(rested, self.finish.dia / 2))

    @cached_property
    def finished(self) -> tuple[Region, ...]:
        """Where the finishing cutter's centre may be with nothing left on the wall."""
        return shrink([self.cavity], self.finish.dia / 2, self.tolerance)

    @cached_property
    def free(self) -> tuple[Region, ...]:
        """Where the finishing cutter's centre may be with stock left on the wall."""
        return self.centre(self.finish)

    def centre(self, chosen: Chosen) -> tuple[Region, ...]:
        """Where a cutter's centre may be with stock left on the wall."""
        return shrink([self.cavity], chosen.dia / 2 + self.setup.rough.leave, self.tolerance)

    def rims(self, chosen: Chosen) -> tuple[Ring, ...]:
        """Rings that clear the whole pocket, stock left on the wall."""
        margin = chosen.dia / 2 + self.setup.rough.leave
        return rings([self.cavity], margin, chosen.stepover, self.tolerance)

    def clearing(
        self, chosen: Chosen, rims: tuple[Ring, ...], cleared: tuple[Cleared, ...] = ()
    ) -> Clearing:
        """How a cutter clears inside rings; cleared: where others have been before."""
        return Clearing(
            rings=rims,
            cleared=cleared,
            dia=chosen.dia,
            stepover=chosen.stepover,
            feed=chosen.feed,
            slot_feed=chosen.slot_feed,
            plunge_feed=chosen.plunge_feed,
            ramp=self.setup.rough.ramp,
            air=self.air,
            gap=self.target.blanks.gap,
            centre_cutting=chosen.cutter.centre_cutting,
            place=self.place,
        )
