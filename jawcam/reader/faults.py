"""What a control would refuse, on its way from where it is found to the program's list."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

__all__ = ["CODES", "BlockError"]

CODES: Mapping[str, str] = MappingProxyType(
    {
        "R101": "a character or letter that can't be read here",
        "R102": "a comment that isn't closed, or that holds another",
        "R103": "no number, or a malformed one",
        "R104": "a line number in the wrong place or with too many digits",
        "R105": "a length without its decimal point",
        "R106": "a number too large to be meant",
        "R107": "a line that is too long",
        "R108": "an expression that is not written as one",
        "R109": "an expression that has no value",
        "R110": "a parameter that doesn't exist or has no value yet",
        "R111": "an expression or parameter where the control reads none",
        "R112": "a blank inside a number",
        "R113": "a number that isn't in its letter's format",
        "R114": "a block without its line number",
        "R115": "a block without the mark that ends it",
        "R201": "a motion word without axis words",
        "R202": "axis words with no motion in force",
        "R203": "an arc without its end point or without its centre",
        "R204": "an arc whose two radii differ",
        "R205": "an arc without a radius",
        "R206": "an arc whose radius can't reach its end",
        "R207": "an arc with both a radius and a centre",
        "R208": "an arc by its radius where the control reads none",
        "R209": "an inverse time move without its F",
        "R210": "G53 without G0 or G1",
        "R211": "a pass of a thread without its lead",
        "R212": "a pass of a thread with the spindle stopped",
        "R213": "an arc that doesn't stay within a quadrant",
        "R301": "a letter twice in a block",
        "R302": "two words of one modal group in a block",
        "R303": "a G or M word that the control doesn't know",
        "R304": "two words in a block that both use the axis words",
        "R305": "too many M words in a block",
        "R306": "a word that nothing in its block uses",
        "R307": "a number that must be whole and isn't",
        "R308": "a number that is out of its range",
        "R309": "a word that is missing",
        "R401": "cutter compensation turned on twice",
        "R402": "cutter compensation outside its plane",
        "R403": "a word that is forbidden under cutter compensation",
        "R404": "a length offset that isn't in the table",
        "R501": "a canned cycle that isn't read",
        "R502": "a canned cycle without one of its words",
        "R503": "a canned cycle whose R lies below its depth",
        "R504": "a canned cycle with a wrong count of repeats or pecks",
        "R505": "a canned cycle under inverse time",
        "R506": "a canned cycle that needs a turning spindle",
        "R601": "no end of program",
        "R602": "a percent sign in the wrong place",
        "R603": "a missing second percent sign",
        "R604": "a subprogram or macro where the control reads none",
        "R605": "a program number that isn't at the head",
        "R606": "a rotary axis",
        "R607": "a probing move",
        "R608": "a call of a subprogram that isn't there",
        "R609": "a subprogram that is called from within itself",
        "R610": "a return in the main program",
        "R611": "a subprogram without its return",
        "R612": "two subprograms of one number",
        "R613": "a block after an end that belongs to no subprogram",
        "R614": "subprograms called too deep",
        "R615": "too many lines of subprograms to be run",
    }
)
"""Every code of a fault that `read` gives, and what it is about. A code never changes meaning."""


class BlockError(Exception):
    """One fault of a block: its code, what is wrong, how to mend it and what it is about: a
    column from 1, or letters or modal groups of which the first in the block is meant."""

    def __init__(
        self, code: str, what: str, mend: str, at: int | str | tuple[str, ...] = ()
    ) -> None:
        super().__init__(what)
        self.code = code
        self.what = what
        self.mend = mend
        self.at = (at,) if isinstance(at, str) else at
