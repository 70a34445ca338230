"""The keys of the tables within a setup: the blanks, how the part lies, and each kind of cut."""

from __future__ import annotations

from jawcam.job.key import ANYWHERE, FEED, NOT_NEGATIVE, SIZE, TOOL_NUMBER, Key, Limits

__all__ = [
    "BOLT",
    "CLAMP",
    "CORNERS",
    "EDGES",
    "FACE",
    "FINISH",
    "FIT",
    "HOLD",
    "HOLE",
    "JAWS",
    "KEEP",
    "NEXT_CUT",
    "ROUGH",
    "ZERO",
]

_SMALL = Limits(least=0, most=50)  # mm

JAWS = (
    Key("width", "length", "along the jaws", "130", required=True, limits=SIZE),
    Key("height", "length", "from the jaw top down", "38", required=True, limits=SIZE),
    Key("thickness", "length", "each blank, from face to back", "40", required=True, limits=SIZE),
    Key("gap", "length", "between the blanks", "6", required=True, limits=NOT_NEGATIVE),
    Key("moving", "choice", "which jaw moves", '"both"', choices=("both", "front", "back")),
    Key("material", "text", "what the blanks are made of", '"aluminium 6061"'),
)

HOLD = (
    Key(
        "depth",
        "length",
        "how deep the part sits below the jaw top",
        "8",
        required=True,
        limits=SIZE,
    ),
    Key("turn", "angle", "the angle it is turned by", "90", limits=Limits(least=-360, most=360)),
    Key("flip", "flag", "whether it lies upside down, flipped about Y", "true"),
    Key("lie", "flag", "whether a turned part lies along X", "true"),
    Key("at", "lengths", "where its anchor lies", "[0, 0]", count=2, limits=ANYWHERE),
    Key(
        "anchor",
        "choice",
        "the point of the drawing that lands on `at`",
        '"centre"',
        choices=("origin", "centre"),
    ),
    Key(
        "groove",
        "length",
        "how deep a groove to cut along the foot of the wall",
        "0.2",
        limits=_SMALL,
    ),
)

FIT = (
    Key("grip", "fit", "clearance all round", "0.03", default=0.0, limits=_SMALL),
    Key("side", "length", "play along X", "0.1", limits=_SMALL),
    Key("size", "length", "the nominal size that the letters count on", "20", limits=SIZE),
    Key(
        "step",
        "length",
        "how far the wall may stand off a taper",
        "0.1",
        limits=Limits(over=0, most=50),
    ),
)

KEEP = (
    Key("floor", "length", "the least left under the pocket", "2", limits=NOT_NEGATIVE),
    Key("wall", "length", "the least left beside and behind the pocket", "1", limits=NOT_NEGATIVE),
    Key("bolt", "length", "how far the cutter stays off a bolt", "1", limits=NOT_NEGATIVE),
)

CORNERS = (
    Key(
        "relief",
        "choice",
        "how to relieve corners that the part would not seat in",
        '"bisector"',
        default="bisector",
        choices=("bisector", "along wall", "drilled", "none"),
    ),
    Key(
        "tool",
        "whole",
        "the number of the drill for drilled reliefs",
        "8",
        default=None,
        limits=TOOL_NUMBER,
    ),
    Key("peck", "length", "the depth of each peck of that drill", "2", limits=SIZE),
)

FACE = (
    Key("take", "length", "how much to face off the jaw tops", "0.5", required=True, limits=SIZE),
    Key("tool", "whole", "the number of the end mill", "3", limits=TOOL_NUMBER),
    Key("stepover", "length", "the width of a cut", "6", limits=SIZE),
    Key("feed", "feed", "the feed per minute", "900", limits=FEED),
)

EDGES = (
    Key(
        "width",
        "length",
        "the width of the chamfer on the pocket's top edges",
        "0.3",
        required=True,
        limits=Limits(over=0, most=50),
    ),
    Key(
        "tool",
        "whole",
        "the number of the chamfer mill",
        "7",
        default=None,
        limits=TOOL_NUMBER,
    ),
    Key("feed", "feed", "the feed per minute", "400", limits=FEED),
)

HOLE = (
    Key("at", "lengths", "its centre", "[40, 20]", required=True, count=2, limits=ANYWHERE),
    Key(
        "depth",
        "length",
        "how deep its full diameter goes below the jaw top",
        "12",
        required=True,
        limits=SIZE,
    ),
    Key("tool", "whole", "the number of the drill", "8", required=True, limits=TOOL_NUMBER),
    Key("spot", "whole", "the number of the spot drill before it", "9", limits=TOOL_NUMBER),
    Key("peck", "length", "the depth of each peck", "3", limits=SIZE),
)

BOLT = (
    Key("at", "lengths", "its centre", "[50, 23]", required=True, count=2, limits=ANYWHERE),
    Key("dia", "length", "its head's diameter", "14", required=True, limits=SIZE),
    Key(
        "top",
        "length",
        "the Z of its top, counted down from the jaw top",
        "-20",
        required=True,
        limits=Limits(least=-10000, most=0),
    ),
)

CLAMP = (
    Key(
        "force",
        "force",
        "the force between the jaws",
        '"12 kN"',
        default=None,
        limits=Limits(over=0, most=1e6),
    ),
    Key(
        "torque",
        "torque",
        "the torque on the vise's screw",
        '"40 N m"',
        default=None,
        limits=Limits(over=0, most=1e4),
    ),
    Key("lead", "length", "the lead of the vise's screw", "5", limits=Limits(over=0, most=100)),
    Key(
        "efficiency",
        "number",
        "how much of the torque becomes force, 1 for all of it",
        "0.35",
        limits=Limits(over=0, most=1),
    ),
    Key(
        "surface",
        "choice",
        "the surface of the part where it is gripped",
        '"machined"',
        choices=("ground", "machined", "raw"),
    ),
    Key(
        "safety",
        "number",
        "how many times the cutting force the grip must bear",
        "2.5",
        limits=Limits(least=1, most=100),
    ),
)

NEXT_CUT = (
    Key(
        "down",
        "length",
        "how far below the part's top the next cut goes",
        "3",
        required=True,
        limits=SIZE,
    ),
    Key("clear", "length", "how far it stays above the jaw top", "1", limits=NOT_NEGATIVE),
    Key("stepdown", "length", "the depth of that cut", "2", limits=SIZE),
    Key("chip", "length", "the thickest chip", "0.08", limits=Limits(over=0, most=10)),
    Key("teeth", "whole", "how many teeth cut at once", "1", limits=Limits(least=1, most=24)),
)

ROUGH = (
    Key("tool", "whole", "the number of the tool", "3", limits=TOOL_NUMBER),
    Key("stepdown", "length", "the depth of a cut", "3", limits=SIZE),
    Key("stepover", "length", "the width of a cut", "3.2", limits=SIZE),
    Key("leave", "length", "stock to leave on walls", "0.2", limits=Limits(least=0, most=10)),
    Key(
        "leave_floor",
        "length",
        "stock to leave on the floor",
        "0.1",
        limits=Limits(least=0, most=10),
    ),
    Key("feed", "feed", "the feed per minute", "900", limits=FEED),
    Key("slot_feed", "feed", "the feed at full width of cut", "450", limits=FEED),
    Key("ramp", "angle", "the angle of helix and ramp", "3", limits=Limits(over=0, most=45)),
    Key(
        "way",
        "choice",
        "how the pocket is cleared",
        '"steady"',
        choices=("quickest", "rings", "steady"),
    ),
)

FINISH = (
    Key("tool", "whole", "the number of the tool", "4", limits=TOOL_NUMBER),
    Key("feed", "feed", "the feed per minute", "600", limits=FEED),
    Key("spring", "whole", "how many spring passes", "1", limits=Limits(least=0, most=10)),
    Key("lead", "length", "the radius of lead-in and lead-out", "2", limits=SIZE),
    Key("compensation", "whole", "the offset register", "23", limits=Limits(least=1, most=999)),
    Key("tolerance", "length", "how far the wall may be off", "0.02", limits=SIZE),
    Key("first", "choice", "which is finished first", '"wall"', choices=("floor", "wall")),
)

ZERO = (
    Key("x", "choice", "where X 0 is", '"middle"', choices=("left", "middle", "right")),
    Key(
        "y",
        "choice",
        "where Y 0 is",
        '"mid gap"',
        choices=("front", "front face", "mid gap", "back face", "back"),
    ),
    Key("z", "choice", "where Z 0 is", '"top"', choices=("top", "bottom")),
    Key("shift", "lengths", "a shift of it", "[0, 0, 0]", count=3, limits=ANYWHERE),
)
