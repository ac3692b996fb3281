"""A drum is dated on a phone: two parts in conflict, one more look, and which of them is later.

Truth: what a person sees and answers, step by step, on the packaged reference, which is invented;
WCAG 2.2 as axe-core reads it.
"""

from __future__ import annotations

import pytest

from counterhoop.bench.folders.open_folder import add_drum, open_folder
from counterhoop.bench.long_work.at_once import WorksAtOnce
from counterhoop.bench.workshop import open_workshop
from counterhoop.web.app import make_app

NARROW = {"width": 360, "height": 740}


@pytest.fixture
def drum(tmp_path, app_on):
    """A drum of which nothing is said yet, and where its sheet is."""
    with open_workshop(data=tmp_path / "data", works=WorksAtOnce()) as shop:
        job = open_folder(shop, job={"number": "44-001"}, by="bench")
        survey = {"size": "12 in dia x 8 in deep"}
        ident = add_drum(shop, job, name="old tom", survey=survey, by="bench")
        yield app_on(make_app(shop)), f"/jobs/{job}/drums/{ident}"


def test_a_drum_is_dated_on_a_phone_and_its_conflict_is_settled(
    drum, open_page, axe, fits, look
) -> None:
    served, address = drum
    page = open_page(served, size=NARROW)
    page.goto(address)
    dating = page.get_by_role("region", name="When it was made")
    dating.get_by_text("Say beneath under Maker whose it is").wait_for()
    maker = page.get_by_role("group", name="Maker")
    maker.get_by_label("Family in the reference").select_option("Corvane")
    dating.get_by_text("This does not date it").wait_for()

    def answer(name: str, form: str) -> None:
        group = page.get_by_role("group", name=name)
        group.get_by_label("How sure").select_option("seen")
        group.get_by_label("Which of these").select_option(form)

    answer("Badge", "square")
    dating.get_by_text("This rests on the badge alone.").wait_for()
    answer("Lug castings", "tube and post")
    dating.get_by_text("This rests on the lug, then on the badge.").wait_for()
    answer("Damper", "flat knob, grey felt")
    conflict = dating.get_by_text("either the badge came later")
    conflict.wait_for()
    assert dating.get_by_text("or the lugs came from an older drum").is_visible()
    page.reload()
    conflict.wait_for()
    axe(page)
    fits(page)
    look(page, "dated-conflict")
    # The look that tells most is asked for, with how and how long, and answered there.
    ask = dating.locator("form.next-look").first
    assert "count the plies" in ask.inner_text()
    assert "about 3 minutes" in ask.inner_text()
    ask.get_by_label("What it is").select_option("six plies")
    with page.expect_navigation():
        ask.get_by_role("button", name="Write it down").click()
    assert not conflict.is_visible()
    assert dating.get_by_text("Most likely made").is_visible()
    # The badge goes with the plies; whether the lugs are older or were late in use stays open.
    assert dating.get_by_text("The lugs: can't tell whether the drum's own.").is_visible()
    dating.get_by_text("How it was worked out").click()
    assert dating.locator(".years-narrow svg").is_visible()
    axe(page)
    fits(page)
    look(page, "dated-settled")


def test_the_dated_features_keep_to_wcag_and_fit(drum, open_page, axe, look) -> None:
    served, _ = drum
    page = open_page(served)
    page.goto("/workshop/dated")
    page.locator("summary").first.click()
    axe(page)
    look(page, "dated-features")
    page.get_by_role("link", name="oval, on a grommet").click()
    page.watch.allow("422")
    page.get_by_label("First year", exact=True).fill("soon after the war")
    page.get_by_role("button", name="Write it down").click()
    page.get_by_text("Not a year").wait_for()
    axe(page)
    look(page, "dated-row")
