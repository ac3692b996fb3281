"""A book is read, or refused in one line that says entry, field, found and wanted."""

from __future__ import annotations

import pytest

from counterhoop.development.outline import Outline, disc, rounded
from counterhoop.errors import BadInput
from counterhoop.fittings.entry import Behind, Kind, Mouth, PatternHole
from counterhoop.fittings.read_book import MODELS, read_book

LUG = """
[[fitting]]
name = "My lug"
kind = "lug"
source = "measured"
base = { shape = "rounded", width = "24 mm", height = "57 mm", corner = "12 mm" }
holes = [
  { down = "-21 mm", hole = "6 mm", screw = "4.8 mm", called = "upper" },
  { down = "21 mm", hole = "6 mm", screw = "4.8 mm", called = "lower" },
]
reach = "20 mm"
behind = { washer = "1.2 mm", washer_diameter = "14 mm" }
screw = { thread = "10-24", length = "5/8 in", depth = "12 mm" }
mouth = "-28.5 mm"
rod_line = "9.5 mm"
free_depth = "30 mm"
thread = "12-24"
"""
LONG_LUG = """
[[fitting]]
name = "My long lug"
kind = "long lug"
source = "measured"
base = { shape = "rectangle", width = "24 mm", height = "134 mm" }
holes = [{ down = "-12.7 mm", hole = "6 mm", screw = "4.8 mm" }]
reach = "20 mm"
mouths = [{ down = "-67 mm", toward = "batter" }, { down = "67 mm", toward = "resonant" }]
rod_line = "9.5 mm"
free_depth = "30 mm"
thread = "M6"
suits = { least = "192 mm", most = "212 mm" }
"""
HOOP = """
[[fitting]]
name = "My hoop"
kind = "hoop"
source = "measured"
hoop_kind = "flanged"
nominal = "12 in"
ears = 6
inside = "311.8 mm"
ear_hole = "7 mm"
ear_circle = "320.2 mm"
below_edge = "12 mm"
seat_below_edge = "7 mm"
washer = "1.5 mm"
mass = "552 g"
bending = "1500 N m2"
"""
ROD = """
[[fitting]]
name = "My rod"
kind = "rod"
source = "measured"
thread = "12-24"
length = "42 mm"
thread_length = "28 mm"
shank = "5.4 mm"
"""
WASHER = """
[[fitting]]
name = "My washer"
kind = "washer"
source = "measured"
hole = "5.2 mm"
diameter = "16 mm"
thickness = "1.5 mm"
"""
ROUNDED = 'shape = "rounded", width = "24 mm", height = "57 mm", corner = "12 mm"'


def polygon(*points: tuple[str, str]) -> str:
    return f'shape = "polygon", points = [{", ".join(f"""["{x}", "{y}"]""" for x, y in points)}]'


def test_every_figure_of_a_lug_arrives() -> None:
    lug = read_book(LUG, name="mine.toml").find("My lug")
    assert lug.kind is Kind.LUG
    assert lug.base == rounded(24.0, 57.0, corner_mm=12.0)
    assert lug.holes == (
        PatternHole(right_mm=0.0, down_mm=-21.0, hole_mm=6.0, screw_mm=4.8, called="upper"),
        PatternHole(right_mm=0.0, down_mm=21.0, hole_mm=6.0, screw_mm=4.8, called="lower"),
    )
    assert lug.behind == Behind(washer_mm=1.2, washer_diameter_mm=14.0)
    assert (lug.screw_thread, lug.screw_length_mm, lug.screw_depth_mm) == (
        "10-24 UNC",
        15.875,
        12.0,
    )
    assert lug.mouths == (Mouth(down_mm=-28.5, toward="batter"),)
    assert (lug.rod_line_mm, lug.free_depth_mm, lug.reach_mm) == (9.5, 30.0, 20.0)
    assert (lug.thread, lug.swivel, lug.serves) == ("12-24 UNC", False, ("batter",))
    assert (lug.source, lug.price_minor, lug.span_mm) == ("measured", None, None)


def test_a_long_lug_serves_both_heads_and_knows_its_span() -> None:
    lug = read_book(LONG_LUG, name="mine.toml").find("my LONG  lug")
    assert lug.serves == ("batter", "resonant")
    assert (lug.span_mm, lug.middle_down_mm) == (134.0, 0.0)
    assert (lug.suits_from_mm, lug.suits_to_mm) == (192.0, 212.0)


def test_a_hoop_and_a_rod_arrive() -> None:
    book = read_book(HOOP + ROD + WASHER, name="mine.toml")
    hoop, rod, washer = book.entries
    assert (hoop.hoop_kind, hoop.ears, hoop.nominal_mm) == ("flanged", 6, pytest.approx(304.8))
    assert (hoop.inside_mm, hoop.ear_hole_mm, hoop.ear_circle_mm) == (311.8, 7.0, 320.2)
    assert (hoop.below_edge_mm, hoop.seat_below_edge_mm, hoop.washer_mm) == (12.0, 7.0, 1.5)
    assert (hoop.mass_g, hoop.bending_n_m2) == (552.0, 1500.0)
    assert (rod.rod_length_mm, rod.thread_length_mm, rod.shank_mm) == (42.0, 28.0, 5.4)
    assert (washer.inside_mm, washer.diameter_mm, washer.washer_mm) == (5.2, 16.0, 1.5)


def test_price_and_mass_and_slots_arrive() -> None:
    text = LUG.replace('called = "lower"', 'called = "lower", slot_down = "4 mm"')
    lug = read_book(text + 'price = "£6.80"\nmass = "92 g"\nswivel = true\n', name="m").entries[0]
    assert (lug.price_minor, lug.currency, lug.mass_g, lug.swivel) == (680, "GBP", 92.0, True)
    assert (lug.holes[1].slot_down_mm, lug.holes[1].slot_along_mm) == (4.0, 0.0)


@pytest.mark.parametrize(
    ("written", "outline"),
    [
        ('shape = "disc", diameter = "60 mm"', disc(60.0)),
        ('shape = "disc", diameter = "60 mm", down = "5 mm"', disc(60.0).moved(0.0, 5.0)),
        (
            'shape = "rectangle", width = "2 in", height = "60 mm", right = "-3 mm"',
            rounded(50.8, 60.0).moved(-3.0, 0.0),
        ),
        (
            polygon(("-20 mm", "-30 mm"), ("20 mm", "-30 mm"), ("12 mm", "30 mm")),
            Outline(((-20.0, -30.0), (20.0, -30.0), (12.0, 30.0))),
        ),
    ],
)
def test_outlines_of_every_shape(written: str, outline: Outline) -> None:
    gasket = f"""
    [[fitting]]
    name = "Gasket"
    kind = "gasket"
    source = "measured"
    thickness = "0.5 mm"
    base = {{ {written} }}
    """
    base = read_book(gasket, name="mine.toml").entries[0].base
    assert base == outline


def test_a_source_at_the_top_serves_the_entries_without_their_own() -> None:
    text = 'source = "my own caliper"\n' + ROD.replace('source = "measured"\n', "") + WASHER
    assert [entry.source for entry in read_book(text, name="mine.toml")] == [
        "my own caliper",
        "measured",
    ]


def test_an_empty_book_is_a_book() -> None:
    assert len(read_book("", name="mine.toml")) == 0


def test_there_is_a_model_for_every_kind() -> None:
    assert set(MODELS) == {kind.value for kind in Kind}


BAD = [
    # what stands there, what stands there instead, what the line must say
    (LUG, 'kind = "lug"', 'kind = "lgu"', ("My lug.kind", 'Did you mean "lug"?')),
    (LUG, 'kind = "lug"', "kind = 3", ("My lug.kind", "found 3", "long lug, hoop, rod")),
    (LUG, 'kind = "lug"\n', "", ("My lug.kind", "does not say what kind")),
    (LUG, 'source = "measured"\n', "", ("My lug.source", "missing", '"measured"')),
    (LUG, '"measured"', '" "', ("My lug.source", "something to read")),
    (LUG, 'name = "My lug"\n', "", ("entry 1.name", "missing")),
    (LUG, '"My lug"', '""', ("entry 1.name",)),
    (LUG, "rod_line", "rodline", ("My lug.rodline", 'Did you mean "rod_line"?')),
    (LUG, 'rod_line = "9.5 mm"\n', "", ("My lug.rod_line", "missing", "a length with its unit")),
    (LUG, 'mouth = "-28.5 mm"\n', "", ("My lug.mouth", "missing")),
    (LUG, 'thread = "12-24"', "", ("My lug.thread", "missing", '"12-24"')),
    (LUG, 'free_depth = "30 mm"\n', "", ("My lug.free_depth", "missing")),
    (LUG, '"24 mm"', '"24"', ("My lug.base.width", '"24 mm" or "24 in"')),
    (LUG, '"24 mm"', "24", ("My lug.base.width", "found 24", '"24 mm"')),
    (LUG, '"24 mm"', '"nan mm"', ("My lug.base.width", "nan")),
    (LUG, '"24 mm"', '"-24 mm"', ("My lug.base.width", "below zero")),
    (LUG, '"24 mm"', '"0 mm"', ("My lug.base.width", "nothing")),
    (LUG, '"24 mm"', '"24 km"', ("My lug.base.width", '"km"')),
    (LUG, '"rounded"', '"roundd"', ("My lug.base.shape", 'Did you mean "rounded"?')),
    (LUG, 'shape = "rounded", ', "", ("My lug.base.shape", "rectangle, disc")),
    (LUG, "width =", "widht =", ("My lug.base.widht", 'Did you mean "width"?')),
    (LUG, f"{{ {ROUNDED} }}", "3", ("My lug.base", "curly brackets")),
    (LUG, ROUNDED, polygon(("0 mm", "0 mm"), ("9 mm", "0 mm")), ("base.points", "3 or more")),
    (
        LUG,
        ROUNDED,
        polygon(("-30 mm", "-30 mm"), ("30 mm", "30 mm"), ("30 mm", "-30 mm"), ("-30 mm", "30 mm")),
        ("My lug.base", "crosses itself"),
    ),
    (
        LUG,
        ROUNDED,
        polygon(("-30 mm", "-30"), ("30 mm", "30 mm"), ("30 mm", "-30 mm")),
        ("My lug.base.points[1][2]", '"30 mm" or "30 in"'),
    ),
    (LUG, 'screw = "4.8 mm", called', 'screw = "6 mm", called', ("holes[1].screw", "go through")),
    (LUG, '"-21 mm"', '"-27 mm"', ("My lug.holes[1]", "ends 1.5 mm", "3 mm or more")),
    (LUG, '"-21 mm"', '"-41 mm"', ("My lug.holes[1]", "12.5 mm outside the base")),
    (LUG, '"-21 mm"', '"16 mm"', ("My lug.holes[2]", "runs into hole 1")),
    (LUG, '"-21 mm", hole', '"-21 mm", hoel', ("holes[1].hoel", 'Did you mean "hole"?')),
    (LUG, '"-28.5 mm"', '"-60 mm"', ("My lug.mouth", "far from the base", "-48.5")),
    (LUG, '"-28.5 mm"', '"28.5 mm"', ("My lug.mouth", "lower half", "up is below zero")),
    (LUG, '"30 mm"', '"300 mm"', ("My lug.free_depth", "further in")),
    (LUG, '"12-24"', '"12-25"', ("My lug.thread", "12-24 UNC, 12-28 UNF")),
    (LUG, '"12-24"', '"12/24"', ("My lug.thread", '"12-24"')),
    (LUG, '"12-24"', "12", ("My lug.thread", "found 12")),
    (LUG, '"10-24"', '"1/4-20"', ("My lug.screw.thread", "no hole is meant")),
    (LUG, '"14 mm"', '"5 mm"', ("behind.washer_diameter", "falls through")),
    (LUG, ', washer_diameter = "14 mm"', "", ("My lug.behind", "diameter")),
    (LUG, 'reach = "20 mm"', 'reach = "2 mm"', ("My lug.rod_line", "reach, 2 mm")),
    (LUG, "holes = [", "holes = []\nspare = [", ("My lug.spare", "no such field")),
    (LUG, 'thread = "12-24"', 'thread = "12-24"\nswivel = "yes"', ("My lug.swivel", "true")),
    (LUG, 'thread = "12-24"', 'thread = "M6"\nserves = ["resonant"]', ("My lug.serves", "batter")),
    (LUG, 'thread = "12-24"', 'thread = "M6"\nserves = ["top"]', ("My lug.serves[1]", "resonant")),
    (LUG, 'thread = "12-24"', 'thread = "M6"\nprice = "4.50"', ("My lug.price", "4.50 GBP")),
    (LUG, 'thread = "12-24"', 'thread = "M6"\nprice = 4.5', ("My lug.price", "GBP")),
    (LUG, 'thread = "12-24"', 'thread = "M6"\nmass = "0.1 kg"', ("My lug.mass", "85 g")),
    (LUG, 'thread = "12-24"', 'thread = "M6"\nmass = "0 g"', ("My lug.mass", "85 g")),
    (LUG, "[[fitting]]", "[fitting]", ("mine.toml", "double brackets")),
    (LUG, "[[fitting]]", "[[fiting]]", ("fiting", 'Did you mean "fitting"?')),
    (LUG, "[[fitting]]", '[["fitting"', ("mine.toml", "not TOML", "line 2")),
    (LUG, "kind =", 'name = "Again"\nkind =', ("mine.toml", "not TOML", "line 4")),
    (LUG, "[[fitting]]", "x = " + "[" * 100_000, ("mine.toml",)),
    (ROD, "[[fitting]]", ROD + "[[fitting]]", ("mine.toml", "two entries", "My rod")),
    (ROD, '"28 mm"', '"43 mm"', ("My rod.thread_length", "more thread than rod", "42 mm")),
    (ROD, '"5.4 mm"', '"9 mm"', ("My rod.shank", "12-24 UNC")),
    (LONG_LUG, '"192 mm"', '"120 mm"', ("My long lug.suits", "134 mm")),
    (LONG_LUG, '"192 mm"', '"220 mm"', ("My long lug.suits", "least before most")),
    (LONG_LUG, '"30 mm"', '"140 mm"', ("My long lug.free_depth", "134 mm")),
    (LONG_LUG, 'toward = "batter"', 'toward = "resonant"', ("mouths", "look away")),
    (LONG_LUG, 'toward = "batter"', 'toward = "bater"', ("mouths[1].toward", '"batter"?')),
    (LONG_LUG, '{ down = "-67 mm", toward = "batter" }, ', "", ("mouths", "2 or more")),
    (HOOP, 'ear_hole = "7 mm"\n', "", ("My hoop.ear_hole",)),
    (HOOP, '"311.8 mm"', '"300 mm"', ("My hoop.inside", "304.8 mm")),
    (HOOP, '"320.2 mm"', '"300 mm"', ("My hoop.ear_circle", "inside")),
    (HOOP, 'seat_below_edge = "7 mm"', 'seat_below_edge = "17 mm"', ("seat_below_edge", "12 mm")),
    (HOOP, "ears = 6", 'ears = "six"', ("My hoop.ears", "whole number")),
    (HOOP, '"1500 N m2"', '"1500 Nm"', ("My hoop.bending", '"1500 N m2"')),
    (HOOP, "ears = 6", "ears = 2", ("My hoop.ears", "3")),
    (HOOP, '"flanged"', '"flangd"', ("My hoop.hoop_kind", 'Did you mean "flanged"?')),
    (WASHER, '"5.2 mm"', '"16 mm"', ("My washer.hole", "16 mm")),
]


@pytest.mark.parametrize(("good", "was", "now", "says"), BAD)
def test_a_slip_is_said_in_one_line(good: str, was: str, now: str, says: tuple[str, ...]) -> None:
    read_book(good, name="mine.toml")
    assert was in good
    with pytest.raises(BadInput) as caught:
        read_book(good.replace(was, now, 1), name="mine.toml")
    line = str(caught.value)
    assert "\n" not in line
    assert len(line) < 400
    assert line.startswith("mine.toml")
    for words in ("pydantic", "validation", "Input should", "tuple", "Traceback"):
        assert words not in line
    for part in says:
        assert part in line


def test_a_text_without_end_is_refused() -> None:
    with pytest.raises(BadInput, match="longer than"):
        read_book("# " + "x" * 5_000_001, name="mine.toml")
