"""Where jaws, part and datum are once the jaws are closed on the part."""

from __future__ import annotations

from jawcam.hold.closing import Closing
from jawcam.hold.target import Seated
from jawcam.job.model import Blanks, Datum, Setup

__all__ = ["datum", "seated"]

Point3 = tuple[float, float, float]


def datum(zero: Datum, blanks: Blanks, front: float = 0.0, back: float = 0.0) -> Point3:
    """The jaw coordinates (mm) of the point that the operator touches off. front, back: how far
    either jaw has travelled from where it is cut, towards the other."""
    near, far = blanks.gap / 2, blanks.gap / 2 + blanks.thickness
    x = {"left": -blanks.width / 2, "middle": 0.0, "right": blanks.width / 2}[zero.x]
    y = {
        "front": front - far,
        "front face": front - near,
        "mid gap": (front - back) / 2,
        "back face": near - back,
        "back": far - back,
    }[zero.y]
    z = {"top": 0.0, "bottom": -blanks.height}[zero.z]
    return (x + zero.shift[0], y + zero.shift[1], z + zero.shift[2])


def seated(closed: Closing, setup: Setup) -> Seated:
    """What the judge must know of the closed jaws."""
    front, back = closed.front.travel, closed.back.travel
    zero = datum(setup.zero, setup.jaws, front, back)
    clear = setup.next_cut.clear if setup.next_cut else None
    return Seated(front, back, closed.shift, zero, clear)
