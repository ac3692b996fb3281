"""Survey files that cannot be used, each with a piece of the one line that says why."""

from __future__ import annotations

from dataclasses import dataclass

GOOD = """\
format = 1

[job]
number = "24-017"
client = "Orla Finch"
date = 2026-11-02
units = "mm"

[rules]
web = "6 mm"
plug_factor = 2.5

[prices]
hour = "30.00 GBP"

[minutes]
"drill a hole" = "6 min"

[stock]
"Tarn lug" = 12

[[match]]
drums = ["small tom", "large tom"]

[[approval]]
drum = "small tom"
who = "Orla Finch"
when = 2026-11-03
how = "signed at the bench"
covers = "7KQ2"

[drums."small tom"]
kind = "tom"
size = "12 in dia x 8 in deep"
heads = 1
circumference = "951 mm"
wall = "5 mm"
depth = "203 mm"
finish = { kind = "wrap", thickness = "0.5 mm" }
seam = { from = "350 deg", to = "354 deg" }

[[drums."small tom".rows]]
head = "batter"
lugs = 6
fitting = "Tarn lug"
first = "30 deg"
near = ["38 mm", "80 mm"]
hole = "6 mm"
exceptions = [{ lug = 3, right = "-2 mm" }]

[[drums."small tom".fittings]]
label = "bracket"
fitting = "Tarn bracket"
along = "lug 2 + 12 mm"
holes = [{ number = 40, near = "113 mm", dia = "7 mm" }]

[[drums."small tom".holes]]
along = "345 deg"
near = "95 mm"
dia = "12.7 mm"
purpose = "vent"

[[drums."small tom".marks]]
kind = "shadow"
along = "60 deg"
near = "100 mm"
outline = { shape = "rounded", width = "50 mm", height = "38 mm", corner = "4 mm" }

[[drums."small tom".wish]]
want = "second head"

[drums."small tom".finish_plan]
kind = "stays"
true_resonant = "1 mm"

[drums."large tom"]
diameters = ["353 mm"]
depth = "254 mm"
wall = "5.5 mm"

[[drums."large tom".rows]]
head = "batter"
lugs = 8
fitting = "Tarn lug"
first = "0 deg"
down = ["41 mm"]
hole = "6 mm"
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bad:
    """One file that is refused: its bytes, and what the one line must hold."""

    id: str
    content: bytes
    says: str


def bad(name: str, old: str, new: str, says: str) -> Bad:
    """Return the good file with one place spoilt."""
    assert GOOD.count(old) >= 1, f"{name}: {old!r} does not stand in the good file"
    return Bad(id=name, content=GOOD.replace(old, new, 1).encode(), says=says)


def whole(name: str, content: str | bytes, says: str) -> Bad:
    """Return a file that is bad as a whole."""
    return Bad(
        id=name, content=content.encode() if isinstance(content, str) else content, says=says
    )


NOT_A_FILE = (
    whole("empty", "", "the file is empty"),
    whole("only spaces", " \n\t\n", "the file is empty"),
    whole("only a remark", "# nothing yet\n", "format = 1 at the top of the file"),
    whole("huge", "# " + "x" * 2_000_001, "too large"),
    whole(
        "not UTF-8", b'format = 1\n[job]\nnumber = "caf\xe9"\n', "line 3: not UTF-8 text at byte"
    ),
    whole("UTF-16", "format = 1".encode("utf-16"), "saved as UTF-16"),
    whole("NUL", b"format = 1\n\0", "line 2: a NUL character"),
    whole("a photograph", b"\xff\xd8\xff\xe0\x00\x10JFIF", "a NUL character"),
    whole("no end of lists", "x = " + "[" * 5000, "nested without end"),
    whole("deep list", "x = " + "[" * 60 + "]" * 60, "nested without end"),
    whole("deep names", ".".join("a" * 900) + " = 1", "nested without end"),
    whole("names of a whole page", ".".join("a" * 300_000) + " = 1", "nested without end"),
    whole("endless digits", "format = " + "9" * 6000, "more digits"),
    whole("a long hexadecimal", "format = 0x" + "f" * 9000, "format"),
    whole("format only", "format = 1\n", '[job] with number = "24-017"'),
)

NOT_TOML = (
    bad("no quotes", 'wall = "5 mm"', "wall = 5 mm", 'text in quotes, such as wall = "5 mm"'),
    bad("word without quotes", 'kind = "tom"', "kind = tom", 'such as kind = "tom"'),
    bad("no equals sign", 'depth = "203 mm"', 'depth "203 mm"', "no = after the name"),
    bad("text not closed", 'wall = "5 mm"', 'wall = "5 mm', "not TOML"),
    bad(
        "inch sign in double quotes",
        '"12 in dia x 8 in deep"',
        '"12" dia x 8" deep"',
        "write in for inches",
    ),
    bad("list not closed", '["38 mm", "80 mm"]', '["38 mm", "80 mm"', "not TOML"),
    bad("key twice", 'wall = "5 mm"\n', 'wall = "5 mm"\nwall = "6 mm"\n', "twice"),
    bad(
        "table twice",
        '[drums."large tom"]\n',
        '[drums."small tom"]\n',
        "the same table is opened twice",
    ),
    bad("no such day in TOML", "date = 2026-11-02", "date = 2026-13-45", "there is no such day"),
    bad("rows as one table", '[[drums."large tom".rows]]', '[drums."large tom".rows]', "a list"),
)

LENGTHS = (
    bad("no unit", 'depth = "203 mm"', 'depth = "203"', '"203 mm" or "203 in"'),
    bad("bare number", 'depth = "203 mm"', "depth = 203", 'such as "203 mm"'),
    bad("NaN", 'depth = "203 mm"', "depth = nan", "depth: "),
    bad("infinite", 'depth = "203 mm"', "depth = inf", "depth: "),
    bad(
        "NaN in words", 'depth = "203 mm"', 'depth = "nan mm"', "not a number that can be measured"
    ),
    bad("infinite wall", 'wall = "5 mm"', 'wall = "inf mm"', "not a number that can be measured"),
    bad("negative depth", 'depth = "203 mm"', 'depth = "-203 mm"', "below zero"),
    bad("depth of nothing", 'depth = "203 mm"', 'depth = "0 mm"', "nothing"),
    bad("depth in metres", 'depth = "203 mm"', 'depth = "203 m"', "10 m"),
    bad("depth of a thimble", 'depth = "203 mm"', 'depth = "20.3 mm"', "impossible as the depth"),
    bad("wrong unit", 'depth = "203 mm"', 'depth = "203 kg"', "not a unit of length"),
    bad("thousand or decimal", 'depth = "203 mm"', 'depth = "1,203 mm"', "comma"),
    bad("space lost", 'depth = "203 mm"', 'depth = "81/2 in"', '"8 1/2 in"'),
    bad("two sizes", 'depth = "203 mm"', 'depth = "203 x 5 mm"', "two sizes"),
    bad("a whole letter", 'depth = "203 mm"', f'depth = "{"9" * 300} mm"', "too long"),
    bad("a date for a depth", 'depth = "203 mm"', "depth = 2026-11-02", "one text belongs here"),
    bad("true for a wall", 'wall = "5 mm"', "wall = true", "found true"),
    bad("list for a wall", 'wall = "5 mm"', 'wall = ["5 mm"]', "a list of 1"),
    bad("table for a wall", 'wall = "5 mm"', "wall = { mm = 5 }", "a table of 1"),
    bad("wall of the radius", 'wall = "5 mm"', 'wall = "50 mm"', "the wall is thicker"),
    bad("wall of a house", 'wall = "5 mm"', 'wall = "500 mm"', "impossible as the wall"),
    bad("girth in cm", '"951 mm"', '"95.1 mm"', "impossible as the circumference"),
    bad("girth of a tank", '"951 mm"', '"951 cm"', "impossible as the circumference"),
    bad(
        "girth at a place unknown",
        'circumference = "951 mm"',
        'circumference = { batter = "951 mm", reso = "951 mm" }',
        "circumference.reso",
    ),
    bad("no girth at all", 'circumference = "951 mm"\n', "", "how far round is the shell?"),
    bad("diameter in metres", '["353 mm"]', '["3.53 m"]', "impossible as the diameter"),
    bad("no diameters", '["353 mm"]', "[]", "too few"),
    bad("order doubt", '"12 in dia x 8 in deep"', '"14x5.5"', "order differs"),
    bad(
        "size without units",
        '"12 in dia x 8 in deep"',
        '"12 dia x 8 deep"',
        "a unit on each number",
    ),
    bad("thick finish", 'thickness = "0.5 mm"', 'thickness = "0.5 in"', "thickness of a finish"),
)

HOLES = (
    bad("hole outside", 'near = "95 mm"', 'near = "295 mm"', "outside the shell"),
    bad("row outside", '["38 mm", "80 mm"]', '["38 mm", "380 mm"]', "near[2]: outside the shell"),
    bad("negative height", 'near = "95 mm"', 'near = "-5 mm"', "below zero"),
    bad("no diameter", 'dia = "12.7 mm"\n', "", "how large is the hole?"),
    bad("no height", 'near = "95 mm"\n', "", "how high is it?"),
    bad("no place along", 'along = "345 deg"\n', "", "where along is it?"),
    bad("the centre read", 'near = "95 mm"', 'down = "101 mm"', "Nobody reads a hole's centre"),
    bad("far before near", 'near = "95 mm"', 'near = "95 mm"\nfar = "90 mm"', "not farther"),
    bad("sides disagree", 'near = "95 mm"', 'near = "95 mm"\nfar = "115 mm"', "do not agree"),
    bad("diameter of a door", 'dia = "12.7 mm"', 'dia = "12.7 in"', "impossible for a hole"),
    bad("size of no slot", 'dia = "12.7 mm"', 'dia = "12.7 mm"\nlong = "20 mm"', "no such size"),
    bad("slot with a dia", 'dia = "12.7 mm"', 'dia = "12.7 mm"\nshape = "slot"', "no one diameter"),
    bad(
        "slot upside down",
        'dia = "12.7 mm"',
        'shape = "slot"\nwide = "9 mm"\nlong = "6 mm"',
        "wider than it is long",
    ),
    bad("a shape unknown", 'dia = "12.7 mm"', 'dia = "12.7 mm"\nshape = "rund"', '"round"'),
    bad(
        "duplicate numbers",
        'along = "345 deg"',
        'along = "345 deg"\nnumber = 40',
        "two holes of one",
    ),
    bad("number of nothing", "number = 40", "number = 0", "impossible as a hole's number"),
    bad("number in quotes", "number = 40", 'number = "40"', "not a hole's number"),
    bad("origin unknown", 'purpose = "vent"', 'origin = "factroy"', 'Did you mean "factory"?'),
    bad("place without unit", 'along = "345 deg"', 'along = "345"', '"345 deg"'),
    bad("more than a turn", 'along = "345 deg"', 'along = "365 deg"', "more than a full turn"),
    bad("beyond the tape", 'along = "345 deg"', 'along = "1200 mm"', "more than once round"),
    bad("no such lug", '"lug 2 + 12 mm"', '"lug 9 + 12 mm"', "there is no batter lug 9"),
    bad("no such row", '"lug 2 + 12 mm"', '"resonant lug 2"', "no resonant row"),
    bad("no such hole", '"lug 2 + 12 mm"', '"hole 77"', "there is no hole 77"),
    bad("no such badge", '"lug 2 + 12 mm"', '"badge + 12 mm"', "no badge is written down"),
    bad("told from itself", '"lug 2 + 12 mm"', '"bracket + 12 mm"', "itself told from here"),
    bad("nothing of that name", '"lug 2 + 12 mm"', '"brakcet + 5 mm"', "brakcet"),
    bad("two labels", 'label = "bracket"', 'label = "batter lug 3"', "two fittings of one label"),
)

ROWS = (
    bad("no lugs", "lugs = 6", "lugs = 0", "impossible as a number of lugs"),
    bad("half a lug", "lugs = 6", "lugs = 6.5", "not a number of lugs"),
    bad("lugs in words", "lugs = 6", 'lugs = "six"', '"8 lugs"'),
    bad("no first lug", 'first = "30 deg"\n', "", "where along is lug 1?"),
    bad("no heights", 'near = ["38 mm", "80 mm"]\n', "", "how high are the lug's holes?"),
    bad("heights in one word", '["38 mm", "80 mm"]', '"38 mm"', "a list in [ ]"),
    bad("lug hole in inches", 'hole = "6 mm"', 'hole = "6 in"', "the hole of a lug's screw"),
    bad("heights twice over", 'hole = "6 mm"', 'hole = "6 mm"\ndown = ["41 mm"]', "both written"),
    bad(
        "five places for six lugs",
        'first = "30 deg"',
        'along = ["0 deg", "60 deg", "120 deg", "180 deg", "240 deg"]',
        "5 places for 6 lugs",
    ),
    bad(
        "lugs out of order",
        'first = "30 deg"',
        'along = ["0 deg", "120 deg", "60 deg", "180 deg", "240 deg", "300 deg"]',
        "do not follow each other",
    ),
    bad(
        "five gaps for six lugs",
        'first = "30 deg"',
        'first = "30 deg"\ngaps = ["158 mm", "158 mm", "158 mm", "158 mm", "158 mm"]',
        "5 gaps between 6 lugs",
    ),
    bad(
        "three holes, two sizes", 'hole = "6 mm"', 'hole = ["6 mm", "6 mm", "6 mm"]', "3 diameters"
    ),
    bad("exception of no lug", "lug = 3,", "lug = 7,", "there is no lug 7"),
    bad(
        "two exceptions",
        '{ lug = 3, right = "-2 mm" }',
        '{ lug = 3, right = "-2 mm" }, { lug = 3, missing = true }',
        "excepted twice",
    ),
    bad("lug off by half the shell", 'right = "-2 mm"', 'right = "-2 m"', "half way round"),
    bad("missing in words", 'right = "-2 mm"', 'missing = "yes"', "true or false"),
    bad("head unknown", 'head = "batter"', 'head = "battr"', 'Did you mean "batter"?'),
)

NAMES = (
    bad("no format", "format = 1\n", "", "format = 1 at the top"),
    bad("another format", "format = 1", "format = 2", "a format of the file that is not known"),
    bad("no job number", 'number = "24-017"\n', "", 'number = "24-017"'),
    bad("job number as a number", 'number = "24-017"', "number = 24", "words in quotes"),
    bad("a bell in the name", '"Orla Finch"', '"Orla\\u0007"', "cannot be printed"),
    bad("story as a list", 'client = "Orla Finch"', "client = []", "an empty list"),
    bad("date the other way", "date = 2026-11-02", 'date = "02/11/2026"', "year-month-day"),
    bad("no such day", "date = 2026-11-02", 'date = "2026-02-30"', "there is no such day"),
    bad("date with a time", "date = 2026-11-02", "date = 2026-11-02T10:00:00", "reads one way"),
    bad("unit unknown", 'units = "mm"', 'units = "cm"', '"mm" or "in"'),
    bad("unknown name", 'wall = "5 mm"', 'wal = "5 mm"', 'Did you mean "wall"?'),
    bad("unknown table", "[rules]", "[rule]", 'Did you mean "rules"?'),
    bad("unknown rule", 'web = "6 mm"', 'webb = "6 mm"', 'Did you mean "web"?'),
    bad("rule with its unit", 'web = "6 mm"', 'web_mm = "6 mm"', "no such rule"),
    bad("rule of nothing", "plug_factor = 2.5", "plug_factor = nan", "not a plain number"),
    bad("rule in a list", 'web = "6 mm"', 'web = ["6 mm"]', "one figure belongs here"),
    bad("negative web", 'web = "6 mm"', 'web = "-6 mm"', "below zero"),
    bad("unknown operation", '"drill a hole"', '"drill holes"', 'Did you mean "drill a hole"?'),
    bad("time without unit", '"6 min"', '"6"', '"6 min" or "6 h"'),
    bad("price without currency", '"30.00 GBP"', '"30.00"', "no currency"),
    bad("two currencies", '"30.00 GBP"', '"30.00 GBP"\nlug = "3 EUR"', "a second currency"),
    bad("half a lug in stock", '"Tarn lug" = 12', '"Tarn lug" = 1.5', "not a number of pieces"),
    bad("match of one", '["small tom", "large tom"]', '["small tom"]', "too few"),
    bad("match of none", '"large tom"]', '"lrge tom"]', 'Did you mean "large tom"?'),
    bad("match with itself", '"large tom"]', '"small tom"]', "the same drum twice"),
    bad("approval of no drum", 'drum = "small tom"', 'drum = "snare"', "no such drum"),
    bad("kind unknown", 'kind = "tom"', 'kind = "tomtom"', 'Did you mean "tom"?'),
    bad("three heads", "heads = 1", "heads = 3", "from 1 to 2"),
    whole("two drums of one name", GOOD.replace("large tom", "Small Tom"), "two drums of one"),
    bad(
        "a bell in a drum's name", '[drums."large tom"]', '[drums."large\\u0007tom"]', "not a name"
    ),
    bad("a name with spaces", '"Tarn lug" = 12', '"Tarn lug " = 12', "spaces too many"),
    bad("seam without wrap", '"wrap", thickness = "0.5 mm"', '"lacquer"', "not wrapped"),
    bad("half a seam", ', to = "354 deg"', "", "where is the seam?"),
    bad("seam round the shell", 'to = "354 deg"', 'to = "200 deg"', "a quarter of the way round"),
)

WISHES = (
    bad("a wish unknown", '"second head"', '"secnd head"', 'Did you mean "second head"?'),
    bad("a wish without want", 'want = "second head"', 'lug = "Tarn lug"', "does not say its want"),
    bad("a second of two", "heads = 1", "heads = 2", "a second head for a drum that has two"),
    bad("take out nothing", '"second head"', '"take out"\nfittings = ["vnet"]', "called so"),
    bad("deeper than it is", '"second head"', '"shorten"\ndepth = "300 mm"', "not shallower"),
    bad("put on nowhere", '"second head"', '"put on"\nfitting = "Tarn butt"', "where does it go?"),
    bad("name of another wish", '"second head"', '"second head"\nplate = "P"', "plate"),
    bad(
        "wrap without thickness", 'kind = "stays"', 'kind = "new wrap"', "how thick is the new wrap"
    ),
    bad("trued to nothing", 'true_resonant = "1 mm"', 'true_resonant = "4 in"', "truing takes off"),
    bad("outline unknown", '"rounded"', '"oval"', "not one of the words known here"),
    bad("outline without width", 'width = "50 mm", ', "", "outline.width"),
    bad("corner too round", 'corner = "4 mm"', 'corner = "40 mm"', "half the smaller side"),
    bad(
        "outline that crosses itself",
        '{ shape = "rounded", width = "50 mm", height = "38 mm", corner = "4 mm" }',
        '{ shape = "polygon", points = [["0 mm", "0 mm"], ["9 mm", "9 mm"], ["9 mm", "0 mm"], '
        '["0 mm", "8 mm"]] }',
        "the outline crosses itself",
    ),
    bad("mark outside", 'near = "100 mm"', 'near = "300 mm"', "outside the shell"),
)

BAD_SURVEYS: tuple[Bad, ...] = (
    *NOT_A_FILE,
    *NOT_TOML,
    *LENGTHS,
    *HOLES,
    *ROWS,
    *NAMES,
    *WISHES,
)
