"""A drum dated by its sheet of facts."""

from __future__ import annotations

from typing import Any

import pytest

from counterhoop.bench.evidence.dating import dating_of
from counterhoop.bench.evidence.drum_features import CANNOT_TELL, asked_features, known_of
from counterhoop.bench.evidence.identity import identity_of
from counterhoop.bench.evidence.told_in_words import date_by_words
from counterhoop.bench.evidence.write_look import write_look
from counterhoop.bench.folders.folder import kept_job
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.evidence.dated import date_drum
from counterhoop.evidence.read_reference import packaged_reference
from counterhoop.evidence.reference import UNLISTED
from counterhoop.evidence.seen import Seen
from counterhoop.store.save import Conflict, Saved

CORVANE = {"maker": {"family": "Corvane"}}
LOOKS = {
    "badge": {"value": "round, nailed", "sure": "seen"},
    "plies": {"value": "six plies", "sure": "told"},
    "lug_insert": {"value": "brass, coil spring", "sure": "guessed"},
}


def test_what_the_sheet_says_is_what_is_reckoned_with(shop: Workshop, drum_with: Any) -> None:
    """The same looks given by hand; 0.95, 0.8 and 0.6 are the table's."""
    job, drum = drum_with(CORVANE | LOOKS | {"serial": {"says": "9 800"}})
    looks = [
        Seen(feature="shell make-up", value="six plies", sure=0.8),
        Seen(feature="badge", value="round, nailed", sure=0.95),
        Seen(feature="lug insert", value="brass, coil spring", sure=0.6),
    ]
    wanted = date_drum(
        looks, packaged_reference(), family="Corvane", looked_at=2026, diameter_mm=355.6,
        serial="9 800",
    )  # fmt: skip
    found = dating_of(shop, job, drum)
    assert found is not None
    assert found.found.odds.p.tolist() == wanted.odds.p.tolist()
    assert found.found.spans == wanted.spans


@pytest.mark.parametrize("facts", [{}, {"maker": {"says": "Hallmere"}}, {"maker": {"says": 7}}])
def test_nobody_said_whose_it_is(shop: Workshop, drum_with: Any, facts: dict[str, Any]) -> None:
    assert dating_of(shop, *drum_with(facts)) is None


def test_facts_of_earlier_versions_are_words_and_name_the_family(
    shop: Workshop, drum_with: Any
) -> None:
    """They had no list to choose from: nothing is made of the words but whose drum it is."""
    facts = {"maker": {"says": "corvane, by its badge"}, "badge": {"says": "oval", "sure": "seen"}}
    job, drum = drum_with(facts)
    found = dating_of(shop, job, drum)
    assert found is not None
    assert (found.known.family, found.known.family_by) == ("Corvane", "corvane, by its badge")
    assert found.looks == ()
    assert found.found.next_features[0].feature == "badge"


def test_what_cannot_be_told_is_not_asked_again(shop: Workshop, drum_with: Any) -> None:
    job, drum = drum_with(CORVANE | {"badge": {"value": CANNOT_TELL}})
    plain = dating_of(shop, *drum_with(CORVANE))
    found = dating_of(shop, job, drum)
    assert found is not None
    assert plain is not None
    assert found.found.odds.p.tolist() == plain.found.odds.p.tolist()
    assert "badge" in [one.feature for one in plain.found.next_features]
    assert "badge" not in [one.feature for one in found.found.next_features]


def test_what_the_reference_does_not_have_is_left_out_and_said(
    shop: Workshop, drum_with: Any
) -> None:
    facts = CORVANE | {"badge": {"value": "star"}, "serial": {"says": "opposite the vent"}}
    found = dating_of(shop, *drum_with(facts))
    assert found is not None
    assert [line.split(" is left out")[0] for line in found.left_out] == [
        "The badge", "The serial number"
    ]  # fmt: skip
    unlisted = dating_of(shop, *drum_with(CORVANE | {"badge": {"value": UNLISTED}}))
    assert unlisted is not None
    assert unlisted.found.unlisted == ("badge",)


def test_forms_of_other_sizes_and_lines_are_not_asked(shop: Workshop, drum_with: Any) -> None:
    """By hand from the packaged rows: the long lug is on 14 in drums of the Concert line only."""

    def lugs(size: str, line: str) -> list[str]:
        _, drum = drum_with({"maker": {"family": "Corvane", "line": line}}, size=size)
        known = known_of(drum, packaged_reference())
        asked = asked_features(packaged_reference(), known)
        return [v.name for one in asked if one.feature.name == "lug" for v in one.values]

    assert "long" in lugs("14 in dia x 5 in deep", "Concert")
    assert "long" in lugs("not measured yet", "")
    assert "long" not in lugs("14 in dia x 5 in deep", "Standard")
    assert "long" not in lugs("16 in dia x 16 in deep", "Concert")


def test_one_look_is_written_beside_what_others_say(shop: Workshop, drum_with: Any) -> None:
    job, drum = drum_with(CORVANE | {"badge": {"says": "bright", "who": "the owner"}})

    def look(value: str, *, based_on: int) -> Saved | Conflict:
        return write_look(
            shop, job.id, drum.id, "badge", value=value, sure="seen", based_on=based_on, by="b"
        )

    assert isinstance(look("square", based_on=1), Saved)
    held = kept_job(shop, job.id).drums[0].kept("facts").table["badge"]
    assert held == {"says": "bright", "who": "the owner", "value": "square", "sure": "seen"}
    assert isinstance(look("transfer", based_on=1), Conflict)


def test_the_identity_sheet_is_told_the_same(shop: Workshop, drum_with: Any) -> None:
    facts = CORVANE | LOOKS | {"serial": {"says": "9 800", "sure": "seen", "who": "inside"}}
    job, drum = drum_with(facts)
    known, found = identity_of(shop, job, drum), dating_of(shop, job, drum)
    assert found is not None
    assert ("serial number", "9 800 (seen, inside)") in known.marks
    assert str(found.found.spans[0.8].first) in known.dated[0]
    words = {one.part: one.word for one in found.found.origins}
    assert {one.part: one.word for one in known.parts} == words


# --- typed in one line each -------------------------------------------------------------------


def test_first_words_do_while_they_are_one_forms_alone() -> None:
    told = {"seen": ["badge=ROUND"], "told": ["shell=six"], "guessed": ["lug insert = brass"]}
    short = date_by_words(told, packaged_reference(), family="Corvane", looked_at=2026)
    whole = date_drum(
        [
            Seen(feature="badge", value="round, nailed", sure=0.95),
            Seen(feature="shell make-up", value="six plies", sure=0.8),
            Seen(feature="lug insert", value="brass, coil spring", sure=0.6),
        ],
        packaged_reference(), family="Corvane", looked_at=2026,
    )  # fmt: skip
    assert short.odds.p.tolist() == whole.odds.p.tolist()


@pytest.mark.parametrize(
    ("look", "says"),
    [
        ("badge", "with = between"),
        ("=round", "with = between"),
        ("bagde=round", 'Did you mean "badge"?'),
        ("badge=oblong", "one of transfer; round, nailed"),
        ("lug insert=steel", "more than one begins so"),
    ],
)
def test_a_look_that_cannot_be_read_is_one_line(look: str, says: str) -> None:
    with pytest.raises(BadInput) as refused:
        date_by_words({"seen": [look]}, packaged_reference(), family="Corvane", looked_at=2026)
    assert says in str(refused.value)
    assert "\n" not in str(refused.value)
