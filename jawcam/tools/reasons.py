"""Why a tool is driven as it is, in words."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from jawcam.units import Units

__all__ = ["Reasons", "feed_words", "merged"]


@dataclass(frozen=True)
class Reasons:
    """Of tool `number`: rpm, feed: the number chosen and its reason; more: others, likewise;
    cautions: what the person should mind of it. why: the feed's reason alone."""

    number: int
    rpm: str
    feed: str
    more: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    why: str = ""

    @property
    def line(self) -> str:
        """All but the cautions, for one line to print."""
        return f"T{self.number}: " + "; ".join((self.rpm, self.feed, *self.more))

    @property
    def lines(self) -> tuple[str, ...]:
        """That line, and one for each caution."""
        return (self.line, *(f"caution: T{self.number}: {one}" for one in self.cautions))


def merged(all_reasons: Iterable[Reasons]) -> tuple[Reasons, ...]:
    """Those of each tool in one, tools in the order in which they first come. Where it has another
    feed at its next work, that is told too."""
    found: dict[int, Reasons] = {}
    for one in all_reasons:
        first = found.setdefault(one.number, one)
        feed = () if one.feed == first.feed else (f"then {one.feed}",)
        found[one.number] = replace(
            first,
            more=tuple(dict.fromkeys((*first.more, *feed, *one.more))),
            cautions=tuple(dict.fromkeys((*first.cautions, *one.cautions))),
        )
    return tuple(found.values())


def feed_words(feed: float, units: Units) -> str:
    """Say a feed in mm/min in the job's units."""
    if units is Units.INCH:
        return f"{units.from_mm(feed):.1f} in/min"
    return f"{feed:.0f} mm/min"
