"""Blocks that the control would refuse, as the reader found them."""

from __future__ import annotations

from jawcam.proof.report import Finding
from jawcam.proof.scene import Scene
from jawcam.reader.cuts import Program

__all__ = ["faults_of", "refused"]


def refused(scene: Scene) -> list[Finding]:
    """The reader's faults, under their own codes."""
    return faults_of(scene.program)


def faults_of(program: Program) -> list[Finding]:
    """The same, of a program without jaws to judge it by."""
    return [
        Finding(
            fault.code,
            "stop",
            fault.what,
            fault.line,
            fault.column,
            mend=fault.mend,
            calls=fault.calls,
        )
        for fault in program.faults
    ]
