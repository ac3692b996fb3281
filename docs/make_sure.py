"""Write the figures of the page on how sure the tool is of parts and years: none is typed.

``.venv/bin/python docs/make_sure.py`` fills each part of ``explanation/parts-and-years.md``. What
is worked out at once a test holds to today's; what is counted over thousands of invented parts and
drums (some minutes) is held by the full tests. ``--quick`` leaves the counted parts as they stand.
"""

from __future__ import annotations

import sys
from functools import cache
from pathlib import Path

DOCS = Path(__file__).parent
for room in (DOCS, DOCS.parent / "benchmarks"):
    sys.path.insert(0, str(room))

import what_is_it  # type: ignore[import-not-found]  # noqa: E402
import when_made  # type: ignore[import-not-found]  # noqa: E402
from counted import FULL_COUNT, Level, Ranking, ranking  # type: ignore[import-not-found]  # noqa: E402
from made_parts import filled, table  # type: ignore[import-not-found]  # noqa: E402
from mixed_box import WORLDS, Bin, mean_off  # type: ignore[import-not-found]  # noqa: E402
from simulated_drums import LAWS, simulated  # type: ignore[import-not-found]  # noqa: E402
from simulated_series import PACES, series_level  # type: ignore[import-not-found]  # noqa: E402

from counterhoop.bench.demonstration.worked_shelf import demo_pieces  # noqa: E402
from counterhoop.evidence.dated import Dated, date_drum  # noqa: E402
from counterhoop.evidence.ground import Ground, ground_of  # noqa: E402
from counterhoop.evidence.read_reference import packaged_reference  # noqa: E402
from counterhoop.evidence.replaced import HANDS  # noqa: E402
from counterhoop.evidence.seen import HOW_SURE, Seen  # noqa: E402
from counterhoop.fittings.read_book import packaged_book  # noqa: E402
from counterhoop.parts.dimension import Dimension, read_measured  # noqa: E402
from counterhoop.parts.unknown.candidate import candidates_of  # noqa: E402
from counterhoop.parts.unknown.next_measurement import next_measurement  # noqa: E402
from counterhoop.parts.unknown.odds import COULD_BE, odds  # noqa: E402
from counterhoop.survey.thread_odds import ALMOST_SURE, LIKELY  # noqa: E402

PAGE = DOCS / "explanation" / "parts-and-years.md"
PARTS_PICTURE = DOCS / "pictures" / "sure-parts.png"
YEARS_PICTURE = DOCS / "pictures" / "sure-years.png"
CASTING = "W-007"
"""The unknown casting on the shelf of the demonstration, and what its card says of it."""
STEPS = (
    (Dimension.HOLE_COUNT, "2"),
    (Dimension.HOLES_APART, "50.9 mm"),
    (Dimension.BASE_WIDE, "31.8 mm"),
    (Dimension.BASE_HIGH, "71.7 mm"),
)
SNARE = (
    ("shell make-up", "three plies with rings"),
    ("badge", "round, nailed"),
    ("inside of the shell", "clear lacquer"),
    ("lug", "round"),
    ("hoop", "brass, flanged three times"),
    ("strainer", "drop lever"),
)
"""The snare of the small job of the demonstration."""
YEAR = 2026
PARTS_COUNT = 3000


def main() -> None:
    """Fill in the page."""
    made = computed()
    if "--quick" not in sys.argv:
        made |= counted()
        draw()
    PAGE.write_text(filled(PAGE.read_text("utf-8"), made), "utf-8")
    print(PAGE.name)


def computed() -> dict[str, str]:
    """Return the parts that are worked out at once."""
    return {
        "words": words(),
        "casting": casting(),
        "eye": eye(),
        "hands": hands(),
        "snare": snare(),
    }


def words() -> str:
    """What each word covers."""
    return table(
        ("word", "odds of the likeliest"),
        (
            ("almost sure", f"{100 * ALMOST_SURE:.0f} % and more"),
            ("likely", f"{100 * LIKELY:.0f} to {100 * ALMOST_SURE:.0f} %"),
            ("could be", f"{100 * COULD_BE:.0f} to {100 * LIKELY:.0f} %"),
            ("can't tell", "less, or none of these is likelier than all of them together"),
        ),
    )


def casting() -> str:
    """The unknown casting, measurement by measurement."""
    known = candidates_of(packaged_book(), (one for one in demo_pieces() if one.number != CASTING))
    rows, taken = [], []
    for what, text in STEPS:
        taken.append(read_measured(what, text))
        found = odds(taken, known)
        then = next_measurement(found, known)
        rows.append((
            f"{what.value} {text}", found.says, f"{100 * found.ranked[0].odds:.1f} %",
            then.dimension.value if then else "nothing that would tell more",
        ))  # fmt: skip
    return table(("measured", "said", "odds of the likeliest", "asked for next"), rows)


def eye() -> str:
    """How often an answer is taken to be right."""
    rows = [(word, f"{100 * right:.0f} %") for word, right in HOW_SURE.items()]
    return table(("how sure", "taken to be right"), rows)


def hands() -> str:
    """How differently drums were worked on."""
    rows = [(f"{100 * many:.0f} %", f"{hand:g} times the mean") for hand, many in HANDS]
    return table(("of all drums", "lose parts"), rows)


def snare() -> str:
    """The school snare, look by look."""
    rows, seen = [], []
    for feature, value in SNARE:
        seen.append(Seen(feature=feature, value=value))
        found = _dated(tuple(seen))
        later = ", ".join(one.part for one in found.later_parts) or "none"
        rows.append((
            f"{feature}: {value}", str(found.spans[0.8]), later,
            found.next_features[0].feature if found.next_features else "nothing more",
        ))  # fmt: skip
    return table(("seen", "made, four times out of five", "looks later", "look at next"), rows)


def _dated(seen: tuple[Seen, ...]) -> Dated:
    return date_drum(
        seen, packaged_reference(), family="Corvane", looked_at=YEAR, diameter_mm=355.6
    )


def counted() -> dict[str, str]:
    """Return the parts that take thousands of invented parts and drums."""
    return {"parts": parts(), "years": years(), "later": later(), "numbers": numbers()}


def parts() -> str:
    """Said and right, world by world."""
    boxes = {world: _boxes()[world, False] for world in WORLDS}
    edges = [(one.least, one.most) for one in boxes[WORLDS[0]]]
    rows = [
        (
            f"{100 * least:.0f} to {100 * most:.0f} %",
            *(_right(one) for box in boxes.values() for one in box if one.least == least),
        )
        for least, most in edges
    ]
    off = ("apart on the mean", *(f"{100 * mean_off(box):.1f} %" for box in boxes.values()))
    return (
        f"{PARTS_COUNT} parts to a box, one to four measurements each; the share that was right, "
        "of how many:\n\n"
    ) + table(("said", *boxes), [*rows, off])


def _right(one: Bin) -> str:
    return f"{100 * one.right:.1f} % of {one.count}"


def years() -> str:
    """Held against stated, law by law."""
    rows = []
    for law in LAWS:
        found = _levels()[law, "as it is"]
        rows.append((law, *(_held(one) for one in found), f"{found[1].median_years:.0f} years"))
    head = ("drums", *(f"{100 * one.odds:.0f} % span" for one in found), "80 % span, median")
    return f"{FULL_COUNT} invented drums of each kind:\n\n" + table(head, rows)


def _held(one: Level) -> str:
    return f"said {100 * one.stated:.1f} %, held {100 * one.held:.1f} %"


def later() -> str:
    """Parts said to be later, and whether they were."""
    found = _ranking()
    rows = [
        (f"{100 * stated:.0f} %", f"{100 * so:.0f} %", count) for stated, so, count in found.bins
    ]
    return (
        f"Where a later part shows, the part that is ranked first is a later one on "
        f"{100 * found.first_is_later:.0f} of 100 drums; of a later part and one of the drum's "
        f"time, the later one stands above in {100 * found.above:.0f} of 100 pairs.\n\n"
    ) + table(("said to be later", "was", "parts"), rows)


def numbers() -> str:
    """Spans of serial numbers."""
    rows = []
    for pace in PACES:
        level = series_level(pace=pace, count=FULL_COUNT * 2 // 5, seed=11)
        rows.append((pace, f"{100 * level.stated:.1f} %", f"{100 * level.held:.1f} %"))
    return table(("numbers given out", "stated", "held"), rows)


def draw() -> None:
    """Draw said against right, and stated against held."""
    what_is_it.plot(_boxes(), PARTS_PICTURE)
    when_made.plot(_levels(), YEARS_PICTURE)


@cache
def _boxes() -> dict[tuple[str, bool], list[Bin]]:
    found: dict[tuple[str, bool], list[Bin]] = what_is_it.kept(
        candidates_of(packaged_book()), count=PARTS_COUNT
    )
    return found


@cache
def _levels() -> dict[tuple[str, str], list[Level]]:
    found: dict[tuple[str, str], list[Level]] = when_made.spans(
        {law: simulated(_ground(), laws=laws, count=FULL_COUNT, seed=when_made.SEED)
         for law, laws in LAWS.items()}, _ground(),
    )[0]  # fmt: skip
    return found


@cache
def _ranking() -> Ranking:
    drums = simulated(
        _ground(), laws=LAWS["all of it otherwise"], count=FULL_COUNT, seed=when_made.SEED
    )
    return ranking(drums, _ground())


@cache
def _ground() -> Ground:
    return ground_of(packaged_reference(), family="Corvane", looked_at=YEAR)


if __name__ == "__main__":
    main()
