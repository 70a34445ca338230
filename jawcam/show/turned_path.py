"""The path of lathe tools: the tool as shade and width, the kind of cut as line type."""

from __future__ import annotations

from typing import Any

from matplotlib.collections import LineCollection

from jawcam.show.page import View
from jawcam.show.path import MANY
from jawcam.show.style import DEPTHS, RAPID_LINE, SOFT
from jawcam.show.trace import RAPID
from jawcam.show.turned_picture import FEED, GROOVE, THREAD, TurnPicture

__all__ = ["draw_turned_path", "look_of", "tool_look"]

LINES: dict[int, Any] = {FEED: "solid", GROOVE: (0, (3.2, 1.0)), THREAD: (0, (7.0, 1.2, 1.2, 1.2))}
NAMES = {RAPID: "rapid", FEED: "feed", GROOVE: "groove", THREAD: "thread"}

LIGHTEST = 0.85
"""Share of the scale of shades that the first tool has."""

NARROWEST, WIDEST = 0.9, 2.0


def tool_look(order: tuple[int, ...], number: int) -> dict[str, Any]:
    """Shade and width of a tool's feed moves: later tools are darker and narrower, so that what
    they go over stays to be seen."""
    place = order.index(number) if number in order else 0
    share = place / (len(order) - 1) if len(order) > 1 else 1.0
    return {
        "color": DEPTHS(LIGHTEST * (1 - share)),
        "linewidth": WIDEST + (NARROWEST - WIDEST) * share,
    }


def look_of(order: tuple[int, ...], look: int, number: int) -> dict[str, Any]:
    """How moves of a look and tool are drawn."""
    if look == RAPID:
        return {"color": SOFT, "linewidth": 0.8, "linestyle": RAPID_LINE}
    return {**tool_look(order, number), "linestyle": LINES[look]}


def draw_turned_path(shown: View, picture: TurnPicture) -> None:
    """Draw all moves: rapid ones below, then tool by tool in the order of their use."""
    groups: dict[tuple[int, int], list[Any]] = {}
    for strand in picture.path:
        tool = 0 if strand.look == RAPID else strand.tool
        groups.setdefault((strand.look, tool), []).append(strand.points)
    for (look, tool), lines in groups.items():
        over = 0 if look == RAPID else 1 + picture.order.index(tool)
        drawn = LineCollection(lines, label=NAMES[look], zorder=5 + over * 0.01, capstyle="butt")
        drawn.set(**look_of(picture.order, look, tool))
        drawn.set_gid(NAMES[look] if look == RAPID else f"{NAMES[look]}-T{tool}")
        drawn.set_rasterized(sum(map(len, lines)) > MANY)
        shown.axes.add_collection(drawn, autolim=False)
