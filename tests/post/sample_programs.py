"""The motions of every program of every sample job, planned once, and their text in any post."""

from __future__ import annotations

import functools
from dataclasses import dataclass
from unittest import mock

from jawcam.errors import Fault, InputError
from jawcam.job.load import load as load_job
from jawcam.make import make
from jawcam.motion.moves import Begin, Motion
from jawcam.post.dialect import load, names
from jawcam.post.write import write
from jawcam.resources import folder
from jawcam.units import Units

DIALECTS = {name: load(name) for name in names()}
SAMPLES = tuple(sorted(path.stem for path in folder("samples").glob("*.toml")))


@dataclass(frozen=True)
class Planned:
    """One program. kind: of the machine; motions: as they come to be written."""

    name: str
    kind: str
    units: Units
    motions: tuple[Motion, ...]

    @property
    def posts(self) -> tuple[str, ...]:
        """Those of its kind of machine."""
        return tuple(name for name, dialect in DIALECTS.items() if dialect.kind == self.kind)

    def text(self, post: str) -> str:
        """The program, or, where the post refuses it, what it says."""
        try:
            return write(self.motions, DIALECTS[post], units=self.units)
        except InputError as error:
            return f"refused\n{error}\n"


@functools.cache
def planned(sample: str) -> tuple[Planned, ...]:
    """The programs of a sample, each caught where it would be written."""
    path = folder("samples") / f"{sample}.toml"
    job = load_job(path, shown=path.name, outside=False)
    lathe = [setup.name for setup in (*job.turnings, *job.jaw_borings)]
    mill = [name for name in job.order if name not in lathe]
    found: list[Planned] = []
    for kind, setups in (("mill", mill), ("lathe", lathe)):

        def caught(motions, dialect, *, units, kind=kind):
            assert dialect.kind == kind
            name = next(motion.name for motion in motions if isinstance(motion, Begin))
            found.append(Planned(name, kind, units, tuple(motions)))
            raise InputError(Fault("caught"))

        both = (
            mock.patch("jawcam.make.write", caught),
            mock.patch("jawcam.make_turned.write", caught),
        )
        try:
            with both[0], both[1]:
                make(
                    path, shown=path.name, post=None, setups=setups, outside=False
                ) if setups else ()
        except InputError as error:
            if {fault.what for fault in error.faults} != {"caught"}:
                raise
    return tuple(found)
