"""Readings that cannot be, each with a piece of the one line that says why."""

from __future__ import annotations

from bad_surveys import GOOD, Bad

READ = """
[drums."large tom".round.batter]
across = "353, 353.4, 352.8, 353.1 mm"
overlap_read = false

[drums."large tom".round.resonant]
dial = "0, 0.12, -0.05, 0.3 mm"
zero = "177 mm"

[drums."large tom".edges.batter]
gaps = "0, 0.1, 0.25, 0 mm"
profile = { cut = "round-over", apex = "2 mm", inner = "45 deg", outer = "4 mm" }

[drums."large tom".edges.resonant]
heights = "0, -0.1, 0.25, 0 mm"

[drums."large tom".fit.batter]
collar = "355 mm"
rim = "362 mm"
hoop = "364 mm"

[[drums."large tom".threads]]
of = "batter rods"
head = "batter"
outside = "5.44 mm"
over = "10.6 mm"
threads = 10
flanks = "60 deg"

[[drums."large tom".threads]]
of = "lug screws"
outside = "3.9 mm"
pitch = "0.7 mm"

[drums."large tom".air]
temperature = "18 C"
humidity = "55 %"

[[drums."large tom".beds]]
along = "0 deg"
wide = "80 mm"
flat = "40 mm"

[drums."large tom".finish_plan]
kind = "new wrap"
wrap = "blue ripple"
true_batter = "flat"
truing = { least = "most", fresh = "0.2 mm" }

[wraps."blue ripple"]
thickness = "0.5 mm"
length = "1500 mm"
width = "600 mm"
overlap = "25 mm"
price = "38 GBP"
glue = "contact"
brushing = "20 min"
offcuts = [{ name = "a", length = "960 mm", width = "180 mm" }]
"""
GOOD_READ = GOOD.replace('wall = "5.5 mm"', 'wall = "5.5 mm"\nwood = "hard maple"') + READ


def bad(name: str, old: str, new: str, says: str) -> Bad:
    """Return the good file with readings with one place spoilt."""
    assert GOOD_READ.count(old) == 1, f"{name}: {old!r} does not stand once in the good file"
    return Bad(id=name, content=GOOD_READ.replace(old, new, 1).encode(), says=says)


ROWS = (
    bad("gaps two ways", '"0, 0.1, 0.25, 0 mm"', '"0,1, 0,25, 0 mm"', "each comma may be"),
    bad("gaps no unit", '"0, 0.1, 0.25, 0 mm"', '"0, 0.1, 0.25, 0"', "no unit at the end"),
    bad("gaps as numbers", '"0, 0.1, 0.25, 0 mm"', "[0, 0.1, 0.25, 0]", "reading 1: a bare number"),
    bad("gaps as a number", '"0, 0.1, 0.25, 0 mm"', "0.25", "a row of readings belongs here"),
    bad("a station left out", '"0, 0.1, 0.25, 0 mm"', '"0, , 0.25, 0 mm"', "reading 2 is missing"),
    bad(
        "fractions run together",
        'across = "353, 353.4, 352.8, 353.1 mm"',
        'across = "13 7/8 13 29/32 in"',
        "a comma between the readings",
    ),
    bad("three gaps", '"0, 0.1, 0.25, 0 mm"', '"0, 0.1, 0.25 mm"', "too few stations"),
    bad(
        "one diameter",
        'across = "353, 353.4, 352.8, 353.1 mm"',
        'across = "353 mm"',
        "too few stations",
    ),
    bad(
        "three on the dial",
        '"0, 0.12, -0.05, 0.3 mm"',
        '"0, 0.12, -0.05 mm"',
        "too few stations",
    ),
)

ROUND = (
    bad(
        "diameter of a girth",
        "353, 353.4, 352.8",
        "353, 1110, 352.8",
        "across[2]: impossible as the diameter",
    ),
    bad("diameter below zero", "353, 353.4, 352.8", "353, -353.4, 352.8", "reading 2: a length"),
    bad("dial without zero", 'zero = "177 mm"\n', "", "where the dial says 0?"),
    bad("zero without dial", 'dial = "0, 0.12, -0.05, 0.3 mm"\n', "", "nothing that the dial said"),
    bad(
        "dial and radii",
        'zero = "177 mm"',
        'zero = "177 mm"\nradii = "177, 177, 177, 177 mm"',
        "dial and radii are both written",
    ),
    bad(
        "dial in the other unit", "0.12, -0.05, 0.3 mm", "0.12, -0.05, 3 in", "no dial goes so far"
    ),
    bad("zero as a diameter", 'zero = "177 mm"', 'zero = "354 mm"', "no radii of this drum"),
    bad("zero in inches", 'zero = "177 mm"', 'zero = "7 mm"', "no radii of this drum"),
    bad(
        "overlap of no diameters",
        'across = "353, 353.4, 352.8, 353.1 mm"\noverlap_read = false',
        "overlap_read = true",
        "the overlap was read, but no diameters",
    ),
    bad("overlap in words", "overlap_read = false", 'overlap_read = "no"', "true or false"),
    bad(
        "a coarse dial",
        'zero = "177 mm"',
        'zero = "177 mm"\nfinest = "5 mm"',
        "too coarse a step",
    ),
    bad(
        "finest of two instruments",
        "overlap_read = false",
        'radii = "176, 177, 176, 177 mm"\nfinest = "0.1 mm"',
        "the step of which instrument",
    ),
    bad(
        "finest of nothing",
        'dial = "0, 0.12, -0.05, 0.3 mm"\nzero = "177 mm"',
        'finest = "0.01 mm"',
        "could belong to",
    ),
    bad("from nowhere", 'zero = "177 mm"', 'zero = "177 mm"\nfrom = "lug 9"', "no batter lug 9"),
    bad("round of another end", "round.resonant]", "round.bottom]", "a name that is not known"),
)

EDGES = (
    bad("a gap below zero", "0, 0.1, 0.25, 0 mm", "0, -0.1, 0.25, 0 mm", "below zero"),
    bad("nothing touches", "0, 0.1, 0.25, 0 mm", "0.1, 0.1, 0.25, 0.05 mm", "nothing touches"),
    bad("a gap of a hand", "0, 0.1, 0.25, 0 mm", "0, 0.1, 25, 0 mm", "no edge lies so far off"),
    bad("a height of a hand", "0, -0.1, 0.25, 0 mm", "0, -0.1, 25, 0 mm", "reading 3: no edge"),
    bad(
        "gaps and heights",
        'heights = "0, -0.1, 0.25, 0 mm"',
        'heights = "0, -0.1, 0.25, 0 mm"\ngaps = "0, 0, 0, 0 mm"',
        "gaps and heights are both written",
    ),
    bad(
        "an edge that is not there",
        'heights = "0, -0.1, 0.25, 0 mm"',
        'heights = "0, -0.1, 0.25, 0 mm"\nthere = false',
        "readings of an edge that is not there",
    ),
    bad(
        "an edge not surveyed",
        'heights = "0, -0.1, 0.25, 0 mm"',
        'heights = "0, -0.1, 0.25, 0 mm"\nsurveyed = false',
        "said not to be surveyed",
    ),
    bad("from of nothing", 'heights = "0, -0.1, 0.25, 0 mm"', 'from = "lug 1"', "could belong to"),
    bad("a coarse feeler", 'gaps = "', 'finest = "1 in"\ngaps = "', "too coarse a step"),
    bad("a cut unknown", 'cut = "round-over"', 'cut = "roundover"', 'Did you mean "round-over"?'),
    bad("no cut", 'cut = "round-over", ', "", 'cut = "'),
    bad("apex in the air", 'apex = "2 mm"', 'apex = "9 mm"', "than the wall is thick"),
    bad("inner cut upright", 'inner = "45 deg"', 'inner = "90 deg"', "no inner cut slopes so"),
    bad("outer of a barrel", 'outer = "4 mm"', 'outer = "4 in"', "larger than this wall can carry"),
    bad("flat wider than the bed", 'flat = "40 mm"', 'flat = "90 mm"', "not a part of how wide"),
)

HEADS = (
    bad("collar an inch off", 'collar = "355 mm"', 'collar = "330 mm"', "another size of drum"),
    bad("collar in the other unit", 'collar = "355 mm"', 'collar = "14 mm"', "another size"),
    bad("rim inside the collar", 'rim = "362 mm"', 'rim = "354 mm"', "a rim no larger than"),
    bad("hoop of a bass drum", 'hoop = "364 mm"', 'hoop = "560 mm"', "that hoop is of another"),
    bad("no collar", 'collar = "355 mm"\n', "", "collar"),
    bad("a coarse caliper", 'rim = "362 mm"', 'rim = "362 mm"\nfinest = "5 mm"', "too coarse"),
)

THREADS = (
    bad("a rod of a finger", '"5.44 mm"', '"54.4 mm"', "impossible as the outside"),
    bad("ten threads in a hair", '"10.6 mm"', '"1.06 mm"', "10 threads so long"),
    bad("ten threads in a hand", '"10.6 mm"', '"106 mm"', "10 threads so long"),
    bad("pitch twice over", "threads = 10", 'threads = 10\npitch = "24 tpi"', "twice over"),
    bad("threads of no length", 'over = "10.6 mm"\n', "", "how long are the 10 threads?"),
    bad("pitch without unit", 'pitch = "0.7 mm"', 'pitch = "24"', 'wanted "24 tpi"'),
    bad("pitch of a corkscrew", 'pitch = "0.7 mm"', 'pitch = "2 mm"', "has that pitch"),
    bad("flanks of a wedge", 'flanks = "60 deg"', 'flanks = "6 deg"', "no screw has such flanks"),
    bad("no threads", "threads = 10", "threads = 0", "impossible as a number of threads"),
    bad(
        "threads of both heads", '"batter rods"\nhead = "batter"', '"a"\nhead = "both"', '"batter"'
    ),
    bad("threads of nothing", 'of = "batter rods"\n', "", "of"),
    bad("threads by rule", 'flanks = "60 deg"', 'finest = "1 mm"', "to tell threads apart"),
)

WOOD_AND_AIR = (
    bad("air of a sauna", '"18 C"', '"64 C"', "no bench is that warm"),
    bad("air without unit", '"18 C"', '"18"', '"18 C" or "18 F"'),
    bad("air wetter than rain", '"55 %"', '"155 %"', "outside 0 to 100"),
    bad("humidity as a share", '"55 %"', '"0.55 %"', '"55 %"'),
    bad("humidity as a number", '"55 %"', "0.55", "a bare number"),
    bad("half the air", 'humidity = "55 %"\n', "", "humidity"),
    bad("a wood unknown", '"hard maple"', '"hard mable"', 'Did you mean "hard maple"?'),
    bad("a wood of steel", '"hard maple"', '"beech"\nmaterial = "metal"', "a shell of metal"),
)

WRAPS = (
    bad("a wrap unknown", 'wrap = "blue ripple"', 'wrap = "blu ripple"', 'mean "blue ripple"?'),
    bad(
        "a wrap that stays",
        'kind = "new wrap"\nwrap',
        'kind = "stays"\nwrap',
        "a wrap, but the finish stays",
    ),
    bad(
        "a wrap of paint",
        'kind = "new wrap"\nwrap',
        'kind = "paint"\nwrap',
        "a wrap, but what is planned is paint",
    ),
    bad(
        "thickness twice over",
        'wrap = "blue ripple"',
        'wrap = "blue ripple"\nthickness = "0.5 mm"',
        "its thickness is written too",
    ),
    bad(
        "wrap of a board",
        '\nthickness = "0.5 mm"\nlength',
        '\nthickness = "0.5 in"\nlength',
        "of a wrap",
    ),
    bad("sheet of a stamp", 'width = "600 mm"', 'width = "60 mm"', "the width of a sheet"),
    bad("an overlap of a sheet", 'overlap = "25 mm"', 'overlap = "700 mm"', "as an overlap"),
    bad(
        "sheet narrower than its overlap",
        'width = "600 mm"\noverlap = "25 mm"',
        'width = "120 mm"\noverlap = "130 mm"',
        "narrower than its own overlap",
    ),
    bad("a glue unknown", 'glue = "contact"', 'glue = "contract"', 'Did you mean "contact"?'),
    bad("brushing at no pace", '"20 min"', '"0 min"', "the time for brushing"),
    bad("offcut without width", ', width = "180 mm"', "", "width"),
    bad(
        "two offcuts of one name",
        'offcuts = [{ name = "a"',
        'offcuts = [{ name = "A", length = "9 in", width = "7 in" }, { name = "a"',
        "two offcuts of one name",
    ),
    bad("a sheet in another money", '"38 GBP"', '"38 EUR"', "a second currency"),
    bad("a sheet for nothing", '"38 GBP"', '"-38 GBP"', "amount"),
    bad("half a sheet", 'overlap = "25 mm"', "sheets = 1.5", "not a number of sheets"),
    bad(
        "two wraps of one name",
        '[wraps."blue ripple"]',
        '[wraps."Blue Ripple"]\nthickness = "1 mm"\nlength = "1 m"\nwidth = "1 m"\n'
        '[wraps."blue ripple"]',
        "two wraps of one name",
    ),
)

TRUING = (
    bad(
        "flat without readings",
        'gaps = "0, 0.1, 0.25, 0 mm"\n',
        "",
        "an edge to be trued by its readings",
    ),
    bad("nothing trued so", 'true_batter = "flat"', 'true_batter = "1 mm"', "no edge is trued so"),
    bad("parallel to what", 'least = "most"', "parallel = true", "how the edges lie to each other"),
    bad("least of all", 'least = "most"', 'least = "wood"', '"most" or "total"'),
    bad("fresh as a plank", 'fresh = "0.2 mm"', 'fresh = "2 in"', "to reach fresh wood"),
    bad("trued fat", 'true_batter = "flat"', 'true_batter = "fat"', 'or "flat"'),
    bad("trued by a depth", 'true_batter = "flat"', 'true_batter = "254 mm"', "truing takes off"),
)

BAD_READINGS: tuple[Bad, ...] = (
    *ROWS,
    *ROUND,
    *EDGES,
    *HEADS,
    *THREADS,
    *WOOD_AND_AIR,
    *WRAPS,
    *TRUING,
)
