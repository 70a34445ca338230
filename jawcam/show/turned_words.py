"""What the picture of a lathe program says in words: lists of (label, text)."""

from __future__ import annotations

from jawcam.hold.turn_target import TurnTarget
from jawcam.proof.report import Figures, Report
from jawcam.show.measure import in_order
from jawcam.show.stretch import WHOLE
from jawcam.show.turned_picture import TurnPicture
from jawcam.show.turned_scene import jaw_front
from jawcam.show.turned_times import turn_times
from jawcam.show.words import clock, file_name, verdict
from jawcam.units import Units

__all__ = ["turned_facts"]

NOTES = 6
"""So many of the setup's notes are told."""


def turned_facts(
    picture: TurnPicture, report: Report | None, rapid_rate: float
) -> list[tuple[str, str]]:
    """All that the words panel says, the most needed first."""
    program, target, units = picture.program, picture.target, picture.units
    count = len(program.lines)
    told = units.value
    if program.units != told:
        told += f"; the program itself is in {program.units}"
    rows = [
        ("setup", target.name),
        ("program", f"{file_name(program.name)}, {count} line{'s' if count != 1 else ''}"),
        *_drawn(picture, count),
        ("proof", verdict(report)),
        ("units", f"{told}; X is a diameter"),
        ("zero", "on the axis, at the finished front face"),
        ("offset", _offsets(picture)),
        ("speed", f"never above {target.clamp:.0f} rpm in this setup"),
        ("stock", _stock(target, units)),
        *_held(target, units),
    ]
    rows += _path(picture, report, rapid_rate)
    if report is not None:
        rows.append(("figures", _figures(report.figures, units)))
    return rows


def _drawn(picture: TurnPicture, count: int) -> list[tuple[str, str]]:
    """The stretch that is drawn, if that isn't all."""
    return [] if picture.stretch == WHOLE else [("drawn", picture.stretch.words(count))]


def _offsets(picture: TurnPicture) -> str:
    own = ", ".join(str(n) for n in in_order(picture.program.cuts, "work_offset"))
    if not picture.elsewhere:
        return f"work offset {own}"
    others = ", ".join(str(n) for n in picture.elsewhere)
    return f"work offset {own}; moves at offset {others} are not drawn"


def _stock(target: TurnTarget, units: Units) -> str:
    """Its diameter and length; how far it stands in front of the finished face."""
    zs, xs = ([row[k] for row in target.stock] for k in (0, 1))
    said = [f"dia {units.say(2 * max(xs))}", f"{units.say(max(zs) - min(zs))} long"]
    if min(xs) > 1e-6:
        said.insert(1, f"bore {units.say(2 * min(xs))}")
    if max(zs) > 1e-6:
        said.append(f"{units.say(max(zs))} in front of the finished face")
    return ", ".join(said)


def _held(target: TurnTarget, units: Units) -> list[tuple[str, str]]:
    """How the chuck holds the work, as the setup notes it, else as far as the jaws tell it."""
    if target.notes:
        labels = ("chuck", *("" for _ in target.notes))
        rows = [(label, note) for label, note in zip(labels, target.notes, strict=False)]
        more = len(rows) - NOTES
        return [*rows[:NOTES], ("", f"and {more} more notes")] if more > 0 else rows
    front = jaw_front(target)
    if front is None:
        return [("chuck", "nothing told of it")]
    out = max(z for z, _, _ in target.stock) - front
    at, out_words = units.number(front, 3), units.say(out)
    return [("chuck", f"its jaws end at Z {at}; the work stands {out_words} out of them")]


def _path(picture: TurnPicture, report: Report | None, rapid_rate: float) -> list[tuple[str, str]]:
    done, units = turn_times(picture, rapid_rate), picture.units
    spent, rapid_spent = done.minutes, done.rapid_minutes
    cutting, rapid = done.cutting, done.rapid
    if report is not None:
        # the proof knows where a tool change leaves the tool unplaced
        figures = report.figures
        spent, rapid_spent = figures.feed_minutes, figures.rapid_minutes
        cutting, rapid = figures.feed_length, figures.rapid_length
    mark = "in" if units is Units.INCH else "mm"
    rate = f"(at {units.from_mm(rapid_rate):.0f} {mark}/min)"
    rows = [
        ("path", f"{_long(cutting, units)} at feed, {_long(rapid, units)} rapid"),
        ("time", f"{clock(spent)} at feed, {clock(rapid_spent)} rapid {rate}"),
    ]
    if report is None and done.untold:
        moves = "1 feed move tells" if done.untold == 1 else f"{done.untold} feed moves tell"
        rows.append(("", f"{moves} no feed or speed; their time is left out"))
    if picture.stray:
        rows.append(("", "some moves lead out of the picture"))
    return rows


def _long(length: float, units: Units) -> str:
    if units is Units.INCH:
        return f"{units.number(length, 1)} in"
    return f"{length / 1000:.2f} m" if length >= 1000 else f"{length:.0f} mm"


def _figures(figures: Figures, units: Units) -> str:
    volume = figures.volume / units.in_mm**3
    removed = f"{volume:.2f} in3" if units is Units.INCH else f"{volume / 1000:.1f} cm3"
    gouge, left = units.say(figures.gouge), units.say(figures.left_over)
    return f"gouge {gouge}, left over {left}; {removed} removed"
