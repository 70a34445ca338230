"""Every fault has a code that stays, and every code is given by some program."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest
from reader_help import ISO, NIST

import jawcam.reader
from jawcam.reader.control import Subprograms
from jawcam.reader.controls import CONTROLS
from jawcam.reader.faults import CODES
from jawcam.reader.read import read_as

ROOM = Path(jawcam.reader.__file__).parent
LATHE = "iso6983-lathe"
CALLING = "iso6983-mill-subprograms"
SHALLOW = replace(CONTROLS[CALLING], subprograms=Subprograms("P", 9999, 1, most=8))
NO_RADIUS = replace(CONTROLS[NIST], radius_arcs=False)

CASES = {
    "R101": "G0 X1 ?",
    "R102": "(crank",
    "R103": "G0 X",
    "R104": "N123456 G0 X1",
    "R105": (ISO, "G0 X10"),
    "R106": "G0 X99999999999",
    "R107": "G0 X1" + " " * 300,
    "R108": "G0 X[1",
    "R109": "G0 X[1/0]",
    "R110": "G0 X#7",
    "R111": (ISO, "G0 X#7"),
    "R112": (ISO, "G0 X1 0."),
    "R113": ("eia274d-mill", "G0 X12345678"),
    "R114": (replace(CONTROLS[NIST], numbered=True), "N1 G0 X1"),
    "R115": (replace(CONTROLS[NIST], block_end="$"), "G0 X1$"),
    "R201": "G0",
    "R202": "X1",
    "R203": "G2 X10 F1",
    "R204": "G2 X10 I4 F1",
    "R205": "G2 X0 R5 F1",
    "R206": "G2 X10 R4 F1",
    "R207": "G2 X10 I5 R5 F1",
    "R208": (NO_RADIUS, "G2 X10 R5 F1"),
    "R209": "G93 G1 X1",
    "R210": "G53 X1",
    "R301": "G0 X1 X2",
    "R302": "G0 G1 X1",
    "R303": "G5",
    "R304": "G0 G92 X1",
    "R305": "M3 M6 M8 M48 M0",
    "R306": "G0 X1 P1",
    "R307": "T1.5",
    "R308": "T-1",
    "R309": "G4",
    "R401": "G41 D1\nG42 D1",
    "R402": "G19 G41 D1",
    "R403": "G41 D1\nG54",
    "R404": "G43 H9",
    "R501": "G84 X1 R1 Z0",
    "R502": "G81 X1 R1",
    "R503": "G81 X1 R1 Z2",
    "R504": "G83 X1 R1 Z-99 Q.001",
    "R505": "G93 G81 X1 R1 Z0",
    "R506": "G86 X1 R1 Z0 P1",
    "R211": (LATHE, "M3 G33 Z-9."),
    "R212": (LATHE, "G33 Z-9. K1."),
    "R213": (replace(CONTROLS[NIST], centre="unsigned"), "G2 X5 I5 F1"),
    "R601": (NIST, ""),
    "R602": "G0 X1\n%",
    "R603": "%\nG0 X1",
    "R604": "M98 P1",
    "R605": (ISO, "G0 X1.\nO5"),
    "R606": "G0 A1",
    "R607": "G38.2 X1 F1",
    "R608": (CALLING, "M98 P7"),
    "R609": (CALLING, "M98 P7\nM30\nO7\nM98 P7\nM99"),
    "R610": (CALLING, "M99"),
    "R611": (CALLING, "M30\nO7\nG0 X1."),
    "R612": (CALLING, "M30\nO7\nM99\nO7\nM99"),
    "R613": (CALLING, "M30\nG0 X1."),
    "R614": (SHALLOW, "M98 P7\nM30\nO7\nM98 P8\nM99\nO8\nM99"),
    "R615": (SHALLOW, "M98 P7\nM98 P7\nM98 P7\nM30\nO7\nG4 P1.\nM99"),
}


@pytest.mark.parametrize("code", CODES)
def test_every_code_is_given_by_a_program(code):
    case = CASES[code]
    control, text = case if isinstance(case, tuple) else (NIST, case)
    row = CONTROLS[control] if isinstance(control, str) else control
    text = text if code == "R601" or "M30" in text else f"{text}\nM2"
    program = read_as(text, row, start=(0, 0, 0), lengths={})
    assert [fault.code for fault in program.faults] == [code]
    assert program.faults[0].mend


def test_every_code_in_the_room_is_in_the_table_and_the_other_way_round():
    used = {
        code
        for path in sorted(ROOM.glob("*.py"))
        if path.name != "faults.py"
        for code in re.findall(r'"(R\d{3})"', path.read_text())
    }
    assert used == set(CODES)


def test_the_reader_shares_no_code_with_what_writes():
    """It may import the errors, the units, what hears of progress and itself."""
    imported = re.compile(r"^\s*(?:from|import) (jawcam[\w.]*)", re.MULTILINE)
    allowed = {"errors", "units", "progress", "reader"}
    for path in sorted(ROOM.glob("*.py")):
        for module in imported.findall(path.read_text()):
            assert module.split(".")[1] in allowed, (path.name, module)
