"""What can be wrong in a job file: each fault alone, then many at once."""

import pytest

FAULTS = [
    # old text, new text, key path, what is wrong, how to mend it, the line it is placed on
    ('title = "Crank lever"\n', "", "title", "is missing", "title = ", None),
    ('"Crank lever"', '"  "', "title", "empty", "", None),
    ('"Crank lever"', '"a\\u0007b"', "title", "control sign", "one line", None),
    ('"Crank lever"', f'"{"a" * 501}"', "title", "501 characters", "shorter", None),
    ('"Crank lever"', "7", "title", "a number, but a text is due", "quotation marks", None),
    ('units = "mm"\n', "", "units", "is missing", 'units = "mm"', None),
    ('"mm"', '"cm"', "units", '"cm" is not known', '"mm" and "inch"', None),
    ('"mm"', '"feet"', "units", "is not known", '"mm" and "inch"', None),
    ("[part]", "[prat]", None, 'no key "prat"', "did you mean part?", "[prat]"),
    ('outline = "lever.dxf"\n', "", "part.outline", "neither", "the drawing's file", "[part]"),
    ("thickness = 12\n", "", "part.thickness", "is missing", "the part's height", "[part]"),
    ('outline = "lever.dxf"', "outline = 7", "part.outline", "a number, but", "quotation", None),
    ("outline =", "outlin =", "part.outlin", "no key", "did you mean outline?", "outlin ="),
    ("thickness = 12", "thickness = true", "part.thickness", "true or false", "12", None),
    ("thickness = 12", "thickness = [12]", "part.thickness", "a list, but a length", "", None),
    ("thickness = 12", "thickness = 2026-01-01", "part.thickness", "a date", "", None),
    ("thickness = 12", "thickness = 0", "part.thickness", "more than 0 mm", "height", None),
    ("thickness = 12", "thickness = nan", "part.thickness", "no number", "", None),
    ("thickness = 12", "thickness = inf", "part.thickness", "too large", "", None),
    ("thickness = 12", f"thickness = 1{'0' * 400}", "part.thickness", "too large", "", None),
    (
        "thickness = 12",
        'thickness = "12 deg"',
        "part.thickness",
        "an angle, but a length",
        "",
        None,
    ),
    ("gap = 6", 'gap = "1 /"', "let.gap", 'in "1 /", character 4', "shall follow", None),
    ("gap = 6", "gab = 6", None, "no name 'gap'", "did you mean gab?", "jaws = {"),
    ("gap = 6", 'gap = "-gap"', "let.gap", "gap -> gap", "a number", None),
    ("gap = 6", "gap = -6", None, "-6 mm, but it must be 0 mm or more", "", "jaws = {"),
    ("[let]\ngap = 6\n", "let = 6\n", None, "but a table is due", "let = {", None),
    ("number = 3", "", "tool[1].number", "is missing", "the tool's number", "[[tool]]"),
    ("number = 3", "number = 3.5", "tool[1].number", "3.5, but a whole number", "", None),
    ("number = 3", "number = 0", "tool[1].number", "must be 1 or more", "", None),
    ("number = 4", "number = 3", "tool[2].number", "tool[1] has the number 3", "own", None),
    ('kind = "end mill"', 'kind = "endmill"', "tool[1].kind", "not known", "end mill?", None),
    ("dia = 8", "dia = -8", "tool[1].dia", "must be more than 0 mm", "diameter", None),
    ("dia = 8", "dia = 200.1", "tool[1].dia", "must be 200 mm or less", "", None),
    ("dia = 8", "dia = 8\nflutes = 0", "tool[1].flutes", "1 or more", "", "flutes"),
    (
        "dia = 8",
        "diameter = 8",
        "tool[1].diameter",
        '"diameter" here',
        "did you mean dia?",
        "diameter",
    ),
    (
        "dia = 8",
        'dia = 8\ncentre_cutting = "true"',
        "tool[1].centre_cutting",
        "a text",
        "without quotation marks",
        "centre_cutting",
    ),
    (
        "dia = 8",
        "dia = 8\ncorner_radius = 1",
        "tool[1].corner_radius",
        "no corner_radius",
        "bull-nose",
        "corner_radius = 1",
    ),
    (
        "corner_radius = 0.5\n",
        "",
        "tool[2].corner_radius",
        "needs its corner_radius",
        "",
        "[[tool]]",
    ),
    (
        "corner_radius = 0.5",
        "corner_radius = 3",
        "tool[2].corner_radius",
        "less than",
        "ball",
        None,
    ),
    ("stickout = 30", "stickout = 10", "tool[1].stickout", "less than its flutes", "", None),
    ("dia = 8", "dia = 8\nrpm = 9000", "tool[1].rpm", "8000 rpm", "machine.max_rpm", "rpm"),
    ("dia = 8", "dia = 8\nfeed = 6000", "tool[1].feed", "5000 mm/min", "machine.max_feed", "feed"),
    (
        "dia = 8",
        "dia = 8\nrpm = 900\nsurface = 90",
        "tool[1].surface",
        "rpm tells the spindle speed already",
        "one of the two",
        "surface",
    ),
    (
        "dia = 8",
        "dia = 8\nfeed = 900\nchip = 0.05",
        "tool[1].chip",
        "feed tells the feed already",
        "one of the two",
        "chip",
    ),
    ("dia = 8", 'dia = 8\nfeed = "6 mm"', "tool[1].feed", "a length, but a feed", "mm/min", "feed"),
    ('name = "side-one"\n', "", "setup[1].name", "is missing", "", "[[setup]]"),
    ('"side-two"', '"Side-One"', "setup[2].name", "setup[1] has this name", "upper", None),
    ('"side-one"', '"side/one"', "setup[1].name", "can't hold '/'", "letters", None),
    ('"side-one"', '"../one"', "setup[1].name", "can't hold '/'", "letters", None),
    ('"side-one"', '"-one"', "setup[1].name", "can't begin", "", None),
    ('"side-one"', '".."', "setup[1].name", "can't begin", "", None),
    ('"side-one"', '"com1.x"', "setup[1].name", "device", "", None),
    ('"side-one"', f'"{"ä" * 51}"', "setup[1].name", "too long", "", None),
    ('"jaws"', '"outside"', "setup[1].cut", "not made yet by this version", '"jaws"', None),
    ('"jaws"', '"pocket"', "setup[1].cut", "not known", '"jaws"', None),
    ('post = "rs274ngc-mill"\nwork', "work", "setup[1].post", "is missing", "", "[[setup]]"),
    ("work_offset = 1", "work_offset = 10", "setup[1].work_offset", "9 or less", "", None),
    ("work_offset = 1", "clearance = 0", "setup[1].clearance", "more than 0", "", "clearance"),
    ("work_offset = 1", 'coolant = "air"', "setup[1].coolant", "not known", '"mist"', "coolant"),
    ("work_offset = 1", "depth = 8", "setup[1].depth", "no key", "in the table hold", "depth"),
    ("work_offset = 1", "together = true", "setup[1].together", "no key", "", "together"),
    ("width = 130, ", "", "setup[1].jaws.width", "is missing", "along the jaws", "jaws ="),
    ("height = 38", "height = 5", "setup[1].hold.depth", "through the blanks", "", "hold ="),
    ("width = 130", "width = 99999", "setup[1].jaws.width", "10000 mm or less", "", None),
    ("depth = 8", "depth = 0", "setup[1].hold.depth", "more than 0 mm", "jaw top", None),
    (
        "hold = { depth = 8 }",
        "hold = 8",
        "setup[1].hold",
        "a table is due",
        "{ depth = ... }",
        None,
    ),
    (
        "hold = { depth = 8 }\n",
        "",
        "setup[1].hold",
        'table "hold" is missing',
        "depth",
        "[[setup]]",
    ),
    ("{ depth = 8 }", "{ depth = 8, at = [1] }", "setup[1].hold.at", "2 lengths", "[0, 0]", None),
    ("{ depth = 8 }", "{ depth = 8, at = 1 }", "setup[1].hold.at", "a number, but", "", None),
    ("{ depth = 8 }", '{ depth = 8, at = [1, "x"] }', "setup[1].hold.at[2]", "'x'", "", None),
    (
        "{ depth = 8 }",
        "{ depth = 8, turn = 400 }",
        "setup[1].hold.turn",
        "360 deg or less",
        "",
        None,
    ),
    ("tool = 3", "tool = 9", "setup[1].rough.tool", "there is no tool 9", "3 and 4", None),
    ("tool = 3", "tool = 4", "setup[1].rough.tool", "is a bull-nose end mill", "end mill", None),
    ("stepover = 3", "stepover = 9", "setup[1].rough.stepover", "only 8 mm wide", "smaller", None),
    ("stepover = 3", "stepdown = 23", "setup[1].rough.stepdown", "22 mm long", "smaller", None),
    ("stepover = 3", "leave = -1", "setup[1].rough.leave", "0 mm or more", "", None),
    ("stepover = 3", "ramp = 0", "setup[1].rough.ramp", "more than 0 deg", "", None),
    ("stepover = 3", "feed = 9999", "setup[1].rough.feed", "5000 mm/min", "", None),
    ("rough = {", "finish = {", "setup[1].finish.stepover", "no key", "leave it out", None),
    ("top = -20", "top = 20", "setup[2].bolts[1].top", "must be 0 mm or less", "down", None),
    ("dia = 14", "dia = 0", "setup[2].bolts[1].dia", "more than 0", "", None),
    ("[{ at", "[3, { at", "setup[2].bolts[1]", "a number, but a table", "", None),
    (
        'gap = "gap" }\nhold',
        'gap = "gap", material = "teak" }\nhold',
        "setup[1].jaws.material",
        'no speeds and feeds for "teak"',
        "choose from aluminium 6061",
        "teak",
    ),
    (
        'gap = "gap" }\nhold',
        'gap = "gap", material = "alumium 6061" }\nhold',
        "setup[1].jaws.material",
        "no speeds",
        "did you mean aluminium 6061?",
        "alumium",
    ),
]


def spoiled(good, old, new):
    assert old in good
    return good.replace(old, new, 1)


@pytest.mark.parametrize(("old", "new", "key", "what", "mend", "on"), FAULTS)
def test_a_fault_is_named_with_its_place_and_its_mend(jobs, good, old, new, key, what, mend, on):
    text = spoiled(good, old, new)
    faults = jobs.faults(text)
    if key is not None:
        assert [fault.place.key for fault in faults] == [key]
    fault = next(fault for fault in faults if what in fault.what)
    assert mend in fault.mend
    assert fault.place.file == "lever.toml"
    if on is None:
        on = new.strip()
    if on:
        assert on in text.split("\n")[fault.place.line - 1]
    else:
        assert fault.place.line == 0


def test_faults_are_said_with_file_line_column_key_and_mend(jobs, good):
    (fault,) = jobs.faults(spoiled(good, "depth = 8", 'depth = "gap + hight"'))
    assert str(fault) == (
        'lever.toml:26:25: setup[1].hold.depth: in "gap + hight", character 7: '
        "there is no name 'hight' in [let]\n"
        "    to mend: add hight = ... to [let]"
    )


def test_a_drill_has_no_chip(jobs, good):
    drill = '[[tool]]\nnumber = 19\nkind = "drill"\ndia = 5\nchip = 0.05\n'
    (fault,) = jobs.faults(good + drill)
    assert fault.place.key.endswith(".chip")
    assert fault.what == "a drill is fed by the turn"


def test_limits_are_said_in_the_units_of_the_job(jobs, good):
    text = good.replace('units = "mm"', 'units = "inch"')
    faults = {fault.place.key: fault for fault in jobs.faults(text)}
    assert faults["tool[1].dia"].what == "this is 8 in, but it must be 7.87402 in or less"
    assert faults["tool[1].dia"].mend == 'write its diameter, such as "8 mm"'


def test_all_faults_of_a_file_come_in_one_run_in_its_order(jobs):
    faults = jobs.faults(
        """\
titel = "Lever"
units = "furlong"
[let]
a = "b"
b = "a"
c = "a + 1"
mm = 2
[part]
outline = "levr.dxf"
thickness = "c"
[[tool]]
number = 3
kind = "endmill"
dia = true
[[tool]]
number = 3
kind = "ball end mill"
[[setup]]
name = "a:b"
cut = "outside"
post = ""
jaws = { width = -130, height = "38 deg", thickness = "40 / 0", gap = "gab", moving = "up" }
hold = { depth = "8 mn", at = [1], flip = "true" }
bolts = [{ at = ["x", 2], dia = 0, top = 1 }]
rough = { tool = 7.5, leave = -1 }
coolant = 1
finish = { first = "ceiling" }
""",
    )
    found = [(fault.place.line, fault.place.key) for fault in faults]
    assert found == [
        (1, "titel"),
        (2, "units"),
        (4, "let.a"),
        (7, "let.mm"),
        (9, "part.outline"),
        (13, "tool[1].kind"),
        (14, "tool[1].dia"),
        (15, "tool[2].dia"),
        (16, "tool[2].number"),
        (19, "setup[1].name"),
        (20, "setup[1].cut"),
        (21, "setup[1].post"),
        (22, "setup[1].jaws.width"),
        (22, "setup[1].jaws.height"),
        (22, "setup[1].jaws.thickness"),
        (22, "setup[1].jaws.gap"),
        (22, "setup[1].jaws.moving"),
        (23, "setup[1].hold.depth"),
        (23, "setup[1].hold.at"),
        (23, "setup[1].hold.flip"),
        (24, "setup[1].bolts[1].at[1]"),
        (24, "setup[1].bolts[1].dia"),
        (24, "setup[1].bolts[1].top"),
        (25, "setup[1].rough.tool"),
        (25, "setup[1].rough.leave"),
        (26, "setup[1].coolant"),
        (27, "setup[1].finish.first"),
    ]


def test_an_empty_file_lacks_all_that_is_needed(jobs):
    assert [fault.place.key for fault in jobs.faults("")] == [
        "title",
        "units",
        "part",
        "tool",
        "setup",
    ]


@pytest.mark.parametrize("name", ["tool", "setup"])
def test_an_empty_list_of_what_is_needed_is_a_fault(jobs, good, name):
    text = f"{name} = []\n" + "\n".join(
        part for part in good.replace("\n[", "\n\x00[").split("\x00") if f"[{name}" not in part
    )
    assert name in [fault.place.key for fault in jobs.faults(text)]


@pytest.mark.parametrize("kind", ["ball end mill", "drill"])
def test_every_kind_of_cutter_loads_but_jaws_need_an_end_mill(jobs, good, kind):
    more = f'[[tool]]\nnumber = 5\nkind = "{kind}"\ndia = 3\n[[setup]]\nname = "side-one"'
    job = jobs.load(good.replace('[[setup]]\nname = "side-one"', more))
    assert job.tools[2].kind == kind
    (fault,) = [
        fault
        for fault in jobs.faults(
            good.replace('"end mill"', f'"{kind}"').replace("rough = { tool = 3, ", "rough = { ")
        )
        if fault.place.key == "tool"
    ]
    assert "none of the tools is an end mill" in fault.what


def test_single_and_double_brackets_are_told_apart(jobs, good):
    (fault,) = [f for f in jobs.faults(good.replace("[part]", "[[part]]")) if f.place.key == "part"]
    assert "single brackets" in fault.mend
    one = good[: good.index("[[tool]]\nnumber = 4")].replace("[[tool]]", "[tool]")
    (fault,) = [f for f in jobs.faults(one) if f.place.key == "tool"]
    assert "[[tool]] in double brackets" in fault.mend


def test_a_material_without_data_will_do_if_every_tool_has_its_speeds(jobs, good):
    text = good.replace('gap = "gap" }\nhold', 'gap = "gap", material = "teak" }\nhold')
    text = text.replace("number = 3", "number = 3\nrpm = 5000\nfeed = 500")
    assert jobs.faults(text)
    text = text.replace("number = 4", "number = 4\nrpm = 5000\nfeed = 500")
    assert jobs.load(text).setups[0].jaws.material == "teak"


def test_a_key_spelled_wrong_is_one_fault_and_its_value_is_looked_at(jobs, good):
    first, second = jobs.faults(good.replace("dia = 8", "diameter = -8"))
    assert first.place.key == second.place.key == "tool[1].diameter"
    assert "did you mean dia?" in first.mend
    assert "more than 0 mm" in second.what
