"""Programs made up by hypothesis, as a planner of mill work could give them."""

from __future__ import annotations

import math

from hypothesis import strategies as st

from jawcam.motion.moves import (
    ArcFeed,
    Begin,
    Compensate,
    Coolant,
    Drill,
    Dwell,
    End,
    LineFeed,
    Rapid,
    Remark,
    Spindle,
    ToolChange,
    WorkOffset,
)

FLOATS = st.floats(-90, 90)
CLEAR = 25.0


@st.composite
def cuts(draw, here):
    """Lines, arcs and helices from a point, end to end; some under compensation."""
    moves = []
    for _ in range(draw(st.integers(1, 6))):
        x, y = draw(FLOATS), draw(FLOATS)
        z = draw(st.sampled_from([here[2], -3.5, -1.25]))
        feed = draw(st.sampled_from([60.0, 250.0, 716.5]))
        ccw, bow = draw(st.booleans()), draw(st.sampled_from([0.0, 0.05, 0.4, 3.0, -1.0, "full"]))
        apart = math.dist((x, y), here[:2])
        if bow == "full" and apart > 0.05:
            moves.append(ArcFeed((*here[:2], z), (x, y), ccw, feed))
        elif bow and bow != "full" and apart > 0.05:
            middle = ((x + here[0]) / 2, (y + here[1]) / 2)
            across = (-(y - here[1]) / 2 / bow, (x - here[0]) / 2 / bow)
            centre = (middle[0] + across[0], middle[1] + across[1])
            moves.append(ArcFeed((x, y, z), centre, ccw, feed))
        else:
            moves.append(LineFeed((x, y, z), feed))
        here = moves[-1].to
    return moves


@st.composite
def works(draw, clear):
    """What one tool does from a height and back to it: cuts, compensated or not, or holes."""
    x, y = draw(FLOATS), draw(FLOATS)
    moves = [Rapid((x, y, clear))]
    if draw(st.booleans()):
        count = draw(st.integers(1, 3))
        for _ in range(count):
            dwell = draw(st.sampled_from([0.0, 0.25, 1.5]))
            depth = draw(st.floats(-9, -1))
            moves.append(Drill((draw(FLOATS), draw(FLOATS)), clear, 1.0, depth, 90.0, dwell=dwell))
        return moves
    moves += [Rapid((x, y, 2.0)), LineFeed((x, y, -1.25), 120.0)]
    path = draw(cuts((x, y, -1.25)))
    side = draw(st.sampled_from(["off", "left", "right"]))
    if side != "off":
        lead_in, lead_out = (LineFeed((x + n, y + 1.0, -1.25), 300.0) for n in (1.5, 3.0))
        on, path = Compensate(side, draw(st.integers(1, 99))), draw(cuts(lead_in.to))
        path = [on, lead_in, *path, Compensate("off"), lead_out]
    moves += path
    end = moves[-1].to
    return [*moves, Dwell(0.5), Remark("up"), Rapid((end[0], end[1], clear))]


@st.composite
def programs(draw):
    """Tools one after the other at one or two stations, with all that goes with it."""
    motions = [Begin(draw(st.text(max_size=20)), (draw(st.text(max_size=90)),)), WorkOffset(1)]
    for _ in range(draw(st.integers(1, 3))):
        motions += [
            ToolChange(draw(st.integers(1, 99)), draw(st.text(max_size=30))),
            Spindle(float(draw(st.integers(1, 99999))), draw(st.booleans())),
        ]
        for station in draw(st.lists(st.sampled_from([1, 2]), min_size=1, max_size=2)):
            motions += [WorkOffset(station), Rapid((draw(FLOATS), draw(FLOATS), CLEAR))]
            motions.append(Coolant(draw(st.sampled_from(["flood", "mist", "off"]))))
            motions += draw(works(CLEAR))
    return (*motions, End())
