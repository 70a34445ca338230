"""What a program that is to be judged says itself of what must be found in it: ``(expect
CODE:LINE)`` of each finding, ``(expect CODE)`` of one about no line, ``(expect CODE:LINE AMOUNT)``
of one that says how much; or ``(expect nothing)``."""

import re


def expected(text):
    """The findings as sorted pairs (code, line), the line 0 of one about no line."""
    said = re.findall(r"\(expect ([A-Z]\d+)(?::(\d+))?(?: -?[\d.]+)?\)", text)
    assert said or "(expect nothing)" in text
    return sorted((code, int(line or 0)) for code, line in said)


def amounts(text):
    """Those of the findings that say how much."""
    said = re.findall(r"\(expect ([A-Z]\d+):(\d+) (-?[\d.]+)\)", text)
    return {(code, int(line)): float(much) for code, line, much in said}
