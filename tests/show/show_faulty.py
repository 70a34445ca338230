"""Programs of the faulty collection, with the targets that they are judged against."""

import importlib.util
from pathlib import Path

from jawcam.proof.prove import prove
from jawcam.proof.turning.prove import prove_turning
from jawcam.reader.read import read

FOLDER = Path(__file__).resolve().parents[1] / "faulty"


def _target(path):
    spec = importlib.util.spec_from_file_location(path.stem, path)
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module.TARGET


def milled(name):
    """Program, target and report of a pocket: the disc of 30.1 mm, 6 mm deep, gap 6 mm."""
    target = _target(FOLDER / "faulty_setting.py")
    program = read((FOLDER / f"{name}.nc").read_text(), "rs274ngc-mill", f"{name}.nc")
    return program, target, prove(program, target)


def turned(name):
    """The same of the axle on the lathe."""
    target = _target(FOLDER / "turning" / "turning_setting.py")
    program = read((FOLDER / "turning" / f"{name}.nc").read_text(), "rs274ngc-lathe", f"{name}.nc")
    return program, target, prove_turning(program, target)
