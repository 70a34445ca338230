"""Post files: found by name or path, and every fault in one named in one run."""

from __future__ import annotations

import re
import tomllib

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from jawcam.errors import InputError
from jawcam.post.dialect import load, names
from jawcam.resources import folder

GOOD = (folder("posts") / "rs274ngc-mill.toml").read_text(encoding="utf-8")


def faults_of(tmp_path, text):
    (tmp_path / "mine.toml").write_text(text, encoding="utf-8")
    with pytest.raises(InputError) as caught:
        load("mine.toml", near=tmp_path)
    return caught.value.faults


def line_of(text, start):
    return next(n for n, line in enumerate(text.splitlines(), 1) if line.startswith(start))


def changed(*swaps):
    text = GOOD
    for old, new in swaps:
        assert old in text
        text = text.replace(old, new, 1)
    return text


def test_a_file_beside_the_job(tmp_path):
    (tmp_path / "mine.toml").write_text(GOOD, encoding="utf-8")
    assert load("mine.toml", near=tmp_path).name == "mine"


def test_an_unknown_name_lists_the_posts_and_guesses():
    with pytest.raises(InputError) as caught:
        load("rs274ngc-mil")
    (fault,) = caught.value.faults
    assert "'rs274ngc-mill'" in fault.mend
    assert all(name in fault.mend for name in names())


@pytest.mark.parametrize("name", ["nowhere.toml", "nul\0.toml", ".toml"])
def test_a_missing_file_is_named(tmp_path, name):
    with pytest.raises(InputError, match="can't be read"):
        load(name, near=tmp_path)


def test_a_file_that_is_no_text(tmp_path):
    (tmp_path / "mine.toml").write_bytes(b"title = '\xff\xfe'")
    with pytest.raises(InputError, match="UTF-8"):
        load("mine.toml", near=tmp_path)


def test_broken_toml_is_placed(tmp_path):
    (fault,) = faults_of(tmp_path, "title = 'x'\ncontrol = \n")
    assert (fault.place.file, fault.place.line, fault.place.column) == ("mine.toml", 2, 11)
    assert faults_of(tmp_path, "title = [")[0].place.line == 1


def test_every_fault_is_named_with_line_key_and_mend(tmp_path):
    text = changed(
        ("leading_zero =", "leading_zeros ="),
        ('point = "always"', 'point = "allways"'),
        ("speed_decimals = 0", 'speed_decimals = "none"'),
        ("decimals = { mm = 3, inch = 4 }", "decimals = { mm = 3, inches = 4 }"),
        ("max_length = 256", "max_length = 5"),
        ('"large_arcs_to_lines"', '"large_arc_to_lines"'),
        ("T{tool} M6", "T{tol} M6"),
        ('head = ["%", "({name})"]', 'head = ["%", "({name)"]'),
        ('axes = ["X", "Y", "Z"]', 'axes = ["X", "Y"]'),
        ("full_circles = true", "full_circles = 1"),
        ("step = 0", "step = true"),
        ('[coolant]\nflood = "M8"\nmist = "M7"\noff = "M9"\n', ""),
    )
    faults = faults_of(tmp_path, text)
    got = {fault.place.key: (fault.place.line, fault.mend) for fault in faults}
    assert got["numbers.leading_zeros"] == (
        line_of(text, "leading_zeros"),
        "did you mean 'leading_zero'?",
    )
    assert got["numbers.leading_zero"][1] == "add it: true or false"
    assert "always" in got["numbers.point"][1]
    assert got["numbers.speed_decimals"][0] == line_of(text, "speed_decimals")
    assert got["numbers.decimals.inches"] == (
        line_of(text, "decimals"),
        "did you mean 'inch'?",
    )
    assert "from 0 to 6" in got["numbers.decimals.inch"][1]
    assert "from 32 to 10000" in got["blocks.max_length"][1]
    assert "large_arcs_to_lines" in got["passes[1]"][1]
    assert got["passes[1]"][0] == line_of(text, "passes")
    assert got["tools.load[1]"] == (line_of(text, "load"), "did you mean 'tool'?")
    assert got["program.head[2]"][0] == line_of(text, "head")
    assert got["moves.axes"][0] == line_of(text, "axes")
    assert got["arcs.full_circles"][0] == line_of(text, "full_circles")
    assert got["coolant"][1] == "add it: a table"
    assert "numbering.step" in got
    assert len(faults) == 14
    assert all(fault.place.file == "mine.toml" for fault in faults)


def test_what_no_single_key_can_tell(tmp_path):
    # A radius word for more than 165 degrees: NISTIR 6556 section 3.5.3.1.
    text = changed(
        ('centre = "incremental"', 'centre = "radius"'),
        ('words = ["I", "J"]', 'words = ["I", "I"]'),
        ("characters = \" !#&'", "characters = \" ()!#&'"),
        ('"ß" = "ss"', '"ß" = "ß"'),
        ('unknown = "?"', 'unknown = "~"'),
        ("max_length = 76", "max_length = 300"),
        ('close = ")"', 'close = ")))))))))"'),
    )
    keys = {fault.place.key for fault in faults_of(tmp_path, text)}
    assert keys == {
        "arcs.largest_sweep",
        "arcs.full_circles",
        "arcs.words",
        "comments.characters",
        "comments.max_length",
        "comments.open",
        "comments.letters.ß",
        "comments.unknown",
    }


def test_a_cycle_without_what_it_is_for(tmp_path):
    text = changed(
        ("G98 G81 {hole}", "G98 G81"),
        ("G82 {hole} P{dwell}", "G82 {hole}"),
        ('peck_dwell = ""', 'peck_dwell = "G83 {hole} P{dwell}"'),
        ("G98 G83 {hole} Q{peck}", "G98 G83 {hole} Q{pecks}"),
        ('retract = "R"', 'retract = ""'),
        ('off = "G80"', 'off = ""'),
    )
    got = {(fault.place.key, fault.what) for fault in faults_of(tmp_path, text)}
    assert ("cycles.peck", "nothing can be put in place of {pecks} here") in got
    text = text.replace("{pecks}", "{peck}")
    assert [(f.place.key, f.what) for f in faults_of(tmp_path, text)] == [
        ("cycles.drill", "{hole} is missing"),
        ("cycles.dwell", "{dwell} or {milliseconds} is missing"),
        ("cycles.peck_dwell", "{peck} is missing"),
        ("cycles.retract", "a cycle needs this"),
        ("cycles.off", "a cycle needs this"),
    ]


@pytest.mark.parametrize(
    ("swaps", "key"),
    [
        ([("digits = { mm = 4, inch = 3 } ", "digits = { mm = 3, inch = 3 } ")], "numbers.largest"),
        (
            [("centre_digits = { mm = 4, inch = 3 }", "centre_digits = { mm = 4, inch = 2 }")],
            "arcs.largest_radius",
        ),
        ([("order = []", 'order = ["X", "XY"]')], "blocks.order"),
        ([("order = []", 'order = ["X", "X"]')], "blocks.order"),
        ([('\nend = ""', '\nend = "$$$$$"')], "blocks.end"),
        ([('\nend = ""', '\nend = "*"')], "comments.characters"),
        ([("start = 10\n", "start = 100000\n")], "numbering.start"),
        ([('open = "("', 'open = ""')], "comments.open"),
        ([('centre = "incremental"', 'centre = "unsigned"')], "arcs.full_circles"),
        (
            [
                ('point = "always"', 'point = "never"'),
                ('\nsuppress = "leading"', '\nsuppress = "none"'),
                ("{hole} P{dwell}", "{hole} P{milliseconds}"),
            ],
            "moves.dwell",
        ),
        (
            [
                ('point = "always"', 'point = "never"'),
                ('\nsuppress = "leading"', '\nsuppress = "trailing"'),
                ("G4 P{seconds}", "G4 P{milliseconds}"),
            ],
            "cycles.dwell",
        ),
    ],
)
def test_keys_that_do_not_go_together(tmp_path, swaps, key):
    found = faults_of(tmp_path, changed(*swaps))
    assert {fault.place.key for fault in found} == {key}
    assert all(fault.place.line for fault in found)


def test_a_comment_may_end_with_its_line(tmp_path):
    text = changed(('close = ")"', 'close = ""'), ('open = "("', 'open = ";"'))
    (tmp_path / "mine.toml").write_text(text, encoding="utf-8")
    assert load("mine.toml", near=tmp_path).comments.close == ""


def test_a_post_without_cycles_needs_no_words_for_them(tmp_path):
    text = re.sub(r"(?m)^(drill|dwell|peck|retract) = .*$", r'\1 = ""', GOOD)
    (tmp_path / "mine.toml").write_text(text.replace('"G80"', '""'), encoding="utf-8")
    assert load("mine.toml", near=tmp_path).cycles.off == ""


def test_every_key_is_needed(tmp_path):
    keys = [line for line in GOOD.splitlines() if re.match(r"[a-z]\w* = ", line)]
    assert len(keys) > 60
    for line in keys:
        faults = faults_of(tmp_path, GOOD.replace(f"\n{line}\n", "\n", 1))
        assert any("missing" in fault.what for fault in faults), line


def test_nothing_in_a_post_runs(tmp_path):
    for text in ("{tool.__class__}", "{0}", "{tool!r}", "{}"):
        faults = faults_of(tmp_path, changed(("T{tool} M6", text)))
        assert any(fault.place.key == "tools.load[1]" for fault in faults), text


def test_a_fault_is_placed_to_the_column(tmp_path):
    text = changed(
        ('load = ["T{tool} M6"]', 'load = ["T{tool} M6", "M0{tol}"]'),
        ("decimals = { mm = 3, inch = 4 }", "decimals = { mm = 3, inch = 14 }"),
        ("sign =", "signs ="),
    )
    for fault in faults_of(tmp_path, text):
        line = text.splitlines()[fault.place.line - 1]
        rest = line[fault.place.column - 1 :]
        begins = {
            "tools.load[2]": '"M0{tol}"]',
            "numbers.decimals.inch": "14 }",
            "numbers.signs": "signs = ",
            "numbers.sign": "[numbers]",
        }[fault.place.key]
        assert rest.startswith(begins), (fault.place, rest)


def test_a_key_in_the_wrong_table_is_told_its_own(tmp_path):
    text = changed(("[blocks]\n", '[blocks]\npoint = "always"\n'))
    (fault,) = faults_of(tmp_path, text)
    assert (fault.place.key, fault.mend) == ("blocks.point", "it belongs under [numbers]")


def test_faults_of_one_key_hide_none_that_two_keys_make(tmp_path):
    """A word misspelt, and elsewhere an arc by its radius that may be a full circle."""
    text = changed(
        ('centre = "incremental"', 'centre = "radius"'),
        ('sign = "minus"', 'sign = "minos"'),
        ("[coolant]", "[coolent]"),
        ("{hole} P{dwell}", "{hole}"),
    )
    assert {fault.place.key for fault in faults_of(tmp_path, text)} == {
        "arcs.largest_sweep",
        "arcs.full_circles",
        "numbers.sign",
        "coolent",
        "coolant",
        "cycles.dwell",
    }


def test_without_its_kind_a_post_is_read_as_what_it_looks_like(tmp_path):
    text = changed(('kind = "mill"', 'kind = "mil"'), ("suppress =", "supress ="))
    keys = [fault.place.key for fault in faults_of(tmp_path, text)]
    assert keys == ["kind", "numbers.suppress", "numbers.supress"]


@pytest.mark.parametrize(
    ("old", "new", "key"),
    [
        ('rapid = "G0"', 'rapid = ""', "moves.rapid"),
        ('line = "G1"', 'line = ""', "moves.line"),
        ('\nfeed = "F"', '\nfeed = "FF"', "moves.feed"),
        ('\nfeed = "F"', '\nfeed = "X"', "moves.feed"),
        ('letter = "N"', 'letter = "X"', "numbering.letter"),
        ('"S{speed} {direction}"', '"S8000 {direction}"', "spindle.run"),
        ('"S{speed} {direction}"', '"S{speed} M3"', "spindle.run"),
        ("T{tool} M6", "M6", "tools.load"),
        ('"G4 P{seconds}"', '"G4 P1"', "moves.dwell"),
        ('"T{tool} M6"', '"T{tool}\\nM6"', "tools.load[1]"),
    ],
)
def test_words_that_would_say_nothing_or_something_else(tmp_path, old, new, key):
    text = GOOD.replace("step = 0", "step = 10") if key.startswith("numbering") else GOOD
    assert text.count(old) == 1, old
    (fault,) = faults_of(tmp_path, text.replace(old, new))
    assert (fault.place.key, fault.place.line > 0) == (key, True)


def test_a_kind_of_control_that_nobody_reads(tmp_path):
    text = changed(('control = "rs274ngc-mill"', 'control = "rs274ngc-mil"'))
    (tmp_path / "mine.toml").write_text(text, encoding="utf-8")
    assert load("mine.toml", near=tmp_path).control == "rs274ngc-mil"
    with pytest.raises(InputError) as caught:
        load("mine.toml", near=tmp_path, controls=("rs274ngc-lathe", "rs274ngc-mill"))
    (fault,) = caught.value.faults
    assert (fault.place.line, fault.place.column) == (line_of(text, "control"), 11)
    assert fault.mend == "did you mean 'rs274ngc-mill'?"


LINES = [n for n, line in enumerate(GOOD.splitlines()) if re.match(r"[\[a-z]", line)]
VALUES = ["5", "-1", '""', '"XY"', "[]", "true", "{}", "[1]", '["{tool}"]', "{ mm = 1, inch = 2 }"]


@settings(max_examples=80, deadline=None)
@given(st.lists(st.tuples(st.sampled_from(LINES), st.sampled_from(["", *VALUES])), max_size=6))
def test_any_broken_post_is_told_its_faults_and_nothing_worse(tmp_path_factory, changes):
    """Lines left out, or with another value."""
    lines = GOOD.splitlines()
    for place, value in changes:
        key = re.match(r"(\w+) = ", lines[place])
        lines[place] = f"{key[1]} = {value}" if key and value else ""
    text = "\n".join(lines)
    folder_ = tmp_path_factory.mktemp("post")
    (folder_ / "mine.toml").write_text(text, encoding="utf-8")
    try:
        load("mine.toml", near=folder_)
    except InputError as error:
        faults = error.faults
        assert all(fault.what and fault.place.file == "mine.toml" for fault in faults)
        assert len(set(map(str, faults))) == len(faults)
        try:
            tomllib.loads(text)
        except tomllib.TOMLDecodeError:
            return
        assert all(fault.place.key for fault in faults)
