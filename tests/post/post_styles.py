"""How kinds of controls are written, for the small reader of the tests here: worked out anew and
by other means than `jawcam.reader` does."""

from __future__ import annotations

from dataclasses import dataclass, field

from jawcam.post.dialect import load


@dataclass(frozen=True)
class Style:
    """formats: letter -> digits left and right of the point that isn't written, in mm and in inch,
    and which zeros are dropped; end: the mark behind each block; numbered: each block has N;
    quadrants: I and J have no sign; second: P in a second; digits: of N at most; tape: T is tool
    and offset, all is capitals and 80 columns."""

    formats: dict = field(default_factory=dict)
    end: str = ""
    numbered: bool = False
    quadrants: bool = False
    second: float = 1.0
    tape: bool = False

    def value(self, letter, text, *, inch):
        """The number of a word in the program's units."""
        if letter not in self.formats:
            return float(text)
        in_mm, in_inch, dropped = self.formats[letter]
        left, right = in_inch if inch else in_mm
        sign, digits = ("-", text[1:]) if text[0] == "-" else ("", text.lstrip("+"))
        assert digits.isdigit(), f"{letter}{text}: no point is read"
        assert len(digits) <= left + right, f"{letter}{text}: too many digits"
        if dropped == "leading":
            assert digits == "0" or digits[0] != "0", f"{letter}{text}: leading zeros"
            digits = "0" * (left + right - len(digits)) + digits
        elif dropped == "trailing":
            assert digits == "0" or digits[-1] != "0", f"{letter}{text}: trailing zeros"
            digits += "0" * (left + right - len(digits))
        assert len(digits) == left + right, f"{letter}{text}: all zeros are kept"
        return float(f"{sign}{digits[:left]}.{digits[left:]}")


PLAIN = Style()
STYLES = {
    "eia274d-mill": Style(
        {
            **dict.fromkeys("XYZIJQR", ((4, 3), (3, 4), "leading")),
            "F": ((5, 0), (4, 1), "leading"),
        },
        second=1000.0,
    ),
    "eia274d-tape": Style(
        {
            **dict.fromkeys("XYZIJ", ((4, 3), (3, 4), "trailing")),
            "F": ((5, 0), (4, 1), "trailing"),
            "S": ((5, 0), (5, 0), "none"),
        },
        end="$",
        numbered=True,
        quadrants=True,
        second=1000.0,
        tape=True,
    ),
}


def style_of(name):
    """That of the control which a post writes for."""
    return STYLES.get(load(name).control, PLAIN)
