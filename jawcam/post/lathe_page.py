"""The page of a lathe's program: it knows what feeds count by and where tools are changed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from jawcam.motion.moves import ToolChange
from jawcam.post.lathe_tables import LatheDialect
from jawcam.post.page import Page
from jawcam.units import Units

__all__ = ["LathePage"]

_INCHES_IN_A_FOOT = 12


@dataclass
class LathePage(Page):
    """A lathe's program being written. feed_by: what the feeds of the motions count by."""

    dialect: LatheDialect
    feed_by: Literal["turn", "minute"] = "turn"

    def __post_init__(self) -> None:
        """Where tools are changed holds for the whole program."""
        places = self.dialect.tools.home.of(self.units)
        signed = self.dialect.numbers.sign == "always"
        for name, place in zip(("home_x", "home_z"), places, strict=True):
            self.values[name] = self.coordinate(place, signed=signed)

    def remarks(self) -> Sequence[str]:
        """What X is, and where tools are changed if the program says so."""
        letters, tools = self.dialect.moves.axes, self.dialect.tools
        told = "diameters" if self.dialect.lathe.x == "diameter" else "radii"
        remarks = [*super().remarks(), f"{letters[0]} words are {told}"]
        if any("{home_" in line for line in (*tools.first, *tools.leave)):
            places = zip(letters, tools.home.of(self.units), strict=True)
            at = " ".join(f"{letter} {place:g}" for letter, place in places)
            remarks.append(f"tools are changed at {at}; nothing may stand in the way there")
        return remarks

    def load(self, change: ToolChange) -> None:
        """What a tool change fills in."""
        super().load(change)
        self.values["tool_offset"] = str(change.offset or change.number)

    def feed_unit(self) -> str:
        """The word that says what feeds count by, where it has changed: the feed is then told
        anew."""
        words = self.dialect.feed
        word = words.per_turn if self.feed_by == "turn" else words.per_minute
        changed = self.modal("feed unit", word)
        if changed:
            self.said.pop("feed", None)
        return changed

    def feed(self, feed: float) -> str:
        """The feed word, where it has changed."""
        if self.feed_by == "minute":
            return super().feed(feed)
        decimals = self.dialect.numbers.turn_decimals.of(self.units)
        return self.feed_word(self.units.from_mm(feed), decimals)

    def surface_speed(self, speed: float) -> float:
        """A surface speed in m/min -> in the unit of the program."""
        if self.dialect.spindle.surface_unit.of(self.units) == "m/min":
            return speed
        return Units.INCH.from_mm(speed * 1000) / _INCHES_IN_A_FOOT
