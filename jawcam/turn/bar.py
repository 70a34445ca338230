"""What room a bar has in a bore."""

from __future__ import annotations

from jawcam.errors import Fault, FaultList
from jawcam.tools.turner import Turner
from jawcam.turn.work import TurnWork

__all__ = ["check_bar", "narrowest"]


def narrowest(work: TurnWork, end: float) -> float:
    """The least radius of the finished bore from the free end to a Z."""
    rows = [radii for begin, _, *radii in work.bore_rows if begin > end + 1e-6]
    return min(radius for radii in rows for radius in radii)


def check_bar(work: TurnWork, tool: Turner, *, bore: float, room: float, deep: float) -> None:
    """Raise InputError for a bar that does not go into a bore of a diameter with some mm to draw
    its edge back by, or whose edge does not stand out as far as it is to cut `deep`.

    A bar is taken to run in the middle of the least bore that it goes into, so its edge stands out
    of it by half of what that is wider than its shank.
    """
    least, say, faults = tool.least_bore, work.job.units.say, FaultList()
    if least is None:
        return
    out = (least - tool.shank) / 2
    if least + room > bore + 1e-6:
        back = f" and {say(room)} to draw back" if room else ""
        what = f"tool {tool.number} takes a bore of {say(least)}{back}, this one is {say(bore)}"
        faults.faults.append(Fault(what, work.place, "take a smaller bar"))
    if out <= 0:
        what = f"tool {tool.number} is to go into a bore of {say(least)}, and its shank is taken "
        what += f"to be {say(tool.shank)} thick"
        faults.faults.append(Fault(what, work.place, "give the shank of its bar"))
    elif out < deep:
        what = f"the edge of tool {tool.number} stands {say(out)} out of its bar, half of what its "
        what += f"least_bore is more than its shank, and is to cut {say(deep)} deep"
        faults.faults.append(Fault(what, work.place, "take a slimmer bar"))
    faults.raise_if_any()
