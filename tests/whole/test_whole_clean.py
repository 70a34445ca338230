"""Nothing that must not run is found in any program of the samples for the mill, in any post for
one. (The lathe's: `test_whole_turned`.)"""

import pytest
from whole_jobs import SAMPLES

from jawcam.post.dialect import load as load_dialect
from jawcam.post.dialect import names
from jawcam.proof.prove import prove
from jawcam.reader.read import read

POSTS = tuple(name for name in names() if load_dialect(name).kind == "mill")
JAWS = sorted(p.stem for p in SAMPLES.glob("*.toml") if 'cut = "jaws"' in p.read_text("utf-8"))


def in_every_post(whole):
    """The programs of one setup's motions by their posts, those that read alike together."""
    found = []
    for post in POSTS:
        text = whole.written(post, whole.made.job.units)
        program = read(text, load_dialect(post).control, f"{whole.name}.{post}.nc")
        same = next((posts for other, posts in found if alike(other, program)), None)
        if same is None:
            found.append((program, [post]))
        else:
            same.append(post)
    return found


def alike(one, other):
    """Whether the control does the same in both, in whichever lines that is written."""
    return gist(one) == gist(other)


def gist(program):
    changes = [(change.kind, change.value) for change in program.changes]
    faults = [fault.code for fault in program.faults]
    cuts = [cut._replace(line=0, column=0, step=0, calls=()) for cut in program.cuts]
    return str((cuts, changes, faults, program.ended, program.rapids))  # nan is not equal to nan


@pytest.mark.parametrize("name", JAWS)
def test_no_sample_is_stopped_in_any_post(samples, name):
    wholes = samples(name).values()
    for whole in wholes:
        program = whole.made.file
        others = {w.target.work_offset for w in wholes if w.made.file == program and w is not whole}
        tried = []
        for read_back, posts in in_every_post(whole):
            found = prove(
                read_back, whole.target, machine=whole.made.job.machine, others=others
            ).findings
            assert [f for f in found if f.grade == "stop"] == [], (whole.name, posts)
            tried += posts
        assert sorted(tried) == sorted(POSTS)
