"""Designations of screw threads, as far as a job needs them.

ISO metric threads are written as in ISO 965-1, inch threads as in ASME B1.1 and with their series,
tapered pipe threads as in ISO 7-1 and ASME B1.20.1.
"""

from __future__ import annotations

from jawcam.job.words import WrongValueError, quoted
from jawcam.part.pipe_threads import pipe_thread
from jawcam.part.thread_form import majors as all_majors
from jawcam.part.threads import ThreadError, thread_of

__all__ = ["majors"]

_MEND = 'write it such as "M20x2.5 6g" or "1/2-13 UNC 2A"'


def majors(designation: str) -> tuple[float, ...]:
    """Give the major diameter in mm; two where a number may be of inches or of a gauge, the
    likelier one first.

    ``12-8 UN`` is such a one: gauge numbers run from 0 to 12, and n stands for 0.060 + 0.013 n
    inches (ASME B1.1). Raises WrongValueError if the designation can't be read.
    """
    try:
        if pipe_thread(designation) is None and not thread_of(designation).series:
            what = f"{quoted(designation)} is no designation of a thread without its series"
            raise WrongValueError(what, _MEND)
        return all_majors(designation)
    except ThreadError as error:
        raise WrongValueError(error.what, error.mend) from error
