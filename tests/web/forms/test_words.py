"""Every field has its words, and the words say only what is so.

Truth: the models of the file themselves, walked; and the file's own reader, which must take every
example that a help gives.
"""

from __future__ import annotations

import re
import types
from collections.abc import Iterator
from typing import Annotated, Any, Union, get_args, get_origin

import pytest
from pydantic import BaseModel, ValidationError

from counterhoop.fittings.kinds import AnyEntry
from counterhoop.shell.survey_file import models_wish
from counterhoop.shell.survey_file.models_job import DrumWritten, SurveyWritten
from counterhoop.shell.survey_file.models_tuning import KitWritten, TuningWritten
from counterhoop.web.forms import THINGS, make_form
from counterhoop.web.forms.things import inner_table
from counterhoop.web.forms.words import words_in

# What no form types: the format, what is chosen by pressing a button, what is kept of recordings.
NOT_TYPED = {"format", "chosen", "readings"}
BARE = {"Stock", "Rules", "Prices", "Minutes", "Cure"}
# Tables that are pages of forms and not fields.
FOLDERS = {"SurveyWritten", "EdgesWritten", "RoundsWritten", "FitsWritten"}


def models_in(annotation: Any) -> Iterator[type[BaseModel]]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation
    elif get_origin(annotation) in (Annotated, Union, types.UnionType, tuple, list, dict):
        for inner in get_args(annotation):
            yield from models_in(inner)


def reached(model: type[BaseModel], *, but: frozenset[str] = frozenset()) -> set[type[BaseModel]]:
    found, left = set(), [model]
    while left:
        here = left.pop()
        if here not in found:
            found.add(here)
            for name, field in here.model_fields.items():
                if name not in but:
                    left += models_in(field.annotation)
    return found


def fields_of(models: set[type[BaseModel]]) -> set[tuple[str, str]]:
    return {
        (model.__name__, field.alias or name)
        for model in models
        for name, field in model.model_fields.items()
    }


def survey_fields() -> set[tuple[str, str]]:
    found = fields_of(reached(SurveyWritten, but=frozenset(NOT_TYPED)))
    whole = set(THINGS_OF_DRUM) | {"format", "tuning"}
    return {
        (model, name)
        for model, name in found
        if model not in FOLDERS
        and name not in NOT_TYPED
        and not (model == "DrumWritten" and name in whole)
        and not (model == "TuningWritten" and name in ("turns", "heights"))
    }


THINGS_OF_DRUM = {
    thing.place for thing in THINGS.values() if thing.document in ("survey", "wish") and thing.place
} - {"air"}


def test_every_field_of_the_survey_file_has_words_and_no_word_is_left_over() -> None:
    known = {key for key in words_in("words.toml") if key[0] not in BARE}
    assert survey_fields() - known == set()
    assert known - survey_fields() == set()


def test_every_field_of_the_book_has_words_and_no_word_is_left_over() -> None:
    models = {m for entry in models_in(AnyEntry) for m in reached(entry)}
    # Money is written as one text.
    wanted = {key for key in fields_of(models) if key[0] != "Money"}
    assert set(words_in("book_words.toml")) == wanted


def test_a_field_without_words_would_be_seen() -> None:
    assert ("RowWritten", "lugs") in survey_fields()
    assert ("RowWritten", "pegs") not in survey_fields()


def test_everything_of_a_drum_has_one_form() -> None:
    shell = THINGS["shell"].only
    places = [t.place for t in THINGS.values() if t.document in ("survey", "wish") and t.place]
    assert len(places) == len(set(places))
    assert set(shell) | set(places) == set(DrumWritten.model_fields) - NOT_TYPED - {"tuning"}
    assert not set(shell) & set(places)


def test_all_of_tuning_has_one_form() -> None:
    places = [t.place for t in THINGS.values() if t.document == "tuning" and t.place]
    here = [*THINGS["heads"].only, *places]
    assert sorted(here) == sorted(set(TuningWritten.model_fields) - NOT_TYPED)
    assert sorted(THINGS["kit"].only) == sorted(KitWritten.model_fields)


def test_everything_of_a_job_has_one_form() -> None:
    places = [t.place for t in THINGS.values() if t.document == "job"]
    here = [*places, "approval", "drums", "kit", "format"]
    assert sorted(here) == sorted(SurveyWritten.model_fields)


@pytest.mark.parametrize("table", ["words.toml", "book_words.toml"])
def test_helps_are_one_sentence_and_labels_are_short(table: str) -> None:
    for key, words in words_in(table).items():
        for units in ("mm", "in"):
            said = words.helped(units)
            assert said[:1].isupper() or said[:1].isdigit(), key
            assert said.endswith("."), key
            assert not re.search(r"[.!?] [A-Z]", said), key
            assert "{" not in said, key
            assert len(said) < 140, key
        assert bool(words.eg) == ("{eg}" in words.help), key
        assert 2 <= len(words.label) <= 45, key


def test_helps_name_what_belongs_to_the_other_units_never() -> None:
    """A person who works in inches sees inches, and one in millimetres sees those."""
    for table in ("words.toml", "book_words.toml"):
        for key, words in words_in(table).items():
            if len(words.eg) == 2:
                assert not re.search(r"\d in\b|tpi|thou", words.eg[0]), key
                assert not re.search(r"\d (mm|cm)\b", words.eg[1]), key


def examples() -> Iterator[tuple[str, str, str]]:
    for (model, name), words in words_in("words.toml").items():
        for eg in words.eg:
            for one in eg.split(" and ") if words.pair else [eg]:
                yield model, name, one


def test_the_file_takes_every_example() -> None:
    models = {m.__name__: m for m in reached(SurveyWritten)}
    models |= {m.__name__: m for m in models_in(models_wish.WishWritten)}
    tried = 0
    for model, name, eg in examples():
        if model in BARE:
            continue
        for given in (eg, [eg], [[eg, eg]] * 3):
            complaints = said_against(models[model], name, given)
            if not complaints:
                tried += 1
                break
        else:
            raise AssertionError((model, name, eg, complaints))
    assert tried > 150


def said_against(model: type[BaseModel], name: str, given: object) -> list[object]:
    try:
        model.model_validate({name: given})
    except ValidationError as error:
        return [fault for fault in error.errors() if fault["loc"][:1] == (name,)]
    return []


def test_an_example_that_the_file_refuses_would_be_seen() -> None:
    assert said_against(DrumWritten, "wall", "5")
    assert not said_against(DrumWritten, "wall", "5 mm")


def test_fields_that_are_seen_first_are_fields() -> None:
    models = {m.__name__: m for m in reached(SurveyWritten)}
    for thing in THINGS.values():
        names = {f.alias or n for n, f in models[thing.model].model_fields.items()} if (
            thing.model in models
        ) else set()  # fmt: skip
        assert {name.split(".")[0] for name in (*thing.first, *thing.only)} <= names, thing.name
    for model in models.values():
        known = {field.alias or name for name, field in model.model_fields.items()}
        if model.__name__ != "HoleWritten":  # the book has one of that name as well
            assert set(inner_table(model.__name__).first) <= known, model


def test_inches_are_offered_to_who_works_in_inches() -> None:
    form = make_form("shell", {}, units="in")
    wall = next(field for field in form.fields if field.name == "wall")
    assert wall.help == "Thickness of the bare shell away from the rings, such as 7/32 in."
