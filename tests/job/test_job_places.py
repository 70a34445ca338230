"""Where each key and value stands: in every text below a number is the line that it stands on."""

import tomllib

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from jawcam.job.places import path_words, place_in_setup, place_of, places

BY_HAND = '''\
top = 1  # a comment with [brackets] and = signs
"quoted key" = 2
'literal.key' = 3
dotted . name = 4
"esc\\"aped \\u0041" = 5
text = """
not_a_key = 1
[not.a.table] \\""" "" # no comment
"""
literal = \'\'\'
[[no]] \\ '' "\'\'\'
after = 12
quotes = """"two" and more"""""
more = 14
short = "a # b [c] { d }\\\\"
again = 16
list = [17, [17, 17],
  18, # ] a bracket in a comment
  { a = 19, b = [19] }, "x, ]",
  20,
]
inline = { a = 22, b.c = 22, "d e" = { f = [22, 22] } }
when = 1979-05-27 07:32:00Z
other = 24

[table]
one = 27
[table . "in ner"]  # blanks
two = 29
[[many]]
one = 31
[many.inside]
one = 33
[[many.deep]]
one = 35
[[many.deep]]
one = 37
[[many]]
one = 39
[[many.deep]]
one = 41
empty = []
nothing = {}
last = 44'''


def leaves(value, path=()):
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from leaves(inner, (*path, key))
    elif isinstance(value, list):
        for number, inner in enumerate(value, 1):
            yield from leaves(inner, (*path, number))
    elif isinstance(value, int):
        yield path, value


def check(text):
    found = places("job.toml", text)
    numbered = list(leaves(tomllib.loads(text)))
    for path, line in numbered:
        assert found.values[path][0] == line, path
    return numbered


@pytest.mark.parametrize("newline", ["\n", "\r\n"])
def test_every_form_that_toml_has(newline):
    assert len(check(BY_HAND.replace("\n", newline))) == 29


STATEMENTS = st.sampled_from(
    [
        "k{n} = @",
        "k{n}.x.y = @",
        '"k {n}" = @ # = [',
        "k{n} = [@, @,\n  [@], # ]\n @]",
        "k{n} = {{ a = @, 'b c' = [@, {{ d.e = @ }}] }}",
        's{n} = """\n k = [x] \\""" {{ "" # \n"""',
        "s{n} = '''\n[[u]] ' \\\n'''",
        's{n} = "[[ \\" # = \' \\\\"',
        "[t{n}]",
        "[t{n} . 'x.y']",
        "[[u]]",
        "[[u.w]]",
        "[u.v{n}]",
        "# [[u]] = '\"",
        "",
        "d{n} = 2026-01-01",
        "f{n} = -1.5e3",
    ]
)


@settings(max_examples=150, deadline=None)
@given(st.lists(STATEMENTS, max_size=25))
def test_places_agree_with_what_toml_says(statements):
    lines = "\n".join(text.format(n=n) for n, text in enumerate(statements)).split("\n")
    text = "\n".join(line.replace("@", str(number)) for number, line in enumerate(lines, 1))
    try:
        tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        assume(False)
    check(text)


def test_columns_point_at_key_and_value():
    found = places("job.toml", "[jaws]\n  gap = 'wall / 2'\n")
    assert str(found.of_key(("jaws", "gap"))) == "job.toml:2:3: jaws.gap"
    assert str(found.of_value(("jaws", "gap"))) == "job.toml:2:9: jaws.gap"


def test_a_column_inside_a_text_is_found_where_it_stands_as_it_is():
    found = places("job.toml", "a = 'wall / 2'\nb = \"wa\\u006cl / 2\"\n")
    assert found.of_value(("a",), "wall / 2", 6).column == 11
    assert found.of_value(("b",), "wall / 2", 6).column == 5


def test_what_is_missing_has_the_place_of_the_table_around_it():
    found = places("job.toml", "title = 'x'\n[[setup]]\nname = 'a'\n")
    place = found.of_key(("setup", 1, "jaws", "gap"))
    assert (place.line, place.key) == (2, "setup[1].jaws.gap")
    assert found.of_key(("part",)).line == 0


def test_paths_count_from_one_and_quote_odd_keys():
    assert path_words(("setup", 2, "bolts", 1, "at", 2)) == "setup[2].bolts[1].at[2]"
    assert path_words(("let", "wall left")) == "let.'wall left'"


def test_a_loaded_job_still_tells_where_its_keys_stand(jobs, good):
    job = jobs.load(good)
    lines = good.split("\n")
    assert lines[place_of(job, "setup[1].jaws.gap").line - 1].startswith("jaws = ")
    assert lines[place_in_setup(job, job.setups[1], "hold.depth").line - 1] == "depth = 6"
    assert lines[place_in_setup(job, job.setups[1], "hold.turn").line - 1] == "[setup.hold]"
    assert place_in_setup(job, job.setups[1]).key == "setup[2]"
    assert str(place_of(job, "nowhere")) == "lever.toml: nowhere"
