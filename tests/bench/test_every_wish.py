"""Each wish from the text of a survey to its schemes; drums, makers and figures invented.

Figures are worked by hand from the inputs beside them.
"""

from __future__ import annotations

from collections import Counter

import pytest

from counterhoop.bench.open_job import opened
from counterhoop.bench.plan_job import DrumPlan, JobPlan, plan_job
from counterhoop.scheme.plan import Scheme
from counterhoop.scheme.verdict import Verdict
from counterhoop.scheme.weigh import weigh
from counterhoop.shell.wish import Pattern

JOB = """
format = 1
[job]
number = "7"
client = "A. Player"
"""

TOM = """
[drums.tom]
kind = "tom"
size = "12 in dia x 8 in deep"
heads = {heads}
circumference = "950 mm"
depth = "204 mm"
wall = "5 mm"
hoops = {{ batter = "flanged hoop 12 in, 6 ears" }}
[[drums.tom.rows]]
head = "batter"
lugs = 6
fitting = "Corvane round lug"
first = "0 deg"
near = ["38 mm", "80 mm"]
hole = "6 mm"
origin = "factory"
"""

BRACKET = """
[[drums.tom.fittings]]
label = "bracket"
fitting = "Corvane block bracket"
along = "90 deg"
origin = "extra"
holes = [
  { right = "-19.05 mm", near = "103.5 mm", dia = "7 mm" },
  { right = "19.05 mm", near = "103.5 mm", dia = "7 mm" },
  { right = "-19.05 mm", near = "128.9 mm", dia = "7 mm" },
  { right = "19.05 mm", near = "128.9 mm", dia = "7 mm" },
]
"""

SNARE = """
[drums.snare]
kind = "marching snare"
size = "14 in dia x 10 in deep"
heads = 2
circumference = "1116 mm"
depth = "254 mm"
wall = "6 mm"
hoops = { batter = "flanged hoop 14 in, 8 ears", resonant = "flanged hoop 14 in, 8 ears" }
[[drums.snare.rows]]
head = "batter"
lugs = 8
fitting = "Corvane round lug"
first = "0 deg"
near = ["38 mm", "80 mm"]
hole = "6 mm"
[[drums.snare.rows]]
head = "resonant"
lugs = 8
fitting = "Corvane round lug"
first = "0 deg"
from_edge = "resonant"
near = ["38 mm", "80 mm"]
hole = "6 mm"
[[drums.snare.fittings]]
label = "strainer"
fitting = "Corvane lever strainer"
along = "22.5 deg"
holes = [{ near = "98.75 mm", dia = "5.5 mm" }, { near = "149.55 mm", dia = "5.5 mm" }]
[[drums.snare.fittings]]
label = "damper"
fitting = "Corvane damper"
along = "112.5 deg"
missing = true
holes = [{ near = "84 mm", dia = "8 mm" }, { near = "111.25 mm", dia = "5.5 mm" }]
"""


def planned(text: str) -> JobPlan:
    """Plan a survey from its text, as the commands do."""
    return plan_job(opened((JOB + text).encode(), name="wish.toml", book_of=_no_book))


def _no_book(name: str) -> bytes:
    raise AssertionError(name)


def tom(wish: str, *, heads: int = 1, more: str = "") -> DrumPlan:
    return planned(TOM.format(heads=heads) + more + f"[drums.tom.wish]\n{wish}\n").drum("tom")


def snare(wish: str) -> DrumPlan:
    return planned(f"{SNARE}[drums.snare.wish]\n{wish}\n").drum("snare")


def every(plan: DrumPlan) -> list[Scheme]:
    return [*plan.ranked.shown, *(aside.scheme for aside in plan.ranked.set_aside)]


def verdicts(scheme: Scheme) -> Counter[Verdict]:
    return Counter(plan.verdict for plan in scheme.layout.holes)


def at(scheme: Scheme, label: str) -> tuple[float, float]:
    plan = next(plan for plan in scheme.layout.standing if plan.label == label)
    return plan.place.along_deg, plan.place.down_mm


@pytest.mark.parametrize(
    ("pattern", "along", "holes"),
    [
        (Pattern.LONG_LUGS, {0.0, 60.0}, 12),
        (Pattern.IN_LINE, {0.0, 60.0}, 24),
        (Pattern.HALF_ALONG, {30.0, 90.0}, 24),
    ],
)
def test_a_second_head_in_each_pattern(pattern, along, holes):
    # Lugs every 60 degrees, 62 down: a second row stands 204 - 62 = 142 down.
    found = tom(f'want = "second head"\npatterns = ["{pattern}"]')
    schemes = [s for s in every(found) if s.centred]
    assert schemes
    for scheme in schemes:
        assert scheme.pattern == pattern
        lugs = scheme.layout.lugs("resonant")
        assert len(lugs) == 6
        assert along <= {round(lug.place.along_deg, 6) for lug in lugs}
        height = 102.0 if pattern is Pattern.LONG_LUGS else 142.0
        assert lugs[0].place.down_mm == pytest.approx(height, abs=1.5)
        after = [p for p in scheme.layout.holes if p.verdict is Verdict.KEEP or p.verdict.cuts]
        assert len(after) == holes
        assert [hoop.head for hoop in scheme.layout.hoops if hoop.new] == ["resonant"]


def test_a_turned_row_only_where_line_and_half_are_blocked():
    # Bracket blocks stand in the way: 25.4 + 12 + 15 = 52.4 mm either way of 30 and of 60 degrees.
    more = BRACKET.replace("90 deg", "33.5 deg").replace("103.5", "130").replace("128.9", "155.4")
    other = more.replace('"bracket"', '"other"').replace("33.5 deg", "111 deg")
    found = tom('want = "second head"', more=more + other)
    assert any(scheme.pattern == Pattern.TURNED for scheme in every(found)) is all(
        scheme.stopped
        for scheme in every(found)
        if scheme.pattern in (Pattern.IN_LINE, Pattern.HALF_ALONG)
    )
    only = tom('want = "second head"\npatterns = ["second row turned"]')
    for scheme in only.ranked.shown:
        lug = scheme.layout.lugs("resonant")[0]
        off = abs(lug.place.along_deg % 60.0 - 30.0)
        assert 5.0 - 1e-6 <= off <= 25.0 + 1e-6
        assert not scheme.centred


def test_other_lugs_use_the_old_holes_where_they_can():
    # The bullet lug's holes are 38.1 apart, the round lug's 42: 1.95 off each at best, so
    # enlarged; but its mouth lies higher, so that the row is then off the old mouths' height.
    found = tom('want = "other lugs"\nlug = "Dunmarrow bullet lug"\nheads = "batter"')
    best = found.ranked.shown[0]
    assert {lug.fitting.name for lug in best.layout.lugs("batter")} == {"Dunmarrow bullet lug"}
    assert len(best.layout.lugs("batter")) == 6
    assert any(scheme.reuse[0].enlarged == 12 for scheme in every(found))
    assert sum(line.count for line in best.parts if line.name == "Dunmarrow bullet lug") == 6


def test_other_lugs_in_another_number_bring_a_hoop_of_as_many_ears():
    found = tom('want = "other lugs"\nlug = "Corvane round lug"\nheads = "batter"\nlugs = 8')
    best = found.ranked.shown[0]
    assert len(best.layout.lugs("batter")) == 8
    assert [hoop.hoop.ears for hoop in best.layout.hoops if hoop.new] == [8]
    # Six and eight lugs agree at gcd(6, 8) = 2 places, two holes each.
    assert verdicts(best)[Verdict.KEEP] == 4


def test_back_to_factory_takes_the_extra_bracket_off():
    scheme = tom('want = "back to factory"', heads=2, more=BRACKET).ranked.shown[0]
    assert verdicts(scheme) == {Verdict.KEEP: 12, Verdict.PLUG: 4}
    assert [plan.label for plan in scheme.layout.fittings if plan.status == "goes"] == ["bracket"]


def test_a_bracket_out_with_plugs_or_under_a_plate():
    plate = "cover plate 76 x 64, four holes"
    found = tom(f'want = "take out"\nfittings = ["bracket"]\nplate = "{plate}"', more=BRACKET)
    plated, plugged = sorted(every(found), key=lambda s: "plugged" in s.title)
    assert verdicts(plugged) == {Verdict.KEEP: 12, Verdict.PLUG: 4}
    assert verdicts(plated) == {Verdict.KEEP: 16}  # the plate's screws go where the bracket's were
    assert plated.criteria.shows_mm2 == 0.0
    assert any(line.name == plate for line in plated.parts)


def test_a_bracket_moved():
    found = tom(
        'want = "move"\nfitting = "bracket"\nalong = "210 deg"\ndown = "116 mm"', more=BRACKET
    )
    scheme = found.ranked.shown[0]
    along, down = at(scheme, "bracket")
    assert along == pytest.approx(210.0)
    assert down == pytest.approx(116.0, abs=15.0)
    assert scheme.parts == ()  # the same part, moved
    assert verdicts(scheme)[Verdict.DRILL] == 4
    assert verdicts(scheme)[Verdict.PLUG] == 4


def test_a_strainer_put_on_in_place_of_another():
    # 44.5 apart in place of 50.8: with one hole kept the other is 6.3 off, in the same plug.
    found = snare('want = "put on"\nfitting = "Quennick roller strainer"\nreplaces = "strainer"')
    assert any(
        verdicts(scheme)[Verdict.KEEP] > 32 or verdicts(scheme)[Verdict.ENLARGE]
        for scheme in every(found)
    )
    for scheme in every(found):
        standing = {f.label: f.fitting.name for f in scheme.layout.standing if not f.row}
        assert standing == {"strainer": "Quennick roller strainer"}


def test_a_missing_damper_is_put_back_on_its_own_holes():
    # Nobody says where: the label is that of a fitting which is missing.
    found = snare('want = "put on"\nfitting = "Corvane damper"\nlabel = "damper"')
    best = next(s for s in every(found) if not s.criteria.cut)
    damper = next(plan for plan in best.layout.standing if plan.label == "damper")
    assert len(damper.holes) == 2
    assert damper.place.along_deg == pytest.approx(112.5)
    assert verdicts(best) == {Verdict.KEEP: 36}
    assert [(line.name, line.bought) for line in best.parts] == [("Corvane damper", 1)]


def test_a_damper_that_is_missing_can_be_given_up():
    found = snare('want = "take out"\nfittings = ["damper"]')
    assert verdicts(found.ranked.shown[0])[Verdict.PLUG] == 2


def test_a_shell_is_shortened_to_a_depth_that_spares_every_hole():
    # The resonant row's holes lie 171 to 177 and 213 to 219 down: 200 clears both by over 12.
    scheme = snare('want = "shorten"\ndepth = "200 mm"').ranked.shown[0]
    assert scheme.layout.flat.depth_mm == pytest.approx(200.0)
    lugs = scheme.layout.lugs("resonant")
    assert len(lugs) == 8
    assert lugs[0].place.down_mm == pytest.approx(200.0 - 62.0, abs=1.5)
    assert {line.operation for line in scheme.work} >= {"cut an end off", "make an edge"}
    numbers = {plan.number for plan in scheme.layout.holes if plan.old is not None}
    assert len(numbers) == len(snare('want = "shorten"\ndepth = "200 mm"').wanted.drum.holes) - 8


def test_truing_the_other_end_is_counted_in_the_depth():
    text = SNARE + '[drums.snare.wish]\nwant = "shorten"\ndepth = "200 mm"\n'
    plan = planned(f'{text}[drums.snare.finish_plan]\ntrue_batter = "2 mm"\n').drum("snare")
    assert plan.ranked.shown[0].layout.flat.depth_mm == pytest.approx(200.0)


def test_a_marching_snare_becomes_a_kit_snare():
    found = snare(
        'want = "kit snare"\ndepth = "165 mm"\nlug = "Corvane round short lug"\nlugs = 8\n'
        'strainer = "Corvane lever strainer"\nbutt = "Corvane butt"'
    )
    scheme = found.ranked.shown[0]
    assert scheme.pattern == "kit snare"
    assert scheme.layout.flat.depth_mm == pytest.approx(165.0, abs=40.0)
    for head in ("batter", "resonant"):
        lugs = scheme.layout.lugs(head)
        assert {lug.fitting.name for lug in lugs} == {"Corvane round short lug"}
        assert len(lugs) == 8
    strainer, butt = at(scheme, "strainer"), at(scheme, "butt")
    assert (butt[0] - strainer[0]) % 360.0 == pytest.approx(180.0)
    assert {"cut a snare bed"} <= {line.operation for line in scheme.work}


def test_a_row_may_move_down_and_turn_where_that_saves_holes():
    # An old row of extra holes 5 mm lower than a second row in line wants them.
    stray = "".join(
        f'[[drums.tom.holes]]\nalong = "{60 * k} deg"\nnear = "{near} mm"\ndia = "6 mm"\n'
        for k in range(6)
        for near in (123.0, 165.0)
    )
    found = tom('want = "second head"\npatterns = ["second row in line"]', more=stray)
    low = next(scheme for scheme in every(found) if not scheme.centred)
    assert low.layout.lugs("resonant")[0].place.down_mm == pytest.approx(147.0, abs=0.8)
    assert low.criteria.cut == 0
    said = [sentence for scheme in every(found) for sentence in scheme.near_misses]
    assert any("toward the resonant edge would let" in sentence for sentence in said)
    assert any("your rule is 1.5" in sentence for sentence in said)
    turned = tom('want = "other lugs"\nlug = "Corvane round lug"\nheads = "batter"')
    assert turned.ranked.shown[0].criteria.cut == 0


def test_nothing_shown_is_beaten_and_all_that_is_aside_says_why():
    found = tom('want = "second head"', more=BRACKET)
    weights = {scheme.number: weigh(scheme) for scheme in every(found)}
    for scheme in found.ranked.shown:
        assert not any(other.beats(weights[scheme.number]) for other in weights.values())
        assert scheme.why.endswith(".")
    for aside in found.ranked.set_aside:
        assert aside.says.endswith(".")
        if aside.cause == "worse":
            assert weights[aside.because_of].beats(weights[aside.scheme.number])
    assert [scheme.number for scheme in every(found)] == list(range(1, len(weights) + 1))


def test_two_drums_share_one_stock():
    wish = '[drums.{0}.wish]\nwant = "second head"\npatterns = ["second row in line"]\n'
    tom_text = TOM.format(heads=1)
    other = tom_text.replace("drums.tom", "drums.sister")
    stock = '[stock]\n"Corvane round lug" = 8\n[[match]]\ndrums = ["tom", "sister"]\n'
    plan = planned(stock + tom_text + wish.format("tom") + other + wish.format("sister"))
    lines = [
        line
        for drum in plan.drums
        for line in drum.chosen.parts
        if line.name == "Corvane round lug"
    ]
    assert [(line.count, line.bought) for line in lines] == [(6, 0), (6, 4)]
    assert sum(drum.chosen.criteria.money_minor for drum in plan.drums) == plan.kit.total_minor
    assert any("12 wanted, 8 in stock, 4 to buy" in sentence for sentence in plan.kit.says)
