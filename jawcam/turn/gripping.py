"""Whether the chuck holds the work against roughing, and up to which speed: guidance, no proof."""

from __future__ import annotations

from collections.abc import Iterator

from jawcam.tools.force import cutting_force, group_of, specific_force, turning_chip
from jawcam.tools.grip import (
    FAMILY,
    LEAST_FACTOR,
    allowed_speed,
    centrifugal_force,
    friction,
    grip_torque,
)
from jawcam.turn.work import Driven, TurnWork

__all__ = ["ENOUGH", "grip_words"]

ENOUGH = 2.0
"""Times the cut's torque that a chuck's grip should bear at least: guide of a chuck maker's data
sheet, for a new chuck and work that does not stand far out; up to 4 for others."""


def grip_words(work: TurnWork, driven: Driven, depth: float) -> Iterator[str]:
    """What the person should know of the grip while the outside is roughed so many mm deep.

    Nothing unless the job gives the chuck's force and its jaws' mass. The jaws count as smooth and
    the work as machined where they grip; the cut is taken at the stock's own diameter.
    """
    chuck, material = work.setup.chuck, work.job.part.material
    if chuck.force is None or chuck.jaw_mass is None or chuck.jaw_radius is None:
        return
    group = group_of(material)
    if group is None:
        yield "the chuck's grip is not held against a cut: it is not known how hard the material is"
        return
    say, kind = work.job.units.say, FAMILY.get(group.name, "steel")
    rpm, moment = driven.clamp, chuck.count * chuck.jaw_mass * chuck.jaw_radius / 1000
    # the first that is kept off are the jaws, from the gripped radius on
    gripped = 2 * work.held.target.keep_off[0][0][1]
    across, feed = 2 * work.held.stock.outer.box[3], driven.speeds.feed
    width, thick = turning_chip(feed, depth, driven.tool.approach)
    pull = cutting_force(specific_force(group.kc, group.mc, thick), width, thick)
    asked = pull * across / 2 / 1000
    mu = friction("machined", kind)
    bears = grip_torque(mu, max(chuck.force - centrifugal_force(moment, rpm), 0.0), gripped)
    times = bears / asked
    yield (
        f"roughing {say(depth)} deep at {say(feed)} a turn takes {asked:.0f} N m on {say(across)}; "
        f"the grip bears {bears:.0f} N m on {say(gripped)} at {rpm:.0f} rpm, {times:.1f} times "
        f"that (friction {mu:.2g} of smooth jaws, {group.name} of VDI 3323; guidance only)"
    )
    if times < ENOUGH:
        yield (
            f"caution: {ENOUGH:g} times are the least, up to 4 where work stands far out: rough "
            "less deep, hold a larger diameter, grip harder or turn slower"
        )
    working = LEAST_FACTOR * asked * 1000 / (mu * gripped / 2)
    most = allowed_speed(chuck.force, working, moment)
    if most < rpm:
        yield (
            f"caution: with such a cut the jaws hold up to {int(most)} rpm (VDI 3106, both factors "
            f"{LEAST_FACTOR:g}): lower the clamp of the speed or grip harder"
        )
