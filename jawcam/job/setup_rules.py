"""What must hold between the values of a setup, and between setups."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator

from jawcam.job.check import Values
from jawcam.job.lookup import Broken, Rule, at, items, milled, tools
from jawcam.job.places import KeyPath, path_words
from jawcam.job.words import quoted
from jawcam.tools import materials
from jawcam.tools.cutter import KINDS, Cutter
from jawcam.units import Units

__all__ = ["SETUP_RULES"]


def _setup_names_differ(job: Values, _units: Units) -> Iterator[Broken]:
    first: dict[str, KeyPath] = {}
    for path, setup in items(job, "setup"):
        name = setup.get("name", "")
        folded = unicodedata.normalize("NFKC", name).casefold()
        if name and first.setdefault(folded, path) != path:
            what = f"{path_words(first[folded])} has this name already"
            mend = "give each setup a name of its own; upper and lower case count as the same"
            yield (*path, "name"), what, mend


def _together(job: Values, _units: Units) -> Iterator[Broken]:
    """One program has one dialect, and finds each station of the mill by its work offset."""
    if not job.get("together"):
        return
    posts: list[tuple[KeyPath, str]] = []
    offsets: dict[int, KeyPath] = {}
    for path, setup in milled(job):
        if "post" in setup:
            posts.append((path, setup["post"]))
            first, post = posts[0]
            if setup["post"] != post:
                what = f"one program can't be for {quoted(setup['post'])} and {quoted(post)} too"
                mend = f"give it the post of {path_words(first)}, or leave out together"
                yield (*path, "post"), what, mend
        offset = setup.get("work_offset")
        if offset is not None and offsets.setdefault(offset, path) != path:
            what = f"{path_words(offsets[offset])} has the work offset {offset} already"
            mend = "give each station of one program a work offset of its own"
            yield (*path, "work_offset"), what, mend


def _lie(job: Values, _units: Units) -> Iterator[Broken]:
    part = job.get("part", {})
    if part.get("turned", True) or part.get("profile", True):
        return
    for path, setup in items(job, "setup"):
        if setup.get("hold", {}).get("lie"):
            what = "only a turned part can lie along X"
            yield (*path, "hold", "lie"), what, "leave it out; hold.turn turns an outline"


def _depth_in_blank(job: Values, units: Units) -> Iterator[Broken]:
    for path, setup in items(job, "setup"):
        depth, height = at(setup, "hold", "depth"), at(setup, "jaws", "height")
        groove = at(setup, "hold", "groove") or 0.0
        if depth is None or height is None or depth + groove < height:
            continue
        what = f"the pocket would go through the blanks, which are {units.say(height)} high"
        if depth < height:
            what = f"with its groove {what}"
        yield (*path, "hold", "depth"), what, "hold the part less deep, or take higher blanks"


def _holes_in_blank(job: Values, units: Units) -> Iterator[Broken]:
    drills = tools(job)
    for path, setup in items(job, "setup"):
        height = at(setup, "jaws", "height")
        for way, hole in items(setup, "holes"):
            depth = hole.get("depth")
            if depth is None or height is None:
                continue
            point = _point(drills.get(hole.get("tool"), {}))
            if depth + point >= height:
                what = f"the hole would go through the blank, which is {units.say(height)} high"
                if depth < height:
                    what = f"with the drill's point, {units.say(point)}, {what}"
                yield (*path, *way, "depth"), what, "drill less deep, or take higher blanks"


def _point(tool: Values) -> float:
    """How far a drill reaches beyond its full diameter; 0 if that can't be told."""
    if tool.get("kind") != "drill" or "dia" not in tool or tool.get("number") is None:
        return 0.0
    return Cutter(tool["number"], "drill", tool["dia"], angle=tool.get("angle")).point_length


def _fit_size(job: Values, _units: Units) -> Iterator[Broken]:
    for path, setup in items(job, "setup"):
        fit = setup.get("fit", {})
        if "size" in fit and isinstance(fit.get("grip"), float):
            what = "a nominal size counts only with a grip in letters, such as H7/g6"
            yield (*path, "fit", "size"), what, "leave it out, or write grip in letters"


def _corners(job: Values, _units: Units) -> Iterator[Broken]:
    for path, setup in items(job, "setup"):
        corners = setup.get("corners", {})
        relief = corners.get("relief")
        if relief == "drilled":
            if corners.get("tool", 0) is None:
                what = "drilled corners need their drill"
                yield (*path, "corners", "tool"), what, "add tool = ..., the number of a drill"
        elif relief is not None:
            for key in ("tool", "peck"):
                if corners.get(key) is not None:
                    what = f"corners have a {key} only where they are drilled"
                    yield (*path, "corners", key), what, 'leave it out, or write relief = "drilled"'


def _clamp(job: Values, _units: Units) -> Iterator[Broken]:
    for path, setup in items(job, "setup"):
        clamp = setup.get("clamp") or {}
        if "force" not in clamp or "torque" not in clamp:
            continue
        force, torque = clamp["force"], clamp["torque"]
        if force is not None and torque is not None:
            what = "the clamping force is given, and so is the torque that makes it"
            yield (*path, "clamp", "torque"), what, "leave one of the two out"
        elif force is None and torque is None:
            what = "neither the clamping force nor the torque is given"
            mend = 'add force = "12 kN", or torque = "40 N m" and the screw\'s lead'
            yield (*path, "clamp"), what, mend
        elif force is not None:
            for key in ("lead", "efficiency"):
                if key in clamp:
                    what = f"the screw's {key} counts only with a torque"
                    yield (*path, "clamp", key), what, "leave it out, or give torque, not force"


def _steps(job: Values, units: Units) -> Iterator[Broken]:
    cutters = tools(job)
    for path, setup in items(job, "setup"):
        for table, key, size, words in (
            ("rough", "stepover", "dia", "wide"),
            ("rough", "stepdown", "flute_len", "long in its flutes"),
            ("face", "stepover", "dia", "wide"),
        ):
            tool = cutters.get(at(setup, table, "tool"), {})
            step, most = at(setup, table, key), tool.get(size)
            if step is not None and most is not None and step > most:
                what = f"tool {tool['number']} is only {units.say(most)} {words}"
                yield (*path, table, key), what, f"make the {key} smaller"


def _jaw_material(job: Values, _units: Units) -> Iterator[Broken]:
    """A material without data is fine as long as there is nothing to work out from it."""
    cutters = [tool for _, tool in items(job, "tool") if tool.get("kind") in (None, *KINDS)]
    if all("rpm" in tool and "feed" in tool for tool in cutters):
        return
    for path, setup in items(job, "setup"):
        material = setup.get("jaws", {}).get("material")
        if material is not None and materials.find(material) is None:
            what = f"there are no speeds and feeds for {quoted(material)}"
            mend = f"{materials.suggestion(material)}, or give every tool its rpm and feed"
            yield (*path, "jaws", "material"), what, mend


SETUP_RULES: tuple[Rule, ...] = (
    _setup_names_differ,
    _together,
    _lie,
    _depth_in_blank,
    _holes_in_blank,
    _fit_size,
    _corners,
    _clamp,
    _steps,
    _jaw_material,
)
"""What is asked of the setups."""
