"""What was chosen for a cutter in the pocket and why, in words."""

from __future__ import annotations

from dataclasses import replace

from jawcam.job.model import Setup
from jawcam.mill.allowed import BEND_SHARE, LIGHT, floor_left, wall_foot, wall_tolerance
from jawcam.tools.cutter import Cutter
from jawcam.tools.engagement import thinning
from jawcam.tools.feeds import Speeds
from jawcam.tools.limits import Limits
from jawcam.tools.reasons import Reasons, feed_words
from jawcam.tools.settle import Settled
from jawcam.units import Units

__all__ = ["reasons_of"]


def reasons_of(
    worked: Speeds,
    setup: Setup,
    rough: Settled,
    stepover: float,
    units: Units,
    wall: Settled | None,
    what: str,
    cutter: Cutter,
    limits: Limits | None,
) -> Reasons:
    """The reasons of all that was settled. rough: at the stepover, and where it clears all across
    too at full width."""
    pace, said = rough.pace, worked.reasons
    why = "from the job" if setup.rough.feed else said.why
    factor = thinning(stepover, pace.dia) if pace.thin else 1.0
    if factor > 1.005:
        why += f" x {factor:.2f} for thin chips at {units.say(stepover)} wide"
    feed = f"feed {feed_words(pace.at(stepover), units)}: {why}"
    if rough.told[0]:
        asked = (setup.rough.feed or worked.feed) * factor
        feed = f"{rough.told[0]}; {feed_words(asked, units)} were due, {why}"
    more = [
        *(told or f"full width {feed_words(pace.at(pace.dia), units)}" for told in rough.told[1:]),
        *said.more,
        *(_wall_words(wall, setup, units, what) if wall else ()),
        *_not_judged(cutter, setup, limits),
    ]
    return replace(
        said,
        feed=feed,
        more=tuple(more),
        cautions=(*rough.cautions, *(wall.cautions if wall else ())),
    )


def _not_judged(cutter: Cutter, setup: Setup, limits: Limits | None) -> tuple[str, ...]:
    """What of the load nobody can tell, in words."""
    if limits is None:
        return (f"load not judged: no cutting force known of {setup.jaws.material}",)
    return (
        *(("power not judged: none given",) if not limits.given else ()),
        *(("bend not judged: no stickout given",) if cutter.stickout is None else ()),
    )


def _wall_words(wall: Settled, setup: Setup, units: Units, what: str) -> tuple[str, ...]:
    (told,) = wall.told
    if "bend" in told:
        spring = setup.finish.spring
        before = f" before the spring pass{'es' * (spring > 1)}" if spring else ""
        told += f"{before}, {BEND_SHARE:g} of {units.say(wall_tolerance(setup))} tolerance"
        told += " after" if spring else ""
    bite, left = max(setup.rough.leave, LIGHT), floor_left(setup, wall.pace.depth)
    if what != "wall" or left == 0:
        return (told or f"{what} {feed_words(wall.pace.at(bite), units)}",)
    bite += wall_foot(setup, wall.pace.dia, wall.pace.depth)
    told = told or f"{what} {feed_words(wall.pace.at(bite), units)}"
    return (told, f"wall before floor: its foot takes {units.say(left)} of that all across")
