"""Nothing that must not run is found in any program of the samples for the mill, in any post for
one. (The lathe's: `test_whole_turned`.)"""

import pytest
from whole_jobs import SAMPLES
from whole_judged import found

from jawcam.post.dialect import load as load_dialect
from jawcam.post.dialect import names
from jawcam.reader.read import read

POSTS = tuple(name for name in names() if load_dialect(name).kind == "mill")
JAWS = sorted(p.stem for p in SAMPLES.glob("*.toml") if 'cut = "jaws"' in p.read_text("utf-8"))


def in_every_post(whole):
    """The programs of one setup's motions with their posts, those that read alike together: in
    which the control does the same, in whichever lines that is written."""
    alike = {}
    for post in POSTS:
        text = whole.written(post, whole.made.job.units)
        program = read(text, load_dialect(post).control, f"{whole.name}.{post}.nc")
        alike.setdefault(gist(program), (program, []))[1].append(post)
    return list(alike.values())


def gist(program):
    changes = [(change.kind, change.value) for change in program.changes]
    faults = [fault.code for fault in program.faults]
    cuts = [cut._replace(line=0, column=0, step=0, calls=()) for cut in program.cuts]
    return str((cuts, changes, faults, program.ended, program.rapids))  # nan is not equal to nan


@pytest.mark.parametrize("name", JAWS)
def test_no_sample_is_stopped_in_any_post(samples, name):
    """In its own it is judged as it is made."""
    wholes = samples(name).values()
    written = {whole.made.file: in_every_post(whole) for whole in wholes}
    for whole in wholes:
        program = whole.made.file
        others = {w.target.work_offset for w in wholes if w.made.file == program and w is not whole}
        machine = whole.made.job.machine
        for read_back, posts in written[program]:
            report = whole.report
            if whole.made.dialect not in posts:
                report = found(read_back, whole.target, machine=machine, others=others)
            assert [f for f in report.findings if f.grade == "stop"] == [], (whole.name, posts)
        assert sorted(post for _, posts in written[program] for post in posts) == sorted(POSTS)
