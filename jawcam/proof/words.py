"""A report as text for the person at the machine, and as plain values for a file."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import asdict

from jawcam.proof.figure_words import figures_said, granted_said
from jawcam.proof.report import Finding, Report
from jawcam.units import Units

__all__ = ["granted_once", "say", "sentence", "tally", "to_dict"]

_POWERS = {"area": 2, "volume": 3, "rate": 3, "air": 0}
"""Of a length; minutes and shares are none."""


def say(report: Report, units: Units, name: str, *, granted: Sequence[str] | None = None) -> str:
    """A report -> lines of text: the findings, the figures, what is taken for granted, the outcome.
    units: those of its places; name: the program's; granted: lines in place of its own."""
    lines = [line for finding in report.findings for line in _lines(finding, units, name)]
    lines += [f"{name}: {said}" for said in figures_said(report.figures, units)]
    if granted is None:
        (granted,) = granted_once([(name, report)])
    return "\n".join([*lines, *granted, f"{name}: {tally(report)}"])


def granted_once(reports: Sequence[tuple[str, Report]]) -> list[list[str]]:
    """The names of programs and their reports -> for each what is taken for granted and what isn't
    judged, a line that holds for several told once, with the first, under all their names."""
    names: dict[str, list[str]] = {}
    for name, report in reports:
        for said in granted_said(report.figures):
            names.setdefault(said, []).append(name)
    lines = []
    for _, report in reports:
        own = [said for said in granted_said(report.figures) if said in names]
        lines.append([f"{', '.join(dict.fromkeys(names.pop(said)))}: {said}" for said in own])
    return lines


def sentence(finding: Finding, units: Units) -> str:
    """A finding on paper: its code, line and column, place, what it is and how it is mended."""
    line = f"line {finding.line}" if finding.line else ""
    column = f"column {finding.column}" if finding.line and finding.column else ""
    parts = (finding.code, line, column, _place(finding, units))
    where = ", ".join(part for part in parts if part)
    mend = f"; to mend: {finding.mend}" if finding.mend else ""
    return f"{where}: {finding.what}{_called(finding)}{mend}"


def tally(report: Report) -> str:
    """The outcome in a few words, such as ``not proven: 2 stops, 1 warning``."""
    names = (("stop", "stop"), ("warn", "warning"), ("note", "note"))
    counts = [(sum(f.grade == grade for f in report.findings), word) for grade, word in names]
    said = ", ".join(f"{n} {word}{'s' if n > 1 else ''}" for n, word in counts if n)
    outcome = "proven" if report.ok else "not proven"
    return f"{outcome}: {said}" if said else outcome


def to_dict(report: Report, units: Units) -> dict[str, object]:
    """A report -> values that JSON can hold; lengths in `units`, areas and volumes in their
    powers, times in minutes."""
    findings = [
        {
            "code": f.code,
            "grade": f.grade,
            "what": f.what,
            "line": f.line or None,
            "column": f.column or None,
            "calls": list(f.calls),
            "x": _rounded(f.x, units),
            "y": _rounded(f.y, units),
            "z": _rounded(f.z, units),
            "amount": _rounded(f.amount, units),
            "mend": f.mend,
        }
        for f in report.findings
    ]
    levels = [
        {"z": _rounded(z, units), "area": _rounded(area, units, 2)}
        for z, area in report.figures.levels
    ]
    measured = report.figures
    tools = [
        {"tool": one.tool, "minutes": _rounded(one.minutes, units, 0), **_sizes(asdict(one), units)}
        for one in measured.tools
    ]
    figures = {
        "levels": levels,
        "tools": tools,
        "needs": [{"tool": one.tool, **_sizes(asdict(one), units)} for one in measured.needs],
        "minutes": _rounded(measured.minutes, units, 0),
        **_sizes(asdict(measured), units),
        "assumed": list(measured.assumed),
        "untold": list(measured.untold),
        "unjudged": list(measured.unjudged),
    }
    return {"ok": report.ok, "units": units.value, "findings": findings, "figures": figures}


def _sizes(values: Mapping[str, object], units: Units) -> dict[str, object]:
    """The sizes among some figures, rounded, and the places of peaks."""
    sizes: dict[str, object] = {}
    for key, value in values.items():
        power = _POWERS.get(key, 0 if key.endswith("minutes") else 1)
        if isinstance(value, dict):
            place = {axis: _rounded(value[axis], units) for axis in "xyz"}
            most = _rounded(value["most"], units, power)
            sizes[key] = {"most": most, "line": value["line"], **place}
        elif value is None or isinstance(value, float):
            sizes[key] = _rounded(value, units, power)
    return sizes


def _rounded(value: float | None, units: Units, power: int = 1) -> float | None:
    """To 4 decimals of a millimetre, of its powers and of a minute; 6 of an inch."""
    if value is None or not math.isfinite(value):
        return None
    digits = 6 if units is Units.INCH else 4
    return round(value / units.in_mm**power, digits) + 0.0


def _lines(finding: Finding, units: Units, name: str) -> list[str]:
    where = ":".join([name, *(str(n) for n in (finding.line, finding.column) if n)])
    place = _place(finding, units)
    at = f", at {place}" if place else ""
    said = f"{finding.what}{at}{_called(finding)}"
    lines = [f"{where}: {finding.grade} {finding.code}: {said}"]
    if finding.source.strip():
        text = finding.source.replace("\t", " ")
        lines.append(f"    {text}")
        lines.append(" " * (3 + max(finding.column, 1)) + "^")
    if finding.mend:
        lines.append(f"    to mend: {finding.mend}")
    return lines


def _called(finding: Finding) -> str:
    """By which lines the one was called, if it stands in a subprogram."""
    called = ", ".join(f"called in line {line}" for line in reversed(finding.calls))
    return f", in a subprogram {called}" if called else ""


def _place(finding: Finding, units: Units) -> str:
    digits = 4 if units is Units.INCH else 3
    pairs = zip("XYZ", (finding.x, finding.y, finding.z), strict=True)
    said = [f"{axis} {units.number(v, digits)}" for axis, v in pairs if v is not None]
    return " ".join(said)
