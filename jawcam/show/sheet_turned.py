"""The drawing of a lathe's setup sheet: the work in the chuck, true to scale."""

from __future__ import annotations

from dataclasses import replace
from functools import partial

from matplotlib.axes import Axes
from matplotlib.figure import Figure

from jawcam.job.jaw_model import JawSetup
from jawcam.job.model import Setup
from jawcam.job.turn_model import TurnSetup
from jawcam.show.lettering import width
from jawcam.show.page import Box, Pads, View
from jawcam.show.sheet_dims import across, beside_width, heights
from jawcam.show.sheet_given import number
from jawcam.show.sheet_page import FRAME, GUTTER, TEXT
from jawcam.show.sheet_scale import (
    TITLED,
    Views,
    draw_title,
    is_small,
    scales,
    true_view,
)
from jawcam.show.turned_picture import TurnPicture
from jawcam.show.turned_scene import jaw_front
from jawcam.show.turned_sizes import draw_sizes
from jawcam.show.turned_view import draw_holders, draw_work, draw_zero

__all__ = ["turned_views"]

Some = Setup | TurnSetup | JawSetup

ROOM = Pads(left=9, bottom=26, right=14, top=15)
"""mm of paper around the work: some of the chuck, lengths over it, its sizes beneath; at its right
diameters, whose words come on top of that."""

HIGHEST = 118.0
"""mm that all of it takes at most."""

LANES = (5.0, 10.5)
"""mm of paper from the work to the lengths over it."""

NARROW = 56.0
"""mm; a column beside the drawing that isn't wider is of no use."""


def turned_views(picture: TurnPicture, setup: Some) -> list[Views]:
    """The arrangements to choose from, the largest first; what the drawing leaves at its right is
    free, if that is wide enough."""
    content = _content(picture)
    to_mm, per = picture.units.to_mm, picture.units.in_mm
    words = max(width(words, TEXT, "bold") for _, _, words in _diameters(picture, setup))
    told = ROOM.right + words
    room = FRAME.w - ROOM.left - told, HIGHEST - ROOM.bottom - ROOM.top - TITLED
    options = []
    lengths = _lengths(picture, setup)
    size = to_mm(content.w), to_mm(content.h)
    for scale in scales(size, room):
        past = [beside_width((b - a) * scale * per, said) for a, b, said in lengths[:2]]
        pads = ROOM._replace(right=max(told, *past))
        high = content.h * scale * per + pads.bottom + pads.top + TITLED
        wide = content.w * scale * per + pads.left + pads.right
        spare = FRAME.w - wide - GUTTER
        free = (spare, high) if spare >= NARROW else (0.0, 0.0)
        box = Box(0, 0, wide if spare >= NARROW else FRAME.w, high)
        draw = partial(
            _draw, picture=picture, setup=setup, content=content, pads=pads, box=box, scale=scale
        )
        options.append(Views(high, free, is_small(size, scale), draw))
    return options


def _content(picture: TurnPicture) -> Box:
    """The stock and the part's other half beneath the axis."""
    z0, _, z1, wide = picture.scene.stock.bounds
    low = picture.scene.mirrored.bounds[1]
    return Box(z0, low, z1 - z0, wide - low)


def _draw(
    figure: Figure,
    page: Axes,
    corner: tuple[float, float],
    *,
    picture: TurnPicture,
    setup: Some,
    content: Box,
    pads: Pads,
    box: Box,
    scale: float,
) -> None:
    """Draw it, its lower left corner at `corner` on the page."""
    box = box._replace(x=corner[0], y=corner[1])
    more = "beneath: the jaws bored" if isinstance(setup, JawSetup) else "beneath: the part"
    draw_title(page, box, "HALF SECTION", scale, more)
    inside = box._replace(h=box.h - TITLED)
    view = true_view(figure, inside, content, pads, scale, picture.units, name="half section")
    shown = replace(picture, content=content)
    draw_work(view, shown)
    draw_holders(view, shown)
    taken = draw_zero(view)
    _draw_lengths(view, picture, setup)
    taken += _told(view, picture, setup)
    draw_sizes(view, shown, taken, size=TEXT)


def _lengths(picture: TurnPicture, setup: Some) -> list[tuple[float, float, str]]:
    """What is told over the work, as rows (Z, Z, words): from the jaws to Z 0 and to the raw front,
    and what is held; of jaws how long they are."""
    z0, _, z1, _ = picture.scene.stock.bounds
    if isinstance(setup, JawSetup):
        return [(z0, z1, f"jaw {_said(picture, z1 - z0)}")]
    held = jaw_front(picture.target)
    if held is None:
        return []
    front = picture.units.from_mm(held)
    rows = [
        (front, 0.0, f"to Z 0 {_said(picture, -front)}"),
        (front, z1, f"stands out {_said(picture, z1 - front)}"),
    ]
    return [*rows, (z0, front, f"held {_said(picture, front - z0)}")] if front > z0 else rows


def _draw_lengths(view: View, picture: TurnPicture, setup: Some) -> None:
    wide = picture.scene.stock.bounds[3]
    lanes = [wide + lane * view.units(1) for lane in LANES]
    for k, (a, b, words) in enumerate(_lengths(picture, setup)):
        across(view, (a, b), lanes[k % 2], words, (wide, wide), beside=k < 2)


def _told(view: View, picture: TurnPicture, setup: Some) -> list[Box]:
    """The diameters at the right; the boxes that they and the lengths take."""
    z1, wide = picture.scene.stock.bounds[2:]
    unit, named = view.units(1), _diameters(picture, setup)
    heights(view, named, z1 + 8 * unit, view.axes.get_ylim()[0])
    left, right = view.axes.get_xlim()
    top = view.axes.get_ylim()[1]
    beside = [Box(z1 + 7 * unit, x - 2 * unit, right - z1, 4 * unit) for x, _, _ in named]
    return [Box(left, wide + unit, right - left, top - wide), *beside]


def _diameters(picture: TurnPicture, setup: Some) -> list[tuple[float, float, str]]:
    """Of the work as it comes, as rows (radius, Z of the edge, words)."""
    _, low, z1, wide = picture.scene.stock.bounds
    bored = isinstance(setup, JawSetup)
    named = [(wide, z1, f"{'jaws' if bored else 'stock'} dia {_said(picture, 2 * wide)}")]
    if low > 1e-6:
        named.append((low, z1, f"{'open to' if bored else 'bore'} dia {_said(picture, 2 * low)}"))
    return named


def _said(picture: TurnPicture, value: float) -> str:
    return number(picture.units, picture.units.to_mm(value))
