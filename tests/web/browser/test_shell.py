"""A survey typed in a browser: by keyboard alone, on a phone, through reloads and lost lines."""

from __future__ import annotations

import re
from importlib.resources import files

import pytest
from playwright.sync_api import expect
from shell_pages import NewDrum, ShellSheet, lose_first, tab_to

from counterhoop.bench.folders.first_page import on_the_bench
from counterhoop.bench.folders.folder import kept_job
from counterhoop.bench.folders.open_folder import add_drum, open_folder
from counterhoop.bench.folders.survey_file import take_in
from counterhoop.bench.long_work.at_once import WorksAtOnce
from counterhoop.bench.workshop import Workshop
from counterhoop.store.address import address_of
from counterhoop.store.store import open_store
from counterhoop.web.app import make_app

DEMO = files("counterhoop.bench").joinpath("demonstration", "survey.toml").read_bytes()
TOM = {
    "kind": "tom", "heads": 1, "circumference": "952 mm", "wall": "5 mm", "depth": "200 mm",
    "rows": [
        {"head": "batter", "lugs": 6, "fitting": "Corvane round lug", "first": "30 deg",
         "near": ["37.5 mm", "79.5 mm"], "hole": "6 mm"}
    ],
}  # fmt: skip


@pytest.fixture
def shop(tmp_path):
    with open_store(address_of(data=tmp_path / "data")) as store:
        yield Workshop(store=store, works=WorksAtOnce())


@pytest.fixture
def bench(shop, app_on):
    """The pages of a workshop of this test's own."""
    return app_on(make_app(shop))


@pytest.fixture
def tom(shop):
    """A job with one small tom in it."""
    job = open_folder(shop, job={"number": "7", "client": "Quennick"}, by="bench")
    return job, add_drum(shop, job, name="small tom", survey=TOM, by="bench")


def survey(shop, tom):
    job, drum = tom
    return kept_job(shop, job).drum(drum).kept("survey").table


def test_how_it_looks(shop, bench, open_page, look, axe):
    job = take_in(shop, DEMO, name="survey.toml", book_of=lambda _: b"", by="bench")
    drum = kept_job(shop, job).drums[0]
    page = open_page(bench)
    sheet = ShellSheet(page).open(job, drum.id)
    sheet.open_line("row-0")
    axe(page)
    look(page, "shell-demo")
    page.goto(f"/jobs/{job}/drums/new")
    axe(page)
    look(page, "new-drum")


def test_a_drum_by_keyboard_alone(shop, bench, open_page):
    job = open_folder(shop, job={"number": "7", "client": "Quennick"}, by="bench")
    page = open_page(bench)
    new = NewDrum(page, job).open()
    new.type("Circumference", "37 1/2 in")
    new.type("Depth", "7 7/8 in")
    new.type("Wall", "5 mm")
    # With three measures the shell is drawn; nothing was pressed but Tab and letters.
    page.keyboard.press("Tab")
    expect(page.locator("#flat-picture")).to_contain_text("RESONANT EDGE")
    new.type("How many lugs", "6")
    new.type("Datum to lug 1", "30 deg")
    new.type("Hole 1", "37.5 mm")
    new.type("Hole 2", "79.5 mm")
    new.type("Diameter of the holes", "6 mm")
    page.keyboard.press("Tab")
    expect(page.locator("#flat-picture [data-hole]")).to_have_count(12)
    # It is in the folder already, before the button: a reload finds what was typed.
    expect(page).to_have_url(re.compile(r"/drums/new\?drum=\w+$"))
    new.type("The lug", "Corvane round lug")
    new.type("What the drum is called", "small tom")
    tab_to(page, "Put it into the folder")
    sheet = new.put_into_folder()
    expect(sheet.holes).to_have_count(12)
    # One odd hole, by keyboard too: Enter writes it down and the next empty form is reached.
    tab_to(page, "Along, its middle")
    page.keyboard.type("lug 2 + 42 mm")
    for label, words in (("Edge to its near side", "44 mm"), ("Diameter", "8 mm")):
        tab_to(page, label)
        page.keyboard.type(words)
    page.keyboard.press("Enter")
    expect(sheet.line("hole-0")).to_contain_text("Hole 13")
    expect(sheet.holes).to_have_count(13)
    expect(sheet.field("hole-new", "along")).to_be_focused()
    expect(sheet.field("hole-new", "along")).to_have_value("")
    drum = kept_job(shop, job).drums[0]
    assert drum.name == "small tom"
    assert drum.kept("survey").table["circumference"] == "37 1/2 in"
    assert drum.kept("survey").table["holes"] == [
        {"along": "lug 2 + 42 mm", "near": "44 mm", "dia": "8 mm"}
    ]


def test_a_hole_is_tapped_on_a_phone(shop, tom, bench, open_page, fits):
    phone = open_page(bench, size={"width": 360, "height": 740}, has_touch=True, is_mobile=True)
    sheet = ShellSheet(phone).open(*tom)
    fits(phone)
    frame = phone.locator("#flat-picture svg")
    frame.scroll_into_view_if_needed()
    box = frame.bounding_box()
    phone.touchscreen.tap(box["x"] + 190, box["y"] + box["height"] / 2)
    # The tap wrote the place; writing goes on at the size.
    expect(sheet.field("hole-new", "dia")).to_be_focused()
    expect(sheet.field("hole-new", "along")).to_have_value(re.compile(r"^[\d.]+ mm$"))
    sheet.field("hole-new", "dia").fill("8 mm")
    sheet.field("hole-new", "dia").press("Enter")
    expect(sheet.holes).to_have_count(13)
    fits(phone)
    (hole,) = survey(shop, tom)["holes"]
    assert hole["dia"] == "8 mm"


def test_a_fault_is_said_at_its_field_and_left_out_of_the_drawing(shop, tom, bench, open_page):
    page = open_page(bench)
    sheet = ShellSheet(page).open(*tom)
    sheet.write_hole(along="lug 9 + 4 mm", near="44 mm", dia="8 mm")
    expect(sheet.adds_up).to_contain_text("no batter lug 9")
    expect(sheet.adds_up).to_contain_text("leaves out what cannot be read")
    along = sheet.field("hole-0", "along")
    expect(along).to_be_visible()
    expect(along).to_have_attribute("aria-invalid", "true")
    expect(sheet.holes).to_have_count(12)
    along.fill("lug 3 + 4 mm")
    along.blur()
    expect(sheet.holes).to_have_count(13)
    expect(sheet.adds_up).not_to_contain_text("lug 9")
    expect(along).not_to_have_attribute("aria-invalid", "true")


def test_a_reload_in_mid_entry_keeps_all(shop, tom, bench, open_page):
    page = open_page(bench)
    sheet = ShellSheet(page).open(*tom)
    sheet.field("hole-new", "along").fill("lug 2 + 42 mm")
    # Not even left the field: nothing was sent yet.
    page.reload()
    expect(sheet.field("hole-new", "along")).to_have_value("lug 2 + 42 mm")
    sheet.kept("hole-new")
    sheet.field("hole-new", "near").fill("44 mm")
    sheet.field("hole-new", "dia").fill("8 mm")
    sheet.field("hole-new", "dia").press("Enter")
    expect(sheet.line("hole-0")).to_contain_text("44 mm")
    assert survey(shop, tom)["holes"] == [
        {"along": "lug 2 + 42 mm", "near": "44 mm", "dia": "8 mm"}
    ]


def test_a_lost_connection_in_mid_entry_loses_nothing(shop, tom, bench, open_page):
    page = open_page(bench)
    page.watch.allow("ERR_INTERNET_DISCONNECTED|Failed to fetch")
    sheet = ShellSheet(page).open(*tom)
    page.context.set_offline(True)
    sheet.field("hole-new", "along").fill("lug 2 + 42 mm")
    sheet.field("hole-new", "near").fill("44 mm")
    expect(sheet.answer("hole-new")).to_contain_text("Not saved: no connection")
    expect(sheet.field("hole-new", "along")).to_have_value("lug 2 + 42 mm")
    assert "holes" not in survey(shop, tom)
    page.context.set_offline(False)
    sheet.kept("hole-new")
    assert survey(shop, tom)["holes"] == [{"along": "lug 2 + 42 mm", "near": "44 mm"}]


def test_an_answer_that_is_lost_doubles_nothing(shop, tom, bench, open_page):
    """The line breaks after the program has written, before its answer is there; typing goes on."""
    page = open_page(bench)
    sheet = ShellSheet(page).open(*tom)
    lost = lose_first(page, "**/shell/hole")
    sheet.field("hole-new", "along").fill("lug 2 + 42 mm")
    sheet.field("hole-new", "near").fill("44 mm")
    sheet.kept("hole-new")
    assert lost == [200]
    assert survey(shop, tom)["holes"] == [{"along": "lug 2 + 42 mm", "near": "44 mm"}]


@pytest.mark.parametrize("reloaded", [False, True])
def test_a_lost_answer_to_the_first_number_opens_no_second_folder(shop, bench, open_page, reloaded):
    """The folder is opened and nobody hears of it; the next number is typed meanwhile."""
    page = open_page(bench)
    lost = lose_first(page, "**/drums/new")
    page.goto("/drums/new")
    circumference, depth = page.get_by_label("Circumference"), page.get_by_label("Depth")
    circumference.fill("952 mm")
    depth.focus()
    expect(page.locator("#eight-answer")).to_contain_text("Not saved: no connection")
    depth.fill("200 mm")
    if reloaded:
        page.reload()
    else:
        depth.blur()
    expect(page).to_have_url(re.compile(r"/jobs/\w+/drums/new\?drum=\w+$"))
    expect(depth).to_have_value("200 mm")
    # The depth is a second writing of the one drum.
    expect(page.locator("#eight-based-on [name=based_on]")).to_have_value("2")
    assert lost == [200]
    ((drum,),) = [kept_job(shop, one.id).drums for one in on_the_bench(shop)]
    table = drum.kept("survey").table
    assert (table["circumference"], table["depth"]) == ("952 mm", "200 mm")


def test_two_windows_write_different_things_and_the_same_thing(shop, tom, bench, open_page):
    one, other = (open_page(bench) for _ in range(2))
    other.watch.allow("409")
    sheets = [ShellSheet(page).open(*tom) for page in (one, other)]
    for sheet in sheets:
        sheet.open_line("shell")
    first, second = sheets
    first.field("shell", "wall").fill("6 mm")
    first.field("shell", "wall").blur()
    first.kept("shell")
    # A hole is another thing: it goes in beside what the first window wrote.
    second.write_hole(along="lug 2 + 42 mm", near="44 mm", dia="8 mm")
    expect(second.line("hole-0")).to_contain_text("44 mm")
    assert survey(shop, tom)["wall"] == "6 mm"
    # The wall is the same thing: both are shown, nothing is written over.
    second.field("shell", "wall").fill("7 mm")
    second.field("shell", "wall").blur()
    told = second.answer("shell")
    expect(told).to_contain_text("Two versions: choose one")
    expect(told.locator("tr", has_text="Wall")).to_contain_text("6 mm")
    assert survey(shop, tom)["wall"] == "6 mm"
    told.get_by_role("button", name="Keep yours").click()
    other.wait_for_url("**/shell*")
    assert survey(shop, tom)["wall"] == "7 mm"
    assert len(survey(shop, tom)["holes"]) == 1


def test_undo_goes_back_step_by_step(shop, tom, bench, open_page):
    page = open_page(bench)
    sheet = ShellSheet(page).open(*tom)
    for near in ("44 mm", "60 mm"):
        sheet.write_hole(along="lug 2 + 42 mm", near=near, dia="8 mm")
        expect(sheet.field("hole-new", "near")).to_have_value("")
    for left in (1, 0):
        page.get_by_role("button", name="Undo the last step").click()
        page.wait_for_load_state()
        expect(sheet.holes).to_have_count(12 + left)
    page.get_by_role("link", name="Earlier versions of the survey").click()
    page.get_by_role("button", name="Go back to version 3").click()
    page.wait_for_load_state()
    assert [hole["near"] for hole in survey(shop, tom)["holes"]] == ["44 mm", "60 mm"]


def test_a_correction_by_mouse_and_its_history(shop, tom, bench, open_page, axe):
    page = open_page(bench)
    sheet = ShellSheet(page).open(*tom)
    page.get_by_role("button", name="The survey is done: this is how it was found").click()
    page.wait_for_url("**/shell*")
    sheet.open_line("shell")
    sheet.field("shell", "wall").fill("6 mm")
    sheet.form("shell").get_by_role("button", name="Correct it").click()
    asked = sheet.answer("shell")
    expect(asked).to_contain_text("Correct how it was found?")
    axe(page)
    asked.get_by_label("Why").fill("read on the ring")
    asked.get_by_label("Why").press("Enter")
    expect(page.locator("#as-found tbody")).to_contain_text("read on the ring")
    page.get_by_role("link", name="Earlier versions of the survey").click()
    expect(page.locator("#version-2")).to_contain_text("Corrected, because: read on the ring")
    axe(page)


def test_the_survey_is_done_right_after_a_hole_was_written(shop, tom, bench, open_page):
    page = open_page(bench)
    sheet = ShellSheet(page).open(*tom)
    sheet.write_hole(along="lug 2 + 42 mm", near="44 mm", dia="8 mm")
    expect(sheet.line("hole-0")).to_contain_text("44 mm")
    # The page was opened on the version before the hole; nobody else wrote since.
    page.get_by_role("button", name="The survey is done: this is how it was found").click()
    expect(page.locator("#as-found")).to_contain_text("Whatever is changed now is a correction")
    assert len(survey(shop, tom)["holes"]) == 1


def test_an_end_without_an_edge_keeps_its_note(shop, tom, bench, open_page):
    page = open_page(bench)
    sheet = ShellSheet(page).open(*tom)
    sheet.open_line("edge-resonant")
    sheet.field("edge-resonant", "there").select_option("no")
    sheet.kept("edge-resonant")
    sheet.field("edge-resonant", "says").fill("sawn square")
    sheet.field("edge-resonant", "says").press("Enter")
    expect(sheet.line("edge-resonant").locator("summary").first).to_contain_text("sawn square")
    assert survey(shop, tom)["edges"]["resonant"]["says"] == "sawn square"


def test_what_is_reached_by_keys_is_not_under_the_drawing(shop, tom, bench, open_page):
    """WCAG 2.2, 2.4.11: the drawing stays, so whatever has the focus must come out from under."""
    page = open_page(bench)
    ShellSheet(page).open(*tom, query="?open=row-0")
    for _ in range(40):
        page.keyboard.press("Tab")
        hidden = page.evaluate(
            """() => {
              const one = document.activeElement, stays = document.querySelector(".stays");
              if (one === document.body || stays.contains(one)) return "";
              const box = one.getBoundingClientRect(), over = stays.getBoundingClientRect();
              const stuck = over.top < 1 && box.bottom <= over.bottom && box.right > over.left;
              return stuck && one.closest("main") ? one.outerHTML.slice(0, 90) : "";
            }"""
        )
        assert hidden == ""
