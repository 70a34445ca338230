"""The setup sheets of all samples, and of jobs that are hard to fit on a page."""

import functools
import re
from dataclasses import replace

import pypdf
import pytest
from whole_jobs import SAMPLES
from whole_sheets import A4, Sheet, crossed, outside, overlapping, sheets, sheets_of
from whole_words import blocks

from jawcam.cautions import ON_LATHE, ON_MILL
from jawcam.hold.turn_target import TurnTarget
from jawcam.post.dialect import load as load_dialect
from jawcam.proof.report import Finding
from jawcam.proof.words import tally
from jawcam.reader.read import read
from jawcam.show.save import save
from jawcam.show.sheet import sheet_settings
from jawcam.show.sheet_steps import minutes_of, steps
from jawcam.units import Units

MILLED = {
    "bearing-bracket": ["feet-down", "boss-down"],
    "burr-cam": ["cam-jaws"],
    "crank-lever": ["side-one"],
    "crank-lever-both-sides": ["side-one", "side-two"],
    "drive-hub": ["end-b-down", "end-a-down"],
    "hopper-flange": ["flange-jaws"],
}
TURNED = {"burr-spindle": ["spindle-end-b", "jaws-end-b", "spindle-end-a"]}
ALL = [(job, name) for job, names in (MILLED | TURNED).items() for name in names]

GREEK = "\u039c\u03bf\u03c7\u03bb\u03cc\u03c2 \u03bc\u03cd\u03bb\u03bf\u03c5"
UMLAUTS = "Kurbel f\u00fcr die M\u00fchle \u00d8 8"

HARD = {
    "long names": lambda g: replace(
        g,
        job=replace(g.job, title="Jaws for the long lever of the crank " * 9, file="j" * 150),
        setup=replace(g.setup, name="the-first-side-of-them-all" * 9),
        offset_word="G54.1 P48 A",
        dialect="d" * 90,
    ),
    "a title in Greek": lambda g: replace(g, job=replace(g.job, title=GREEK)),
    "umlauts, no notes": lambda g: replace(g, job=replace(g.job, title=UMLAUTS), notes=()),
    "no title, no material": lambda g: replace(
        g, job=replace(g.job, title="", part=replace(g.job.part, material=""))
    ),
    "many findings": lambda g: replace(g, report=replace(g.report, findings=findings(60))),
    "a failed proof": lambda g: replace(
        g, proven=False, report=replace(g.report, findings=findings(60, "stop"))
    ),
    "long notes": lambda g: replace(g, notes=tuple(f"{k} " + "it is so " * 90 for k in range(20))),
    "many tools": lambda g: replace(g, program=many_tools(g.program, 19)),
    "in inches": lambda g: replace(g, job=replace(g.job, units=Units.INCH)),
}


ON_LATHES = ("a title in Greek", "many findings", "long notes", "many tools", "in inches")


def findings(count, grade="warn"):
    what = "the corner of the holder meets the blank while the tool is down"
    return tuple(
        Finding("P999", grade, f"{what}, time {k}", k + 1, 1, 1.5 * k, -k, -2, mend="move it " * 9)
        for k in range(count)
    )


def many_tools(program, count):
    cuts = [
        cut._replace(tool=1 + k * count // len(program.cuts)) for k, cut in enumerate(program.cuts)
    ]
    return replace(program, cuts=tuple(cuts))


@pytest.fixture(scope="module")
def sheet_of(samples):
    """Calls for the sheet of a sample's setup."""

    @functools.cache
    def of(job):
        if job in TURNED:
            return sheets_of(SAMPLES / f"{job}.toml")
        return sheets([whole.made for whole in samples(job).values()])

    return lambda job, name: of(job)[name]


@pytest.fixture(params=ALL, ids=" ".join)
def sheet(request, sheet_of):
    return sheet_of(*request.param)


@pytest.fixture(
    params=[("crank-lever", "side-one"), ("burr-spindle", "spindle-end-a")], ids=" ".join
)
def common(request, sheet_of):
    """What a sheet of the mill and one of the lathe are made from."""
    return sheet_of(*request.param).given


def test_every_setup_of_every_sample_is_tried(samples):
    names = {job: list(samples(job)) for job in MILLED}
    assert names == MILLED
    assert sorted([*MILLED, *TURNED]) == sorted(path.stem for path in SAMPLES.glob("*.toml"))


def test_no_words_stand_on_each_other_or_off_the_page(sheet):
    words = sheet.words
    assert len(words) > 100
    assert overlapping(words) == []
    assert outside(words) == []
    assert crossed(words, sheet.lines) == []


def test_a_word_moved_onto_another_is_found(sheet_of):
    sheet = sheet_of("crank-lever", "side-one")
    texts = {text.get_text(): text for text in sheet.axes["page"].texts}
    text = texts["ORDER OF WORK"]
    before = text.get_position()
    try:
        text.set_position(texts["spacer"].get_position())
        assert overlapping(sheet.words)
        text.set_position((206, before[1]))
        assert outside(sheet.words)
        x0, y0, x1, _ = next(line for line in sheet.lines if line[1] == line[3])
        text.set_position(((x0 + x1) / 2, y0 - 0.5))
        assert crossed(sheet.words, sheet.lines)
    finally:
        text.set_position(before)


@pytest.mark.parametrize(
    ("job", "setup", "name"),
    [
        *(("crank-lever", "side-one", name) for name in HARD),
        *(("burr-spindle", "spindle-end-a", name) for name in ON_LATHES),
    ],
)
def test_what_is_hard_to_fit_still_fits(sheet_of, job, setup, name):
    given = HARD[name](sheet_of(job, setup).given)
    sheet = Sheet(given)
    words = sheet.words
    assert overlapping(words) == []
    assert outside(words) == []
    assert crossed(words, sheet.lines) == []
    if given.proven:
        for caution in ON_LATHE if isinstance(given.target, TurnTarget) else ON_MILL:
            assert caution in sheet.text


def test_it_says_what_to_set_up(sheet):
    given, told = sheet.given, sheet.text
    assert given.job.title in told
    assert f"setup {given.setup.name}" in told
    assert f"{given.file}.nc" in told
    assert given.offset_word in told
    assert tally(given.report) in told
    for tool in {cut.tool for cut in given.program.cuts}:
        assert re.search(rf"\bT{tool}\b", told)
    for caution in ON_LATHE if isinstance(given.target, TurnTarget) else ON_MILL:
        assert caution in told
    for title in ("SET", "ORDER OF WORK", "WEAR OFFSETS DIALLED IN", "NOTES BY HAND"):
        assert title in told


def test_findings_and_their_mends_stand_in_their_own_words(sheet):
    for finding in sheet.given.report.findings:
        assert finding.grade.upper() in sheet.text
        assert finding.code in sheet.text
        assert finding.what in sheet.text
        assert finding.mend in sheet.text
        if finding.line:
            assert f"line {finding.line}" in sheet.text


def test_every_caution_and_grip_note_of_a_sample_has_room(sheet):
    for note in sheet.given.notes:
        kind, _, words = note.partition(": ")
        if kind in {"caution", "grip"}:
            assert words in sheet.text


def test_stops_stand_before_warnings_and_warnings_before_notes(common):
    grades = ["note", "stop", "warn"]
    mixed = [replace(one, grade=grade) for one, grade in zip(findings(3), grades, strict=True)]
    told = Sheet(replace(common, report=replace(common.report, findings=tuple(mixed)))).text
    assert re.findall(r"\b(STOP|WARN|NOTE) P999", told) == ["STOP", "WARN", "NOTE"]


def test_what_the_job_leaves_out_leaves_no_gap(common):
    sheet = Sheet(HARD["no title, no material"](common))
    assert not [w.text for w in sheet.words if re.search("^[,;]| [,;]|,,", w.text)]


def test_findings_without_room_are_counted(common):
    given = HARD["many findings"](common)
    told = Sheet(given).text
    shown = len(re.findall("P999", told))
    assert 3 < shown < 60
    assert f"Findings of the proof: and {60 - shown} more, see {given.setup.name}.json" in told


def test_tools_without_room_are_counted(common):
    given = HARD["many tools"](common)
    sheet = Sheet(given)
    words = [text.get_text() for text in sheet.axes["page"].texts]
    rest = next(k for k, word in enumerate(words) if "more tools" in word)
    told = sum(re.fullmatch(r"T\d+", word) is not None for word in words[:rest])
    assert 10 < told < 19
    assert words[rest] == f"and {19 - told} more tools, see {given.file}.nc"


def test_blanks_gap_and_datum_are_told_of_the_jaws(sheet_of):
    told = sheet_of("crank-lever", "side-one").text
    for words in ("2 of 130 x 40 x 38 mm", "gap 6", "6 mm, all of it under Z -8", "part top Z 4"):
        assert words in told
    assert "middle of width, mid gap, jaw top" in told
    inch = sheet_of("hopper-flange", "flange-jaws").text
    assert "2 of 4 x 1.25 x 1.5 in" in inch
    assert "gap 0.25" in inch
    assert "all lengths in inch" in inch
    assert " mm" not in inch.replace("50 mm long", "")


def test_stick_out_stock_and_clamp_are_told_of_the_lathe(sheet_of):
    told = sheet_of("burr-spindle", "spindle-end-b").text
    for words in ("stock dia 32", "stands out 54", "held 30", "never above 2500 rpm"):
        assert words in told


def test_tools_reach_and_flutes_are_no_less_than_the_text_asks(sheet_of):
    """From the words of the program alone: the jaw top is Z 0, the clearance 5."""
    given = sheet_of("crank-lever", "side-one").given
    text = "\n".join(given.program.lines)
    deep = {}
    for block in blocks(text):
        if block.kind != "rapid":
            deep[block.tool] = min(deep.get(block.tool, 0.0), block.end[2])
    rows = table(sheet_of("crank-lever", "side-one"))
    assert {int(row[0][1:]) for row in rows} == set(deep)
    for row in rows:
        lowest = deep[int(row[0][1:])]
        out, flutes = float(row[3]), float(row[5])
        assert -lowest - 1e-9 <= flutes < -lowest + 0.1
        assert (
            -lowest + given.target.clearance - 1e-9 <= out < -lowest + given.target.clearance + 0.1
        )
        assert float(row[7]) == pytest.approx(lowest, abs=1e-3)


def table(sheet):
    """The rows of the table of tools."""
    words = [text.get_text() for text in sheet.axes["page"].texts]
    start = next(k for k, word in enumerate(words) if word in {"a minute", "speed and feed"}) + 2
    wide = 11 if words[start - 2] == "a minute" else 9
    rows = []
    while re.fullmatch(r"T\d+", words[start]):
        rows.append(words[start : start + wide])
        start += wide
    return rows


def test_steps_begin_at_comments_and_all_times_add_up(sheet):
    """Each time is told to the second."""
    given = sheet.given
    told = [text.get_text() for text in sheet.axes["page"].texts]
    told = told[next(k for k, words in enumerate(told) if words == "work") + 2 :]
    comments = {str(line): words.strip() for line, words in given.program.comments}
    spent = []
    while told[0].isdigit():
        line, tool, what, time, *told = told
        assert comments[line].startswith(re.split("[:,]", what)[0])
        assert tool in {f"T{cut.tool}" for cut in given.program.cuts}
        spent.append(seconds(time))
    while not told[0].startswith(("in all", "this station")):
        _, time, *told = told
        spent.append(seconds(time))
    whole = seconds(told[1])
    assert whole == pytest.approx(60 * given.report.figures.minutes, abs=0.5)
    assert sum(spent) == pytest.approx(whole, abs=0.5 * len(spent) + 1.5)
    assert f"takes about {told[1]}" in sheet.text


@pytest.mark.parametrize("post", ["iso6983-mill", "iso6983-mill-subprograms", "eia274d-tape"])
def test_the_steps_are_the_same_in_every_dialect(lever, post):
    """Whatever becomes of the comments' letters, and where a pass is called that recurs."""

    def steps_of(program):
        minutes = minutes_of(program, lever.target, lever.made.job)
        return [(step.tool, step.what.casefold()) for step in steps(program, minutes)]

    control = load_dialect(post).control
    other = read(lever.written(post, Units.MM), control, "lever.nc")
    assert len(steps_of(other)) > 3
    assert steps_of(other) == steps_of(lever.made.program)


def seconds(words):
    parts = re.fullmatch(r"(?:(\d+) min )?(\d+) s", words).groups("0")
    return 60 * int(parts[0]) + int(parts[1])


def test_each_view_is_true_to_the_scale_that_it_tells(sheet):
    """A length on paper is the length times the scale; the bar to check a print with is 50 mm."""
    given, figure = sheet.given, sheet.figure
    views = [axes for axes in figure.axes if axes.get_label() != "page"]
    told = [text.get_text() for text in sheet.axes["page"].texts if text.get_gid() == "scale"]
    assert len(told) == len(views) > 0
    for axes, words in zip(views, told, strict=True):
        paper, thing = map(int, re.search(r"(\d+):(\d+)", words).groups())
        for limits, place, size in (
            (axes.get_xlim(), axes.get_position().width, A4[0]),
            (axes.get_ylim(), axes.get_position().height, A4[1]),
        ):
            lengths = (limits[1] - limits[0]) * given.job.units.in_mm
            assert place * size == pytest.approx(lengths * paper / thing, rel=1e-9)
    bar = [patch.get_bbox() for patch in sheet.axes["page"].patches if patch.get_gid() == "bar"]
    assert bar[-1].x1 - bar[0].x0 == pytest.approx(50.0)


def test_the_blanks_are_as_wide_on_paper_as_the_scale_makes_them(sheet_of):
    """130 mm at 1:2, between the two lines that their width is taken from."""
    sheet = sheet_of("crank-lever", "side-one")
    axes = sheet.axes["plan"]
    xs = [line.get_xdata()[0] for line in axes.lines if line.get_gid() == "extension"]
    left, right = (axes.transData.transform((x, 0.0))[0] / sheet.figure.dpi * 25.4 for x in xs)
    assert right - left == pytest.approx(65.0, abs=1e-6)


@pytest.mark.parametrize(("job", "name"), [ALL[1], ALL[-1], ALL[-2], ALL[-4]])
def test_it_is_one_page_of_a4_with_all_its_words(sheet_of, tmp_path, job, name):
    sheet = sheet_of(job, name)
    page, told = saved(sheet, tmp_path)
    assert [float(v) for v in page.mediabox] == pytest.approx([0, 0, 595.28, 841.89], abs=0.01)
    for word in (sheet.given.job.title, sheet.given.offset_word, *(w.text for w in sheet.words)):
        assert "".join(word.split()) in told


def saved(sheet, folder):
    """The only page of the file, and its words without blanks."""
    path = folder / "sheet.pdf"
    save(sheet.figure, path, sheet_settings(sheet.given))
    (page,) = pypdf.PdfReader(path).pages
    return page, "".join(page.extract_text().split())


@pytest.mark.parametrize("title", [GREEK, UMLAUTS])
def test_letters_of_other_languages_are_printed(sheet_of, tmp_path, title):
    given = sheet_of("crank-lever", "side-one").given
    given = replace(given, job=replace(given.job, title=title))
    _, told = saved(Sheet(given), tmp_path)
    assert "".join(title.split()) in told
