"""What the picture says in words: lists of (label, text), nothing drawn."""

from __future__ import annotations

from pathlib import PurePath

from jawcam.cautions import ON_MILL
from jawcam.hold.target import Target
from jawcam.proof.report import Figures, Report
from jawcam.show.measure import in_order
from jawcam.show.picture import Picture
from jawcam.show.pocket_words import pocket
from jawcam.show.stretch import WHOLE
from jawcam.tools.cutter import Cutter
from jawcam.units import Units

__all__ = ["caution", "clock", "datum_words", "facts", "file_name", "verdict"]

TOOLS = 5
"""So many tools are named, the others counted."""


def facts(shown: Picture, report: Report | None, rapid_rate: float) -> list[tuple[str, str]]:
    """All that the words panel says, the most needed first."""
    program, target = shown.program, shown.target
    count = len(program.lines)
    rows = [("program", f"{file_name(program.name)}, {count} line{'s' if count != 1 else ''}")]
    if shown.stretch != WHOLE:
        rows.append(("drawn", shown.stretch.words(count)))
    if target:
        rows.insert(0, ("setup", target.name))
    rows.append(("proof", verdict(report)))
    told = shown.units.value
    if program.units != told:
        told += f"; the program itself is in {program.units}"
    rows.append(("units", told))
    if target:
        rows.append(("zero", datum_words(target, shown.units)))
    rows.append(("offset", _offsets(shown)))
    rows += _tools(shown)
    rows += _path(shown, report, rapid_rate)
    if target:
        rows += pocket(target, shown.units)
    if report:
        rows += _figures(report.figures, shown.units)
    return rows


def caution(
    report: Report | None, lines: tuple[str, ...] = ON_MILL, away: str = "above the part"
) -> tuple[str, tuple[str, ...]]:
    """The last word, by what the proof said, and the cautions that go with it. lines: all of
    these; away: where a dry run is made."""
    care = f"Dry run {away}, single block, guards closed."
    if report is None:
        return f"Not proven. {care}", lines[1:]
    if not report.ok:
        return "The proof found faults. Do not run this program.", ()
    return f"Proven on paper only. {care}", lines


def verdict(report: Report | None) -> str:
    """The proof's outcome, in a few words."""
    if report is None:
        return "none made"
    names = (("stop", "stop"), ("warn", "warning"), ("note", "note"))
    counts = [
        (sum(finding.grade == grade for finding in report.findings), word) for grade, word in names
    ]
    said = [f"{n} {word}{'s' if n != 1 else ''}" for n, word in counts if n]
    passed = "failed" if counts[0][0] else "passed"
    return f"{passed}, {', '.join(said)}" if said else f"{passed}, no findings"


def datum_words(target: Target, units: Units) -> str:
    """Where the program's origin lies on the blanks, such as ``middle of width, mid gap, jaw
    top``; a distance goes with the nearest of the named places if it lies on none.
    """
    b, (x, y, z) = target.blanks, target.zero
    far, near = b.gap / 2 + b.thickness, b.gap / 2
    along = ((-b.width / 2, "left end"), (0.0, "middle of width"), (b.width / 2, "right end"))
    closing = (
        (-far, "front of front blank"),
        (-near, "face of front blank"),
        (0.0, "mid gap"),
        (near, "face of back blank"),
        (far, "back of back blank"),
    )
    upward = ((0.0, "jaw top"), (-b.height, "jaw bottom"))
    return ", ".join(
        (
            _near(x, along, ("left of", "right of"), units),
            _near(y, closing, ("before", "behind"), units),
            _near(z, upward, ("under", "over"), units),
        )
    )


def clock(minutes: float) -> str:
    """A time, such as ``1 h 02 min``, ``3 min 20 s`` or ``12 s``."""
    seconds = round(minutes * 60)
    if seconds >= 3600:
        return f"{seconds // 3600} h {seconds % 3600 // 60:02d} min"
    if seconds >= 60:
        return f"{seconds // 60} min {seconds % 60:02d} s"
    return f"{seconds} s"


def file_name(name: str) -> str:
    """The last part of a path; the folders are nobody else's business."""
    return PurePath(name.replace("\\", "/")).name or "(no name)"


def _near(
    at: float, places: tuple[tuple[float, str], ...], ways: tuple[str, str], units: Units
) -> str:
    spot, name = min(places, key=lambda place: abs(place[0] - at))
    if abs(at - spot) < 5e-4:
        return name
    return f"{units.say(abs(at - spot))} {ways[at > spot]} {name}"


def _offsets(shown: Picture) -> str:
    own = ", ".join(str(n) for n in in_order(shown.program.cuts, "work_offset"))
    if not shown.elsewhere:
        return f"work offset {own}"
    others = ", ".join(str(n) for n in shown.elsewhere)
    stations = "another station" if len(shown.elsewhere) == 1 else "other stations"
    return f"work offset {own}; the program also serves {stations}, not drawn: offset {others}"


def _tools(shown: Picture) -> list[tuple[str, str]]:
    numbers = in_order(shown.program.cuts, "tool")
    rows = [("tool", _tool(n, shown.cutters.get(n), shown.units)) for n in numbers[:TOOLS]]
    more = len(numbers) - len(rows)
    return [*rows, ("", f"and {more} more tools")] if more else rows


def _tool(number: int, cutter: Cutter | None, units: Units) -> str:
    if cutter is None:
        return f"T{number}" if number else "none called"
    said = f"T{number} {cutter.kind}, dia {units.say(cutter.dia)}"
    if cutter.corner_radius:
        said += f", corner radius {units.say(cutter.corner_radius)}"
    return f"{said}, flute length {units.say(cutter.flute_len)}" if cutter.flute_len else said


def _path(shown: Picture, report: Report | None, rapid_rate: float) -> list[tuple[str, str]]:
    done, units = shown.measures, shown.units
    rows = []
    if done.lowest is not None and done.deepest is not None:
        line = shown.program.cuts[done.deepest].line
        rows.append(("deepest", f"{units.point(*done.lowest)}, line {line}"))
    # the proof knows where a tool change leaves the tool unplaced
    rapid, minutes = done.rapid, done.rapid_minutes
    if report is not None and shown.stretch == WHOLE:
        rapid, minutes = report.figures.rapid_length, report.figures.rapid_minutes
    path = f"{_long(done.cutting, units)} at feed, {_long(rapid, units)} rapid"
    rows.append(("path", path))
    time = f"{clock(done.minutes)} at feed, {clock(minutes)} rapid"
    rows.append(("time", f"{time} (at {units.from_mm(rapid_rate):.0f} {_short(units)}/min)"))
    if done.unfed:
        moves = "1 feed move has" if done.unfed == 1 else f"{done.unfed} feed moves have"
        rows.append(("", f"{moves} no feed; their time is left out"))
    if shown.stray:
        rows.append(("", "some rapid moves lead out of the picture"))
    if not shown.zero_near:
        rows.append(("", "program zero lies outside the picture"))
    return rows


def _short(units: Units) -> str:
    return "in" if units is Units.INCH else "mm"


def _long(length: float, units: Units) -> str:
    """A path length: metres or inches are plenty."""
    if units is Units.INCH:
        return f"{units.number(length, 1)} in"
    return f"{length / 1000:.2f} m" if length >= 1000 else f"{length:.0f} mm"


def _figures(figures: Figures, units: Units) -> list[tuple[str, str]]:
    """What the proof measured, so far as there was something to measure."""
    gouge, left = units.say(figures.gouge), units.say(figures.left_over)
    said = [f"gouge {gouge}, left over {left}"]
    if figures.floor_error is not None:
        off = figures.floor_error
        height = "high" if off > 0 else "low"
        said.append(
            "seat at its height" if abs(off) < 5e-4 else f"seat {units.say(abs(off))} too {height}"
        )
    if figures.bolt_clearance is not None:
        said.append(f"bolts {units.say(figures.bolt_clearance)} away")
    thin = (("wall", figures.wall_left), ("floor", figures.floor_left))
    said += [f"{name} left {units.say(value)}" for name, value in thin if value is not None]
    volume = figures.volume / units.in_mm**3
    removed = f"{volume:.2f} in3" if units is Units.INCH else f"{volume / 1000:.1f} cm3"
    return [("figures", "; ".join((*said, f"{removed} removed")))]
