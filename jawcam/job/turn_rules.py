"""What must hold between the values of the lathe's setups, and of its tools."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from jawcam.job.check import Values
from jawcam.job.lookup import Broken, Rule, at, items, milled, turned
from jawcam.job.places import KeyPath, path_words
from jawcam.job.single import DrillFeed
from jawcam.job.words import listing, quoted
from jawcam.units import Units

__all__ = ["TURN_RULES"]

_NEAR = 1e-6  # mm; what arithmetic leaves between lengths that are meant to be the same
_NEEDED: tuple[tuple[str, str, str], ...] = (
    ("rough", "turning", "turning a profile"),
    ("drill", "drill", "drilling"),
    ("bore", "boring", "boring"),
    ("part_off", "parting", "parting off"),
)
_BY_FORCE = ("force", "jaw_mass", "jaw_radius")


def _needs_diameters(job: Values, _units: Units) -> Iterator[Broken]:
    part = job.get("part", {})
    if part.get("outline") is None or part.get("turned", True) or part.get("profile", True):
        return
    for path, _ in turned(job):
        what = "only a part with a table of diameters or a half profile has a turned profile"
        mend = "write [part] turned = [ { dia = ..., len = ... } ] in place of its outline"
        yield (*path, "cut"), what, f'{mend}, or cut = "jaws"'


def _length(job: Values) -> float | None:
    """How long the part is; None if that is at fault, or told by a drawing."""
    pieces = job.get("part", {}).get("turned") or []
    if not pieces or not all("len" in piece for piece in pieces):
        return None
    return float(sum(piece["len"] for piece in pieces))


def _parts_off(setup: Values) -> bool:
    """Whether a setup turns the part off a bar; also where what it says of that is at fault."""
    return setup.get("part_off", 0) is not None


def _grip(job: Values, units: Units) -> Iterator[Broken]:
    length = _length(job)
    for path, setup in turned(job):
        grip = at(setup, "chuck", "grip")
        if length is None or grip is None or _parts_off(setup) or grip < length - _NEAR:
            continue
        what = f"the part is only {units.say(length)} long, and the chuck would hold all of it"
        yield (*path, "chuck", "grip"), what, "hold less of it, or part it off a bar with part_off"


def _reach(job: Values, units: Units) -> Iterator[Broken]:
    length = _length(job)
    for path, setup in turned(job):
        reach = at(setup, "reach")
        if length is not None and reach is not None and reach > length + _NEAR:
            what = f"the part is only {units.say(length)} long"
            yield (*path, "reach"), what, "make it smaller, or leave it out"


def _ends(job: Values, units: Units) -> Iterator[Broken]:
    """One setup at most for each end, and no gap between what two of them turn."""
    first: dict[str, tuple[KeyPath, Values]] = {}
    for path, setup in turned(job):
        end = setup.get("end")
        if end is None:
            continue
        if end in first:
            what = f"{path_words(first[end][0])} turns end {end} already"
            yield (*path, "end"), what, "one setup turns each end: leave one of the two out"
            continue
        first[end] = path, setup
    if len(first) == 2:
        (before, one), (path, other) = first.values()
        yield from _gap(job, units, before, (one, other), path)


def _gap(
    job: Values, units: Units, before: KeyPath, setups: tuple[Values, Values], path: KeyPath
) -> Iterator[Broken]:
    length, reaches = _length(job), [at(setup, "reach") for setup in setups]
    if length is None or any(map(_parts_off, setups)):
        return
    done = sum(reach for reach in reaches if reach is not None)
    if None not in reaches and done < length - _NEAR:
        what = f"neither this setup nor {path_words(before)} turns {units.say(length - done)}"
        what += f" of the part, which is {units.say(length)} long"
        yield (*path, "reach"), what, f"make both reaches together {units.say(length)} or more"


def _stock(job: Values, units: Units) -> Iterator[Broken]:
    for path, setup in turned(job):
        dia, bore = at(setup, "stock", "dia"), at(setup, "stock", "bore")
        if dia is not None and bore is not None and bore >= dia:
            what = f"the bore must be smaller than the stock, {units.say(dia)}"
            yield (*path, "stock", "bore"), what, "make it smaller; 0 is solid"
        if at(setup, "stock", "over") is not None and _parts_off(setup):
            what = "what is cast or forged near to shape is no bar to part off"
            yield (*path, "stock", "over"), what, "leave it out, or leave part_off out"


def _tailstock(job: Values, units: Units) -> Iterator[Broken]:
    """A tailstock's centre stands where the end would be faced to the axis, drilled or bored."""
    for path, setup in turned(job):
        centre = at(setup, "chuck", "centre")
        if not at(setup, "chuck", "tailstock"):
            if centre is not None:
                what = "only a tailstock's centre stands in a centre hole"
                yield (*path, "chuck", "centre"), what, "add tailstock = true, or leave it out"
            continue
        for key, work in (("drill", "drilled"), ("bore", "bored")):
            if setup.get(key) is not None:
                what = f"the free end can't be {work} while a tailstock's centre stands in it"
                mend = "leave it to a setup without the tailstock, or leave the tailstock out"
                yield (*path, key), what, mend
        if at(setup, "stock", "allowance") != 0 and centre is None:
            what = "the free end can't be faced to the axis while a tailstock's centre stands in it"
            mend = "face and centre it first, without the tailstock, and write allowance = 0; or "
            mend += "give the centre hole's diameter as chuck.centre, to face it down to its rim"
            yield (*path, "stock", "allowance"), what, mend
        yield from _centre_hole(job, path, setup, units)


def _centre_hole(job: Values, path: KeyPath, setup: Values, units: Units) -> Iterator[Broken]:
    """The centre hole must leave something of the end."""
    pieces = job.get("part", {}).get("turned") or []
    centre, end = at(setup, "chuck", "centre"), setup.get("end")
    piece = pieces[0 if end == "A" else -1] if pieces and end else {}
    if centre is None or "dia" not in piece:
        return
    rim = piece["dia"][0 if end == "A" else 1]
    if centre >= rim:
        what = f"a centre hole as wide as the end, {units.say(rim)}"
        yield (*path, "chuck", "centre"), what, "make it smaller"


def _force(job: Values, _units: Units) -> Iterator[Broken]:
    """What the chuck holds at speed is worked out from all three, or from none."""
    for path, setup in turned(job):
        chuck = setup.get("chuck", {})
        given = [key for key in _BY_FORCE if key in chuck]
        lacking = [key for key in _BY_FORCE if key not in chuck]
        if given and lacking:
            what = f"how hard the chuck grips at speed can't be told without {listing(lacking)}"
            mend = f"add {' and '.join(f'{key} = ...' for key in lacking)}"
            yield (*path, "chuck", given[0]), what, f"{mend}, or leave out {listing(given)}"


def _some_tool(job: Values, _units: Units) -> Iterator[Broken]:
    kinds = [tool.get("kind") for _, tool in items(job, "tool")]
    if not kinds or None in kinds:
        return
    for path, setup in turned(job):
        for table, kind, work in _NEEDED:
            cut = setup.get(table)
            if cut is None or kind in kinds or cut.get("tool") is not None:
                continue  # one that is named is looked up with all others
            what = f"none of the tools is for {work}" if kind != "drill" else "there is no drill"
            key = () if table == "rough" else (table,)
            yield (*path, *key), what, f"add a [[tool]] of the kind {quoted(kind)}"


def _sides(job: Values, _units: Units) -> Iterator[Broken]:
    for path, tool in items(job, "tool"):
        kind, inside = tool.get("kind"), tool.get("inside")
        if kind == "turning" and inside:
            what = "a turning tool works on the outside"
            yield (*path, "inside"), what, 'leave it out, or make the kind "boring"'
        elif kind == "boring" and inside is False:
            what = "a boring tool works in a bore"
            yield (*path, "inside"), what, 'leave it out, or make the kind "turning"'
        elif "least_bore" in tool and not inside and kind not in (None, "boring"):
            what = "only a tool that works in a bore has a least_bore"
            yield (*path, "least_bore"), what, "leave it out, or write inside = true"


def _turns(job: Values, _units: Units) -> Iterator[Broken]:
    """Passes run towards the chuck, so the way of the spindle makes the hand of the thread."""
    for path, tool in items(job, "tool"):
        if tool.get("kind") == "threading" and tool.get("turns") == "counter-clockwise":
            what = "with the spindle turning counter-clockwise its threads come out left-hand"
            yield (*path, "turns"), what, "leave it out, and hold the tool the other way up"


def _edges(job: Values, units: Units) -> Iterator[Broken]:
    for path, tool in items(job, "tool"):
        width, radius = tool.get("width"), tool.get("radius")
        if width is not None and radius is not None and radius > width / 2 + _NEAR:
            what = "the corners' radius must be half the edge's width or less, "
            yield (*path, "radius"), what + units.say(width / 2), "make it smaller"


def _drills(job: Values, _units: Units) -> Iterator[Broken]:
    """A drill's feed is per minute on the mill and per turn on the lathe, where its speed is that
    of its surface.
    """
    for path, tool in items(job, "tool"):
        feed = tool.get("feed")
        milling, turning = (_first(found, job, tool) for found in (milled(job), turned(job)))
        if not isinstance(feed, DrillFeed):
            feed = DrillFeed()
        if milling and feed.turn is not None:
            what = f"{milling} drills with it on the mill, where feeds are per minute"
            yield (*path, "feed"), what, 'write it such as "200 mm/min", or leave it out'
        if turning and feed.minute is not None:
            what = f"{turning} drills with it on the lathe, where feeds are per turn"
            yield (*path, "feed"), what, 'write it such as "0.1 mm", or leave it out'
        if turning and "rpm" in tool:
            what = f"{turning} drills with it on the lathe, where its speed follows from surface"
            yield (*path, "rpm"), what, "write surface = ... in place of it"


def _first(setups: Iterable[tuple[KeyPath, Values]], job: Values, drill: Values) -> str:
    """Name the first of the setups that takes this drill, "" for none."""
    number = drill.get("number")
    if drill.get("kind") != "drill" or number is None:
        return ""
    only = sum(tool.get("kind") == "drill" for _, tool in items(job, "tool")) == 1
    for path, setup in setups:
        named = [hole.get("tool") for _, hole in items(setup, "holes")]
        named += [at(setup, "corners", "tool"), at(setup, "drill", "tool")]
        silent = only and setup.get("drill") is not None and at(setup, "drill", "tool") is None
        if number in named or silent:
            return path_words(path)
    return ""


TURN_RULES: tuple[Rule, ...] = (
    _needs_diameters,
    _grip,
    _reach,
    _ends,
    _stock,
    _tailstock,
    _force,
    _some_tool,
    _sides,
    _turns,
    _edges,
    _drills,
)
"""What is asked of the lathe."""
