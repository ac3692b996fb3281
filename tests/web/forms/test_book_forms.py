"""A fitting typed into a form is an entry of a fittings book file.

Truth: the book's own reader, and the packaged book, every entry of which is written again.
"""

from __future__ import annotations

import tomli_w
from written_things import packaged_entries

from counterhoop.fittings.read_book import MODELS, packaged_book, read_book
from counterhoop.web.forms import faults_in, make_form, read_form


def test_the_packaged_book_can_be_typed_again_entry_by_entry() -> None:
    typed = []
    for entry in packaged_entries():
        form = make_form("book entry", entry)
        typed.append(read_form("book entry", [(field.name, field.value) for field in form.fields]))
    book = read_book(tomli_w.dumps({"fitting": typed}), name="mine.toml")
    assert book == packaged_book()


def test_every_sort_of_fitting_has_a_form() -> None:
    for kind, model in MODELS.items():
        names = {
            field.name.split(".")[0] for field in make_form("book entry", {"kind": kind}).fields
        }
        assert set(model.model_fields) <= names, kind
    assert len(MODELS) == 23


def test_a_sort_that_is_not_chosen_yet_asks_for_that_alone() -> None:
    form = make_form("book entry", {})
    assert [field.name for field in form.fields] == ["kind"]
    assert {option.value for option in form.fields[0].options} == {"", *MODELS}
    assert [fault.where for fault in faults_in("book entry", {})] == ["kind"]
