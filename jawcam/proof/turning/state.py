"""The state in which a lathe cuts: spindle, speed, feed, tool, work offset."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from jawcam.proof.report import Finding, Grade
from jawcam.proof.turning.scene import Scene
from jawcam.reader.cuts import Change, Cut

__all__ = ["state"]

Fails = Callable[[Cut], bool]

FEEDING: tuple[tuple[str, Grade, Fails, str, str], ...] = (
    (
        "T101",
        "stop",
        lambda cut: _stands(cut) and not _by_turn(cut),
        "a feed move while the spindle stands still",
        "start the spindle with S and M3 before this block",
    ),
    (
        "T108",
        "stop",
        lambda cut: _stands(cut) and _by_turn(cut),
        "a feed per turn while the spindle stands still: the tool would never move",
        "start the spindle with S and M3 before this block",
    ),
    (
        "T102",
        "stop",
        lambda cut: cut.feed <= 0 and cut.lead <= 0,
        "a feed move without a rate",
        "give an F word in this block or before it",
    ),
    (
        "T103",
        "stop",
        lambda cut: cut.tool == 0,
        "a feed move before a tool is called",
        "call the tool with T first",
    ),
    (
        "T113",
        "stop",
        lambda cut: cut.kind == "arc" and (cut.plane != "XZ" or cut.centre is None),
        "an arc in another plane than that of X and Z isn't proven",
        "choose the plane of X and Z with G18 first",
    ),
    (
        "T114",
        "note",
        lambda cut: cut.side != "off",
        "the control compensates the nose radius; proven with the nose radius that the job has",
        "enter the nose radius and the tip's orientation in the tool table",
    ),
)
"""What a feed move must not be: code, grade, test, what is wrong, how to mend it."""


def state(scene: Scene) -> list[Finding]:
    """What every cut needs; a finding by the first cut of each stretch that lacks it."""
    feeds = [cut for cut in scene.own if cut.kind != "rapid"]
    found = [
        scene.find(code, grade, what, by=cut, mend=mend)
        for code, grade, fails, what, mend in FEEDING
        for cut in _starts(feeds, fails)
    ]
    return [
        *found,
        *_directions(scene, feeds),
        *_speeds(scene),
        *_tools(scene),
        *_wear(scene, feeds),
        *_offsets(scene),
        *_tight(scene),
    ]


def _stands(cut: Cut) -> bool:
    return cut.spindle == "off" or (cut.rpm <= 0 and cut.surface <= 0)


def _by_turn(cut: Cut) -> bool:
    return cut.per_turn or cut.lead > 0


def _directions(scene: Scene, feeds: Sequence[Cut]) -> list[Finding]:
    """Feed moves while the spindle turns against the edge: the job says for each tool which way it
    must turn."""
    ways = {tool.number: tool.turns for tool in scene.target.tools}

    def against(cut: Cut) -> bool:
        right = "ccw" if ways.get(cut.tool) == "counter-clockwise" else "cw"
        return cut.spindle not in ("off", right)

    found = []
    for cut in _starts(feeds, against):
        way, other = ("clockwise", "M4") if cut.spindle == "cw" else ("counter-clockwise", "M3")
        what = f"the spindle turns {way}, against the edge of T{cut.tool}"
        mend = f"start it with {other}, or give the tool's turns in the job"
        found.append(scene.find("T105", "stop", what, by=cut, mend=mend))
    return found


def _speeds(scene: Scene) -> list[Finding]:
    """Constant surface speed without a clamp, and speeds above what the job allows."""
    most, turns = scene.target.clamp, [cut for cut in scene.own if cut.spindle != "off"]
    over, found = 1e-6, _unclamped(scene, turns)
    for cut in _starts(turns, lambda cut: cut.surface > 0 and cut.clamp > most + over):
        what = f"a highest speed of {cut.clamp:g} rpm, above the {most:g} rpm that the job allows"
        mend = f"clamp it at {most:g} rpm"
        by, at = _clamped_by(scene.program.changes, cut), (cut.end[2], cut.end[0])
        found.append(scene.find("T116", "stop", what, by=by, at=at, mend=mend))
    for cut in _starts(turns, lambda cut: cut.surface <= 0 and cut.rpm > most + over):
        what = f"{cut.rpm:g} rpm, above the {most:g} rpm that the job allows"
        mend = f"turn at {most:g} rpm at most"
        found.append(scene.find("T117", "stop", what, by=cut, mend=mend))
    return found


def _clamped_by(changes: Sequence[Change], cut: Cut) -> Change | Cut:
    """What tells the highest speed that a cut runs under; the cut itself where a reader doesn't
    note that."""
    before = [change for change in changes if change.kind == "clamp" and change.when <= cut.when]
    return max(before, key=lambda change: (change.when, change.column), default=cut)


def _unclamped(scene: Scene, turns: Sequence[Cut]) -> list[Finding]:
    """Constant surface speed with no highest speed told before it, or none since the tool was
    changed, where some controls forget it."""
    mend = f"give the control {scene.target.clamp:g} rpm as the highest speed first"
    switches = _untold(scene.program.changes)
    without: list[Cut | Change] = list(
        _starts(turns, lambda cut: cut.surface > 0 and cut.clamp <= 0)
    )
    found = []
    for by in without or [change for change, ever in switches if not ever]:
        what = "constant surface speed without a highest speed told before it"
        found.append(scene.find("T115", "stop", what, by=by, mend=mend))
    for by in (change for change, ever in switches if ever):
        what = "constant surface speed without the highest speed told again since the tool change: "
        what += "a control that forgets it there has none"
        found.append(scene.find("T115", "warn", what, by=by, mend=mend))
    return found


def _untold(changes: Sequence[Change]) -> list[tuple[Change, bool]]:
    """The first switch to constant surface speed of each tool that no highest speed is told
    before, and whether one has ever been; of a reader that notes that at all."""
    if not any(change.kind == "clamp" for change in changes):
        return []
    found = []
    ever = told = False
    for change in sorted(changes, key=lambda one: (one.line, one.column)):
        if change.kind == "tool":
            told = False
        elif change.kind == "clamp":
            ever = told = True
        elif change.kind == "spindle" and change.value.endswith("/min") and not told:
            found.append((change, ever))
            told = True
    return found


def _tools(scene: Scene) -> list[Finding]:
    """Tools that the job doesn't have or whose shape it doesn't tell, and drills off the axis."""
    has = {tool.number: tool for tool in scene.target.tools}
    first: dict[int, Cut] = {}
    for cut in scene.own:
        if cut.tool != 0 and cut.tool not in scene.forms:
            first.setdefault(cut.tool, cut)
    found = []
    for number, cut in first.items():
        what = f"T{number} isn't a tool of the job, so its moves are not proven"
        mend = f"call one of the job's tools: {', '.join(f'T{n}' for n in sorted(has)) or 'none'}"
        if number in has:
            what = f"the shape of T{number} can't be told, so its moves are not proven"
            mend = "give its insert, its width or its diameter in full"
        found.append(scene.find("T104", "stop", what, by=cut, mend=mend))
    for move in scene.moves:
        off = max(abs(move.start[1]), abs(move.end[1]))
        if move.kind != "rapid" and "drill" in move.tool.kind and off > scene.limits.level:
            what = f"T{move.tool.number}, a drill, feeds {scene.say(off)} off the axis"
            found.append(
                scene.find("T106", "stop", what, by=move, amount=off, mend="go to X 0 first")
            )
    return found


def _wear(scene: Scene, feeds: Sequence[Cut]) -> list[Finding]:
    """Cuts without the offset of their tool, or with another tool's."""
    own = {tool.number: tool.offset or tool.number for tool in scene.target.tools}
    found = []
    for cut in _starts(feeds, lambda cut: cut.tool in own and cut.length_offset == 0):
        what = f"T{cut.tool} cuts without its offset"
        mend = f"call offset {own[cut.tool]} with the tool"
        found.append(scene.find("T121", "warn", what, by=cut, mend=mend))
    others = _starts(feeds, lambda c: c.length_offset not in (0, own.get(c.tool, c.length_offset)))
    for cut in others:
        what = f"T{cut.tool} cuts with offset {cut.length_offset}"
        mend = f"call offset {own[cut.tool]} with the tool"
        found.append(scene.find("T122", "warn", what, by=cut, mend=mend))
    return found


def _offsets(scene: Scene) -> list[Finding]:
    own = scene.target.work_offset
    first: dict[int, Cut] = {}
    for cut in scene.program.cuts:
        if cut.work_offset != own:
            first.setdefault(cut.work_offset, cut)
    return [
        scene.find(
            "T110",
            "stop",
            f"moves in work offset {number}, while this setup stands in {own}",
            by=cut,
            mend=f"choose work offset {own} before this block",
        )
        for number, cut in first.items()
    ]


def _tight(scene: Scene) -> list[Finding]:
    what = "an inside arc that the nose doesn't fit into, so the control refuses it"
    mend = "take an insert with a smaller nose radius"
    return [scene.find("T118", "stop", what, by=move, mend=mend) for move in scene.tight]


def _starts(cuts: Iterable[Cut], fails: Fails) -> list[Cut]:
    """The first cut of each unbroken run of those that fail."""
    starts, failed = [], False
    for cut in cuts:
        fails_now = fails(cut)
        if fails_now and not failed:
            starts.append(cut)
        failed = fails_now
    return starts
