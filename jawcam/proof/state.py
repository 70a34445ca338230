"""The state in which cuts are made: spindle, feed, tool, offsets."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from jawcam.proof.report import Finding, Grade
from jawcam.proof.scene import Scene
from jawcam.reader.cuts import Cut

__all__ = ["state"]

Fails = Callable[[Cut], bool]


BELOW_TOP: tuple[tuple[str, Grade, Fails, str, str], ...] = (
    (
        "P103",
        "stop",
        lambda cut: cut.tool == 0,
        "the cutter goes below {} before a tool is called",
        "call the tool with T and M6 first",
    ),
    (
        "P105",
        "stop",
        lambda cut: cut.kind != "rapid" and cut.spindle == "ccw",
        "the spindle turns counter-clockwise, against the edges of the cutter",
        "start it with M3",
    ),
    (
        "P108",
        "warn",
        lambda cut: cut.tool != 0 and cut.length_offset == 0,
        "the cutter goes below {} without a length offset",
        "call the tool's length offset with G43 and H first",
    ),
    (
        "P111",
        "note",
        lambda cut: cut.side != "off",
        "cutter compensation is on; the path is proven with its register at zero",
        "set the register to zero before the first part, then dial the fit in",
    ),
)
"""What a cut below the top of what is cut must not be: code, grade, test, what is wrong (with room
for the top in words), how to mend it."""


def state(scene: Scene) -> list[Finding]:
    """What every cut needs; a finding by the first cut of each stretch that lacks it."""
    return [
        *_every_feed(scene),
        *_below_top(scene),
        *_lengths(scene),
        *_tools(scene),
        *_offsets(scene),
    ]


def _every_feed(scene: Scene) -> list[Finding]:
    feeds = [cut for cut in scene.own if cut.kind != "rapid"]
    found = []
    for cut in _starts(feeds, lambda cut: cut.spindle == "off" or cut.rpm <= 0):
        what = "a feed move while the spindle stands still"
        if cut.spindle != "off":
            what = "a feed move with a spindle speed of 0"
        mend = "start the spindle with S and M3 before this block"
        found.append(scene.find("P101", "stop", what, by=cut, mend=mend))
    for cut in _starts(feeds, lambda cut: cut.feed <= 0):
        mend = "give an F word in this block or before it"
        found.append(scene.find("P102", "stop", "a feed move without a rate", by=cut, mend=mend))
    for cut in _starts(scene.own, lambda cut: cut.kind == "arc" and cut.plane != "XY"):
        what = "an arc in an upright plane isn't proven"
        mend = "cut with arcs in the XY plane and lines"
        found.append(scene.find("P203", "stop", what, by=cut, mend=mend))
    return found


def _below_top(scene: Scene) -> list[Finding]:
    low = [cut for cut in scene.own if scene.below_top(cut)]
    return [
        scene.find(code, grade, what.format(scene.rim), by=cut, mend=mend)
        for code, grade, fails, what, mend in BELOW_TOP
        for cut in _starts(low, fails)
    ]


def _lengths(scene: Scene) -> list[Finding]:
    """Length offsets of another number than the tool's: of another tool of the job it would be too
    high or run into the work; else it may be the tool's own by a numbering that isn't known."""
    tools = {cutter.number for cutter in scene.target.cutters}
    low = [cut for cut in scene.own if scene.below_top(cut) and cut.tool != 0]
    found = []
    for cut in _starts(low, lambda cut: cut.length_offset not in (0, cut.tool)):
        number = cut.length_offset
        grade: Grade = "stop" if number in tools else "warn"
        what = f"the length offset is H{number} and the tool T{cut.tool}"
        if number in tools:
            what = f"the length offset is that of T{number}, another tool"
        mend = "give H the number of the tool that is loaded"
        found.append(scene.find("P109", grade, what, by=cut, mend=mend))
    return found


def _tools(scene: Scene) -> list[Finding]:
    known = {cutter.number for cutter in scene.target.cutters} | {0}
    first: dict[int, Cut] = {}
    for cut in scene.own:
        if cut.tool not in known:
            first.setdefault(cut.tool, cut)
    has = ", ".join(f"T{number}" for number in sorted(known - {0})) or "none"
    return [
        scene.find(
            "P104",
            "stop",
            f"T{number} isn't a tool of the job, so its moves are not proven",
            by=cut,
            mend=f"call one of the job's tools: {has}",
        )
        for number, cut in first.items()
    ]


def _offsets(scene: Scene) -> list[Finding]:
    own = scene.target.work_offset
    first: dict[int, Cut] = {}
    for cut in scene.program.cuts:
        if cut.work_offset != own and cut.work_offset not in scene.others:
            first.setdefault(cut.work_offset, cut)
    return [
        scene.find(
            "P110",
            "stop",
            f"moves in work offset {number}, while this setup stands in {own}",
            by=cut,
            mend=f"choose work offset {own} before this block",
        )
        for number, cut in first.items()
    ]


def _starts(cuts: Iterable[Cut], fails: Fails) -> list[Cut]:
    """The first cut of each unbroken run of those that fail."""
    starts, failed = [], False
    for cut in cuts:
        fails_now = fails(cut)
        if fails_now and not failed:
            starts.append(cut)
        failed = fails_now
    return starts
