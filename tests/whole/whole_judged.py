"""Programs judged by what is found in them alone."""

import contextlib

import pytest

import jawcam.proof.prove
import jawcam.proof.turning.prove
from jawcam.post.dialect import load as load_dialect
from jawcam.reader.read import read


@contextlib.contextmanager
def unmeasured():
    """What a proof measures is half of its work: here it only finds. Its report has no figures."""
    with pytest.MonkeyPatch.context() as patch:
        for proof in (jawcam.proof.prove, jawcam.proof.turning.prove):
            patch.setattr(proof, "figures", lambda *_: None)
        yield


def found(program, target, **options):
    """The report on a program of a mill, without figures."""
    with unmeasured():
        return jawcam.proof.prove.prove(program, target, **options)


def turned(one, text, target=None):
    """The report on another text of a setup of the lathe, without figures."""
    program = read(text, load_dialect(one.dialect).control, f"{one.file}.nc")
    with unmeasured():
        return jawcam.proof.turning.prove.prove_turning(program, target or one.target)
