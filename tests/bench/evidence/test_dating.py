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
from counterhoop.bench.folders.kinds import SURVEY
from counterhoop.bench.folders.write_down import Change, write_down
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


OLD_SNARE = {
    "size": "14 in dia x 5 1/2 in deep",
    "rows": [{"head": "batter", "lugs": 8, "fitting": "Corvane round short lug"}],
    "fittings": [
        {"label": "strainer", "fitting": "Corvane lever strainer", "missing": True},
        {"label": "later strainer", "fitting": "Quennick roller strainer", "origin": "extra"},
        {"label": "badge", "fitting": "Corvane oval badge", "origin": "factory"},
    ],
}


def surveyed(shop: Workshop, drum_with: Any, facts: dict[str, Any]) -> Any:
    """Return a drum that the survey above tells of, the facts beside it."""
    job, drum = drum_with(CORVANE | facts)
    write_down(
        shop, job.id, Change(kind=SURVEY, name=drum.id, value=OLD_SNARE, based_on=1), by="bench"
    )
    kept = kept_job(shop, job.id)
    return kept, kept.drums[0]


@pytest.mark.parametrize(
    ("strainer", "by"),
    [
        ({"value": UNLISTED, "says": "a later one, beside its own holes"},
         "“a later one, beside its own holes”"),
        ({"value": UNLISTED, "says": "never seen such"},
         "the survey has the later strainer as added later"),
        ({"value": "drop lever"}, "the survey has the later strainer as added later"),
    ],
)  # fmt: skip
def test_what_the_shop_calls_later_is_said_as_its_word(
    shop: Workshop, drum_with: Any, strainer: dict[str, str], by: str
) -> None:
    """By hand; the years are those of the looks alone."""
    looks = {"badge": {"value": "oval, on a grommet"}, "strainer": strainer}
    told = surveyed(shop, drum_with, looks)
    found, bare = dating_of(shop, *told), dating_of(shop, *drum_with(CORVANE | looks))
    assert found is not None
    assert bare is not None
    assert found.told == {"strainer and butt": by}
    assert found.found.odds.p.tolist() == bare.found.odds.p.tolist()
    words = {one.part: one for one in identity_of(shop, *told).parts}
    worked_out = {one.part: one.word for one in found.found.origins}
    assert words["strainer and butt"].word == "later, says the shop"
    assert words["strainer and butt"].why == (
        f"{by}; by its looks alone: {worked_out['strainer and butt']}"
    )
    assert words["badge"].word == worked_out["badge"]
    said = identity_of(shop, *told).dated
    assert f"The strainer and butt: later, says the shop ({by})." in said
    assert not any("In no row" in line or "own." in line for line in said)


@pytest.mark.parametrize("says", ["not a later one", "no later than the badge", ""])
def test_what_nobody_calls_later_is_left_to_its_looks(
    shop: Workshop, drum_with: Any, says: str
) -> None:
    found = dating_of(shop, *drum_with(CORVANE | {"badge": {"value": UNLISTED, "says": says}}))
    assert found is not None
    assert found.told == {}


def test_a_form_against_the_fitting_that_the_survey_names_is_remarked(
    shop: Workshop, drum_with: Any
) -> None:
    """By hand: the oval badge goes with the survey's, the tube lug not with its round one."""
    looks = {"badge": {"value": "oval, on a grommet"}, "lug_casting": {"value": "tube and post"}}
    found = dating_of(shop, *surveyed(shop, drum_with, looks))
    assert found is not None
    assert found.remarks == (
        "The lug was seen as tube and post, and the survey names Corvane round short lug: look "
        "again which hangs there.",
    )
    agreed = surveyed(shop, drum_with, looks | {"lug_casting": {"value": "round"}})
    agreed_found = dating_of(shop, *agreed)
    assert agreed_found is not None
    assert agreed_found.remarks == ()


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


def test_a_mark_without_words_is_no_mark(shop, drum_with) -> None:
    job, drum = drum_with(
        {"maker": {"says": " ", "sure": "told"}, "serial": {"says": "61 482", "who": "its label"}}
    )
    assert identity_of(shop, job, drum).marks == (("serial number", "61 482 (its label)"),)
