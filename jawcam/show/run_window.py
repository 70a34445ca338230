"""The run through a program in a window: its slider, the mouse and the keys."""

from __future__ import annotations

from typing import Any

from matplotlib.backend_bases import Event, KeyEvent, MouseEvent

from jawcam.show.run import Run
from jawcam.show.window import show_window

__all__ = ["RunWindow", "show_run"]

LEAP = 40
"""Page up and page down go on by so small a part of the program."""

STEPS = {"right": 1, "down": 1, "left": -1, "up": -1}
"""As the blocks are read: from left to right and from above."""


class RunWindow:
    """Drives a run on the canvas of its figure. move: the one that is shown.

    What stays is kept as a picture, so that a change paints no more than what changes.
    """

    def __init__(self, run: Run) -> None:
        self.run = run
        self.move = run.to(0)
        self._held = False
        self._ground: Any = None
        canvas: Any = run.figure.canvas
        for name, call in (
            ("draw_event", self._drawn),
            ("button_press_event", self._pressed),
            ("motion_notify_event", self._dragged),
            ("button_release_event", self._released),
            ("key_press_event", self._key),
            ("scroll_event", self._scrolled),
        ):
            canvas.mpl_connect(name, call)

    def to(self, move: int) -> None:
        """Show the program up to a move."""
        before, self.move = self.move, self.run.to(move)
        if self.move != before:
            self._paint()

    def _drawn(self, event: Event) -> None:
        """All was drawn anew but for what changes, at first and when the window's size changes."""
        canvas: Any = event.canvas
        self._ground = canvas.copy_from_bbox(self.run.figure.bbox)
        self._paint()

    def _paint(self) -> None:
        canvas: Any = self.run.figure.canvas
        if self._ground is None:
            return
        canvas.restore_region(self._ground)
        for artist in self.run.artists:
            if artist.axes is not None:
                artist.axes.draw_artist(artist)
        canvas.blit(self.run.figure.bbox)

    def _pressed(self, event: Event) -> None:
        assert isinstance(event, MouseEvent)
        self._held = event.inaxes is self.run.rail.axes
        self._follow(event)

    def _dragged(self, event: Event) -> None:
        assert isinstance(event, MouseEvent)
        self._follow(event)

    def _released(self, event: Event) -> None:
        del event
        self._held = False

    def _follow(self, event: MouseEvent) -> None:
        """Put the knob where the mouse is, also beyond the rail's ends."""
        if self._held:
            x, _ = self.run.rail.axes.transData.inverted().transform((event.x, event.y))
            self.to(round(float(x)))

    def _key(self, event: Event) -> None:
        assert isinstance(event, KeyEvent)
        leap = max(self.run.moves // LEAP, 1)
        ends = {"home": 0, "end": self.run.moves - 1}
        steps = {**STEPS, "pagedown": leap, "pageup": -leap}
        if event.key in ends:
            self.to(ends[event.key])
        elif event.key in steps:
            self.to(self.move + steps[event.key])

    def _scrolled(self, event: Event) -> None:
        assert isinstance(event, MouseEvent)
        self.to(self.move + round(event.step))


def show_run(run: Run) -> None:
    """Open a window with the run, at the program's first move, and wait until it is closed. Raises
    InputError if there is no screen, or nothing installed that could draw on it."""
    show_window(run.figure, lambda: RunWindow(run))
