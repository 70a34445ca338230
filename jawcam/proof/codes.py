"""The codes of the findings. A code never changes its meaning."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

__all__ = ["CODES"]

CODES: Mapping[str, str] = MappingProxyType(
    {
        "P101": "a feed move while the spindle stands still",
        "P102": "a feed move without a feed rate",
        "P103": "the cutter goes below the jaw top before a tool is called",
        "P104": "a tool that the job doesn't have",
        "P105": "the spindle turns against the cutter's edges",
        "P106": "the program doesn't end",
        "P107": "the spindle is left turning",
        "P108": "no length offset",
        "P109": "the length offset of another tool",
        "P110": "a work offset that isn't this setup's",
        "P111": "cutter compensation",
        "P112": "a start at a height that the program doesn't tell",
        "P113": "a cut from a place that the program doesn't tell",
        "P114": "an approach that ends too low",
        "P115": "the tool is left low at the end",
        "P116": "a move in machine coordinates while the tool is low",
        "P117": "a change of work offset while the tool is low",
        "P201": "a gouge",
        "P202": "a kind of cutter that isn't proven",
        "P203": "an upright arc, which isn't proven",
        "P301": "material left in the cavity",
        "P302": "material left where the job said that no cutter reaches",
        "P401": "a cut below the seat or its groove",
        "P402": "the seat is never reached",
        "P403": "a floor is left too high",
        "P404": "a cut below the floor of a level",
        "P501": "a rapid through material",
        "P502": "a rapid that is clear only if its axes move in step",
        "P601": "a plunge with a cutter that doesn't cut at its centre",
        "P602": "a steep descent with a cutter that doesn't cut at its centre",
        "P701": "a cut through the bottom of the blank",
        "P702": "a thin floor",
        "P703": "a cut through an end or the back of a blank",
        "P704": "a thin wall",
        "P705": "a bolt in the way",
        "P706": "a bolt close by",
        "P801": "flutes that are shorter than the cut is deep",
        "P802": "a tool that stands out too little",
        "P901": "a hole that isn't drilled",
        "P902": "a hole out of its place",
        "P903": "a hole that is too shallow",
        "P904": "a hole that is too deep",
        "P905": "the wrong drill",
        "P906": "a drill below the jaw top where it has nothing to drill",
        "P907": "a spot that is too wide",
        "P911": "an edge that isn't broken",
        "P912": "an edge that is broken too wide",
        "P913": "the edge's tool in what must stay below the edge",
        "P914": "an edge that is above the cone of its tool",
        "P915": "an edge that stays because its tool can't get in",
    }
)
"""Every code of a finding of the proof's own, and what it is about."""
