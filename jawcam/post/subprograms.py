"""Cuts that a program makes more than once, as calls, and what is called behind the program's
end."""

from __future__ import annotations

from jawcam.errors import InternalError
from jawcam.motion.moves import Call
from jawcam.post.mill_page import Body, MillPage
from jawcam.post.moves import write_move
from jawcam.post.text import filled

__all__ = ["write_bodies", "write_call"]


def write_call(page: MillPage, call: Call) -> None:
    """One call as its block; its moves in place of it where the dialect has no number left."""
    if page.waiting:
        raise InternalError(f"subprogram {call.number} can't take waiting words")
    words = page.dialect.subprograms
    number = words.first + call.number - 1
    if number > words.largest:
        for move in call.body:
            write_move(page, move)
        return
    body = page.bodies.get(number)
    if body is None:
        body = page.bodies[number] = _body(page, call)
    page.block(filled(words.call, {"subprogram": str(number)}).split())
    body.calls += 1
    page.said |= body.said
    page.here = call.body[-1].to


def write_bodies(page: MillPage) -> None:
    """All that is called, each with its head, a comment and its return."""
    words = page.dialect.subprograms
    for number, body in page.bodies.items():
        values = {"subprogram": str(number)}
        page.gap()
        page.lines += [filled(line, values) for line in words.head]
        page.comment(f"Called {body.calls} times, each time level at the height it is called at")
        begin = len(page.lines)
        page.lines += body.lines
        page.blocks += range(begin, len(page.lines))
        for line in words.end:
            page.block(filled(line, values).split())


def _body(page: MillPage, call: Call) -> Body:
    """The blocks of what is called. They say all but the height anew, so that they are the same
    whatever was in force before; the page goes on as if nothing had been written."""
    plan = [axis.letter for axis in page.dialect.axes if axis.index < 2]
    groups = ("motion", "feed", *plan)
    lines, blocks = page.lines, page.blocks
    page.lines, page.blocks = [], []
    for group in groups:
        page.said.pop(group, None)
    for move in call.body:
        write_move(page, move)
    body = Body(page.lines, {group: page.said[group] for group in groups if group in page.said})
    page.lines, page.blocks = lines, blocks
    return body
