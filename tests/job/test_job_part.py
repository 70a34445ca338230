"""What can be wrong with a part: outline, layers, the diameters of a turned one and its bore."""

import pytest

OUTLINE = 'outline = "lever.dxf"\n'
FOOT = '{ layer = "FOOT", bottom = 0, top = 3 }'
LAYERS = f'layers = [{FOOT}, {{ layer = "PLATE", bottom = 3, top = 12 }}]\n'
END = "{ dia = 12, len = 15 }"
MORE = "{ dia = 30, len = 6 }"


def turned(*pieces):
    return f"turned = [{', '.join(pieces)}]\n"


def bored(*pieces):
    return f"{turned(END, MORE)}bore = [{', '.join(pieces)}]\n"


def with_part(good, part):
    start, end = good.index("outline"), good.index("[[tool]]")
    return good[:start] + part + good[end:]


@pytest.mark.parametrize(
    "part",
    [
        OUTLINE + "thickness = 12\n",
        OUTLINE + LAYERS,
        # one layer at two heights, two layers at one
        OUTLINE + f"layers = [{FOOT}, {FOOT.replace('0', '3').replace('= 3 }', '= 6 }')}]\n",
        OUTLINE + f"layers = [{FOOT}, {FOOT.replace('FOOT', 'RIM')}]\n",
        turned(END, MORE),
        turned("{ dia = 12, len = 15, chamfer = 0.5, limits = [0.01, 0.01] }", MORE),
        turned("{ dia = 20, len = 12, thread = 'M20x2.5 6g' }"),
        turned("{ dia = 19.98, len = 12, thread = 'M20' }"),
        turned("{ dia = '1/2 in', len = 12, thread = '1/2-13 UNC 2A' }"),
        turned("{ dia = '1 in', len = 12, thread = '1-8 UNC' }"),
        turned("{ dia = 4.83, len = 12, thread = '10-32 UNF' }"),
        turned(END, "{ dia = 30, len = 6, round = 2.9 }", END),
        # a taper of the same diameter at both ends is a cylinder
        turned("{ dia = [20, 20], len = 12, limits = [0, -0.021] }"),
        bored("{ dia = 8, len = 21 }"),
        bored("{ dia = [11, 8], len = 15, chamfer = 0.4 }", "{ dia = 29, len = 6 }"),
        bored("{ dia = 10, len = 15, thread = 'M10x1.5 6H' }"),
        bored("{ dia = 8.5, len = 15, thread = 'M10x1.5 6H' }"),
        # several starts, and tapers
        turned("{ dia = 20, len = 12, thread = 'M20xPh5P2.5 6g' }"),
        turned("{ dia = [20.44, 21.38], len = 15, thread = 'R 1/2' }"),
        turned("{ dia = [20.72, 21.65], len = 15, thread = '1/2-14 NPT' }"),
        turned("{ dia = [20, 19], len = 9, thread = 'M20' }"),
        # a blind bore has one mouth to break
        bored("{ dia = 8, len = 5, chamfer = 3 }"),
        turned("{ dia = [30, 10], len = 20 }") + "bore = [{ dia = [20, 5], len = 20 }]\n",
    ],
)
def test_a_part_that_is_right_loads(jobs, good, part):
    assert jobs.load(with_part(good, part)).part


FAULTS = [
    # part, key path, what is wrong, how to mend it
    ("thickness = 12\n", "outline", "neither an outline nor a table of diameters", "turned = ["),
    (OUTLINE + turned(END), "turned", "not both", "leave one of the two out"),
    (OUTLINE + "turned = []\nthickness = 12\n", "turned", "is empty", "turned = [ { dia = ..."),
    (OUTLINE + "turned = 7\nthickness = 12\n", "turned", "a list of tables is due", "{ dia ="),
    (OUTLINE + "layers = []\nthickness = 12\n", "layers", "is empty", "layers = [ { layer = ..."),
    (OUTLINE, "thickness", "is missing", "or layers"),
    # layers
    (OUTLINE + LAYERS + 'layer = "FOOT"\n', "layer", "has layers already", "leave one"),
    (OUTLINE + LAYERS + "thickness = 12\n", "thickness", "how high the part is", "leave it out"),
    (OUTLINE + LAYERS.replace("top = 3", "top = 0.0"), "layers[1].top", "more than 0 mm", ""),
    (OUTLINE + LAYERS.replace("12", "3"), "layers[2].top", "no higher than", "more than bottom"),
    (
        OUTLINE + LAYERS.replace("= 0", "= 1"),
        "layers[1].bottom",
        "no layer begins at 0",
        "underside up",
    ),
    (OUTLINE + LAYERS.replace("= 0", "= -1"), "layers[1].bottom", "0 mm or more", ""),
    (OUTLINE + LAYERS.replace("m = 3", "m = 4"), "layers[2].bottom", "from 3 mm to 4 mm", "ends"),
    (
        OUTLINE + LAYERS.replace("PLATE", "foot").replace("m = 3", "m = 2"),
        "layers[2]",
        'part.layers[1] has the layer "foot" at these heights already',
        "don't overlap",
    ),
    (OUTLINE + LAYERS.replace('"FOOT"', '""'), "layers[1].layer", "is empty", "layer's name"),
    (OUTLINE + LAYERS.replace(", top = 3", ""), "layers[1].top", "is missing", "top = 3"),
    # what goes with what
    (turned(END) + "thickness = 15\n", "thickness", "here 15 mm", "leave it out"),
    (turned(END) + 'layer = "A"\n', "layer", "a turned part has no drawing", "leave it out"),
    (turned(END) + LAYERS, "layers", "a turned part has no drawing", "leave it out"),
    (turned(END) + 'drawing_units = "mm"\n', "drawing_units", "no drawing", "leave it out"),
    (OUTLINE + "thickness = 9\nbore = [{ dia = 3, len = 9 }]\n", "bore", "only a turned", "leave"),
    # diameters and lengths
    ("turned = []\n", "turned", "this list is empty", "turned = [ { dia = ..., len = ... } ]"),
    (bored(), "bore", "this list is empty", "bore = [ { dia = ..., len = ... } ]"),
    (turned("{ len = 15 }"), "turned[1].dia", "is missing", "dia = 30"),
    (turned("{ dia = 12 }"), "turned[1].len", "is missing", "len = 15"),
    (turned("{ dia = 0, len = 15 }"), "turned[1].dia", "more than 0 mm", "such as 30"),
    (turned("{ dia = 12, len = 0 }"), "turned[1].len", "more than 0 mm", ""),
    (turned("{ dia = [25, 0], len = 9 }"), "turned[1].dia[2]", "more than 0 mm", "such as 30"),
    (turned("{ dia = [25], len = 9 }"), "turned[1].dia", "a list of 2 lengths", "[25, 24]"),
    (turned("{ dia = true, len = 9 }"), "turned[1].dia", "a length is due", "start and end"),
    (turned("{ dia = 'x', len = 9 }"), "turned[1].dia", "no name 'x'", "[let]"),
    (turned(END, "7"), "turned[2]", "a table is due", ""),
    (turned("{ dia = 12, len = 15, width = 3 }"), "turned[1].width", "no key", "dia, len"),
    # corners
    (
        turned("{ dia = 12, len = 15, chamfer = 0.5, round = 0.5 }"),
        "turned[1].round",
        "chamfered already",
        "leave out round or chamfer",
    ),
    (turned("{ dia = 90, len = 15, chamfer = 7.5 }"), "turned[1].chamfer", "half its len", "small"),
    (turned("{ dia = 12, len = 3, round = 3 }", MORE), "turned[1].round", "its length, 3", "small"),
    (turned("{ dia = 12, len = 15, round = 6 }"), "turned[1].round", "the radius, 6 mm", "smaller"),
    (
        turned("{ dia = [12, 8], len = 15, chamfer = 4 }"),
        "turned[1].chamfer",
        "the radius, 4 mm",
        "smaller",
    ),
    (
        turned("{ dia = 29, len = 6 }", "{ dia = 30, len = 6, chamfer = 0.6 }"),
        "turned[2].chamfer",
        "only 0.5 mm high",
        "smaller",
    ),
    (
        turned(MORE, "{ dia = 12, len = 6, chamfer = 0.6 }", MORE),
        "turned[2].chamfer",
        "no outer corner",
        "leave it out",
    ),
    (turned("{ dia = 12, len = 15, chamfer = -1 }"), "turned[1].chamfer", "0 mm or more", ""),
    # limits
    (
        turned("{ dia = [9, 8], len = 9, limits = [0, 0] }"),
        "turned[1].limits",
        "a taper",
        "one dia",
    ),
    (
        turned("{ dia = 9, len = 9, limits = [-0.1, 0] }"),
        "turned[1].limits",
        "less than the lower",
        "upper one first",
    ),
    (turned("{ dia = 9, len = 9, limits = 0.1 }"), "turned[1].limits", "a list of 2", "-0.021"),
    # threads
    (
        turned("{ dia = [20, 19], len = 9, thread = 'M20 6g' }"),
        "turned[1].thread",
        "for a cylinder, not for a taper",
        "one dia",
    ),
    (
        turned("{ dia = 19.97, len = 9, thread = 'M20x2.5 6g' }"),
        "turned[1].dia",
        "diameter of M20x2.5 6g is 20 mm",
        "give it as dia",
    ),
    (
        turned("{ dia = 10, len = 9, thread = '10-32 UNF' }"),
        "turned[1].dia",
        "4.826 mm or 254 mm",
        "another thread",
    ),
    (
        turned("{ dia = 20, len = 9, thread = 'G 1/2' }"),
        "turned[1].thread",
        "no designation of a thread",
        "M20x2.5 6g",
    ),
    (
        turned("{ dia = 20.955, len = 9, thread = 'R 1/2' }"),
        "turned[1].dia",
        "tapers 1 in 16",
        "dia = [20.442, 21.005]",
    ),
    (
        turned("{ dia = [20.44, 20.94], len = 8, thread = 'R 1/2' }"),
        "turned[1].len",
        "up to its gauge plane",
        "longer",
    ),
    (
        turned("{ dia = [20.44, 21], len = 9, thread = 'Rc 1/2' }"),
        "turned[1].thread",
        "inside a bore",
        "of pipe threads R",
    ),
    (
        turned("{ dia = 20, len = 9, thread = 'M21' }"),
        "turned[1].thread",
        "no pitch in the coarse series",
        "M21x1.5",
    ),
    (
        turned("{ dia = 20, len = 9, thread = 'M20x2.5 6H' }"),
        "turned[1].thread",
        "inside a bore",
        "6g or 2A",
    ),
    (
        bored("{ dia = 10, len = 9, thread = 'M10x1.5 6g' }"),
        "bore[1].thread",
        "on the outside",
        "6H or 2B",
    ),
    (
        bored("{ dia = 9, len = 9, thread = 'M10x1.5 6H' }"),
        "bore[1].dia",
        "8.376 mm to 8.676 mm",
        "10 mm, the thread's own",
    ),
    (turned("{ dia = 20, len = 9, thread = 20 }"), "turned[1].thread", "a text is due", "M20x2.5"),
    # bore
    (bored("{ dia = 8, len = 21.1 }"), "bore", "21.1 mm long, and the part only 21 mm", "shorter"),
    (bored("{ dia = 12, len = 4 }"), "bore[1].dia", "as wide as the part is there, 12 mm", ""),
    (bored("{ dia = [8, 15], len = 15 }"), "bore[1].dia", "as wide", "smaller"),
    (bored("{ dia = 8, len = 14 }", "{ dia = 13, len = 7 }"), "bore[2].dia", "12 mm", "shorter"),
    (bored("{ dia = 8, len = 15, chamfer = 5 }"), "bore[1].chamfer", "the radius, 4 mm", ""),
    # the root of M12 6H is 12.09 across, END 12
    (
        bored("{ dia = 10.2, len = 9, thread = 'M12x1.75 6H' }"),
        "bore[1].dia",
        "12 mm, threads counted",
        "smaller",
    ),
    # and that of M20x2.5 6g 16.81
    (
        turned("{ dia = 20, len = 9, thread = 'M20' }") + "bore = [{ dia = 16.9, len = 9 }]\n",
        "bore[1].dia",
        "16.806 mm, threads counted",
        "smaller",
    ),
]


@pytest.mark.parametrize(("part", "key", "what", "mend"), FAULTS)
def test_a_fault_of_the_part_is_named_once_with_its_mend(jobs, good, part, key, what, mend):
    (fault,) = jobs.faults(with_part(good, part))
    assert fault.place.key == f"part.{key}"
    assert what in fault.what
    assert mend in fault.mend


PROFILE = 'profile = "spindle.dxf"\n'
HALF_FAULTS = [
    # part, key path, what is wrong, how to mend it
    (PROFILE + OUTLINE, "part.profile", "an outline or a half profile, not both", "leave one"),
    (PROFILE + turned(END), "part.profile", "diameters or a half profile, not both", "leave one"),
    (PROFILE + "thickness = 12\n", "part.thickness", "as its half profile is long", "leave it out"),
    (PROFILE + LAYERS, "part.layers", "has no heights", "as layer"),
    (PROFILE + 'end_a = "top"\n', "part.end_a", "not known", '"left" and "right"'),
    ('profile = "spindel.dxf"\n', "part.profile", "does not exist", "mean spindle.dxf?"),
    ('profile = "../spindle.dxf"\n', "part.profile", "outside the job's folder", "--outside"),
    (turned(END) + 'axis = "y = 0"\n', "part.axis", "table of diameters has no axis", "leave it"),
]


def for_the_lathe(lathe, part):
    start, end = lathe.index("turned = ["), lathe.index("[[tool]]")
    return lathe[:start] + part + lathe[end:]


@pytest.mark.parametrize(("part", "key", "what", "mend"), HALF_FAULTS)
def test_a_fault_of_a_half_profile_is_named(jobs, lathe, part, key, what, mend):
    (jobs.folder / "spindle.dxf").touch()
    lathe = lathe.replace("reach = 20\n", "").replace("reach = 21\n", "")
    found = jobs.faults(for_the_lathe(lathe, part))
    (fault,) = [fault for fault in found if fault.place.key.startswith("part.")]
    assert fault.place.key == key
    assert what in fault.what
    assert mend in fault.mend


def test_a_half_profile_and_all_that_may_be_said_of_it(jobs, lathe):
    """Rules that need the part's length wait for the drawing."""
    (jobs.folder / "spindle.dxf").touch()
    told = 'layer = "PART"\ndrawing_units = "inch"\naxis = "MIDDLE"\nend_a = "right"\n'
    bore = "bore = [{ dia = 8, len = 5, chamfer = 3 }]\n"
    text = for_the_lathe(lathe, PROFILE + told + bore).replace("reach = 20", "reach = 400")
    part = jobs.load(text).part
    assert part.profile == jobs.folder / "spindle.dxf"
    assert (part.layer, part.axis, part.end_a) == ("PART", "MIDDLE", "right")
    assert (part.turned, part.thickness, part.bore[0].start) == ((), 0.0, 8.0)
    part = jobs.load(for_the_lathe(lathe, PROFILE)).part
    assert (part.layer, part.axis, part.end_a) == (None, None, "left")


def test_jaws_are_cut_for_a_half_profile_too(jobs, good):
    """Standing on either end, or lying; with a bore."""
    (jobs.folder / "spindle.dxf").touch()
    part = PROFILE + "bore = [{ dia = 8, len = 21 }]\n"
    lying = with_part(good, part).replace("depth = 8 }", "depth = 8, lie = true }", 1)
    assert lying != with_part(good, part)
    job = jobs.load(lying)
    assert [one.hold.lie for one in job.setups] == [True, False]
    assert job.part.bore[0].start == 8


def test_an_outline_has_no_axis(jobs, good):
    text = with_part(good, OUTLINE + 'thickness = 12\nend_a = "right"\naxis = "y = 0"\n')
    found = jobs.faults(text)
    assert [fault.place.key for fault in found] == ["part.end_a", "part.axis"]
    assert {fault.mend for fault in found} == {"leave it out"}


def test_lengths_of_a_turned_part_are_said_in_the_units_of_the_job(jobs, good):
    text = with_part(good, turned("{ dia = 2, len = 1, chamfer = 0.6 }")).replace('"mm"', '"inch"')
    (fault,) = [f for f in jobs.faults(text) if f.place.key == "part.turned[1].chamfer"]
    assert (
        fault.what
        == "this must be less than half its length, as both its corners are broken, 0.5 in"
    )


def test_all_faults_of_a_turned_part_come_in_one_run(jobs, good):
    part = """\
thickness = 3
turned = [
  { dia = 12, len = 15, chamfer = 9 },
  { dia = [12, 10], len = 6, limits = [0, 1] },
  { dia = 20, len = 6, thread = "M18" },
]
bore = [{ dia = 8, len = 99 }]
"""
    assert [fault.place.key for fault in jobs.faults(with_part(good, part))] == [
        "part.thickness",
        "part.turned[1].chamfer",
        "part.turned[2].limits",
        "part.turned[2].limits",
        "part.turned[3].dia",
        "part.bore",
    ]
