"""Fittings book, shop rules, printer, safe keeping: what is said, kept, and refused.

Truth: worked by hand from what is typed.
"""

from __future__ import annotations

import re
from html import unescape

import pytest

from counterhoop.bench.copies import copies
from counterhoop.bench.folders.folder import drawer
from counterhoop.bench.folders.kinds import BOOK, PRINTER, RULES
from counterhoop.bench.folders.own_book import own_book
from counterhoop.bench.folders.source import workshop_printing
from counterhoop.bench.keep_safe import restore_backup
from counterhoop.web.forms import make_form

LUG = {
    "name": "Quennick pin lug", "kind": "lug", "source": "measured, caliper, two of them",
    "base": {"shape": "rounded", "width": "22 mm", "height": "56 mm", "corner": "11 mm"},
    "holes": [{"down": "-21 mm", "hole": "6 mm", "screw": "4.8 mm"},
              {"down": "21 mm", "hole": "6 mm", "screw": "4.8 mm"}],
    "reach": "21 mm", "mouth": "-28 mm", "rod_line": "10 mm", "free_depth": "28 mm",
    "thread": "12-24",
}  # fmt: skip
NEW = "/workshop/fittings/own/new"


def typed(item: dict, **more: object) -> dict:
    """Return what a browser sends for the form of an entry."""
    fields = make_form("book entry", item).fields
    return {one.name: one.value for one in fields} | {"based_on": 0, **more}


def words(answer) -> str:
    """Return what a page says, without its markup."""
    body = re.sub(r"<(script|style)\b.*?</\1>", " ", answer.text, flags=re.S)
    return " ".join(unescape(re.sub(r"<[^>]*>", " ", body)).split())


def post(bench, path: str, data: dict):
    return bench.ask.post(path, data=data, follow_redirects=False)


# --- the book ----------------------------------------------------------------------------------


def test_the_book_is_found_by_name_thread_and_size(bench) -> None:
    every = words(bench.ask.get("/workshop/fittings"))
    assert "137 fittings" in every
    assert "Nothing yet." in every
    some = words(bench.ask.get("/workshop/fittings", params={"find": "m6 42", "kind": "rod"}))
    assert "1 of 137 fittings" in some
    assert "rod M6 x 42 mm" in some
    none = words(bench.ask.get("/workshop/fittings", params={"find": "no such thing"}))
    assert "No fitting has all of these words." in none


@pytest.mark.parametrize(
    "name", ["Corvane round lug", "rod 7/32-24 x 42 mm", "flanged hoop 14 in, 8 ears"]
)
def test_an_entry_says_its_figures_and_where_they_come_from(bench, name: str) -> None:
    said = bench.ask.get("/workshop/fittings/entry", params={"name": name})
    assert said.status_code == 200
    assert "Where this comes from: invented for the demonstration" in words(said)
    assert ("<svg" in said.text) == ("hoop" not in name)


@pytest.mark.parametrize(
    "path",
    [
        "/workshop/fittings/entry?name=none", "/workshop/fittings/own/0",
        "/workshop/fittings/own/new?like=none", "/workshop/history/none",
        "/workshop/safe/backups/none.zip", "/papers/check-sheet?paper=A9",
    ],
)  # fmt: skip
def test_what_is_not_there_is_said_in_words(bench, path: str) -> None:
    said = bench.ask.get(path)
    assert said.status_code == 404
    assert "That is not here" in words(said)


def test_an_own_lug_is_written_offered_changed_and_put_away(bench) -> None:
    done = post(bench, NEW, typed(LUG, done="yes"))
    assert (done.status_code, done.headers["location"]) == (
        303, "/workshop/fittings/entry?name=Quennick%20pin%20lug",
    )  # fmt: skip
    said = words(bench.ask.get(done.headers["location"]))
    assert "22.0 wide x 56.0 tall mm" in said
    assert "measured, caliper, two of them" in said
    assert own_book(drawer(bench.shop)).book.find("quennick pin lug").rod_line_mm == 10.0
    half = typed({**LUG, "rod_line": "ten"}, based_on=1, at="0", done="yes")
    done = post(bench, "/workshop/fittings/own/0", half)
    assert done.headers["location"] == "/workshop/fittings/own/0"
    form = bench.ask.get("/workshop/fittings/own/0")
    assert 'value="ten"' in form.text
    assert "so no job uses it" in words(form)
    assert "cannot be read yet" in words(bench.ask.get("/workshop")).casefold()
    done = post(bench, "/workshop/undo", {"kind": "book", "number": 1, "based_on": 2})
    assert done.status_code == 303
    assert own_book(drawer(bench.shop)).unread == ()
    assert post(bench, "/workshop/fittings/own/0/away", {"based_on": 3}).status_code == 303
    assert "Take it out again" in words(bench.ask.get("/workshop/fittings"))
    assert post(bench, "/workshop/fittings/away", {"at": 0, "based_on": 4}).status_code == 303
    history = bench.ask.get(f"/workshop/history/{drawer(bench.shop)[BOOK].document_id}")
    assert "Version 1 was chosen again." in words(history)


def test_ones_own_figures_lie_over_the_packaged_ones_until_they_are_put_away(bench) -> None:
    form = bench.ask.get(NEW, params={"like": "Corvane round lug", "over": "yes"})
    assert 'value="Corvane round lug"' in form.text
    assert 'value="9.5 mm"' in form.text
    like = bench.ask.get(NEW, params={"like": "Corvane round lug"})
    assert 'value="Corvane round lug"' not in like.text
    post(bench, NEW, typed({**LUG, "name": "Corvane round lug"}, done="yes"))
    said = words(bench.ask.get("/workshop/fittings/entry?name=Corvane+round+lug"))
    assert "yours, over the packaged one" in said
    assert "What the packaged entry says" in said
    listed = words(bench.ask.get("/workshop/fittings?find=corvane+round+lug"))
    assert "Lies over the packaged entry." in listed


def test_typing_keeps_what_is_there_and_draws_it_when_it_can_be_read(bench) -> None:
    part = {"HX-Request": "true"}
    begun = bench.ask.post(NEW, data=typed({"kind": "lug", "name": "Quennick"}), headers=part)
    assert begun.status_code == 200
    assert 'data-goes-on="/workshop/fittings/own/0"' in begun.text
    assert "is missing" not in begun.text
    # The form still goes to the address of a new one; its place has come with the answer.
    whole = bench.ask.post(NEW, data=typed(LUG, at="0", based_on=1), headers=part)
    assert "<svg" in whole.text
    assert [one.name for one in own_book(drawer(bench.shop)).entries] == ["Quennick pin lug"]


def test_two_who_change_one_entry_are_shown_both(bench) -> None:
    post(bench, NEW, typed(LUG, done="yes"))
    post(bench, "/workshop/fittings/own/0", typed({**LUG, "reach": "22 mm"}, based_on=1, at="0"))
    late = typed({**LUG, "reach": "23 mm"}, based_on=1, at="0")
    both = post(bench, "/workshop/fittings/own/0", late)
    assert both.status_code == 409
    assert "22 mm" in words(both)
    assert "23 mm" in words(both)
    kept = post(bench, "/workshop/fittings/own/0", late | {"based_on": 2, "keep": "mine"})
    assert kept.status_code == 303
    assert own_book(drawer(bench.shop)).entries[0].item["reach"] == "23 mm"
    theirs = post(bench, "/workshop/fittings/own/0", late | {"keep": "theirs"})
    assert theirs.headers["location"] == "/workshop/fittings/own/0"


def test_a_new_entry_sent_twice_is_one_entry(bench) -> None:
    """A phone sends again when it does not hear that the first was kept."""
    for _ in range(2):
        done = post(bench, NEW, typed(LUG, done="yes", based_on=0))
        assert done.status_code == 303
    assert len(own_book(drawer(bench.shop)).entries) == 1


# --- the rules ---------------------------------------------------------------------------------


def rule(bench, name: str, value: str, **more: object):
    number = drawer(bench.shop)[RULES].number if RULES in drawer(bench.shop) else 0
    table, _, called = name.partition("/")
    data = {"ident": "-".join(called.split()), "based_on": number, f"{table}/{called}": value}
    return post(bench, "/workshop/rules/figure", data | more)


def test_every_limit_is_listed_and_findings_lead_to_it(bench) -> None:
    from counterhoop.shell.survey_file.resolve_shop import rule_names

    said = bench.ask.get("/workshop/rules")
    for name in rule_names():
        assert f'id="{name}"' in said.text
    assert "0 of 37 are yours" in words(said)
    assert "common practice, no source" in words(said)


def test_ones_own_limit_is_marked_and_goes_back_to_the_usual(bench) -> None:
    done = rule(bench, "rules/web", "9 mm")
    assert (done.status_code, done.headers["location"]) == (303, "/workshop/rules#web")
    said = words(bench.ask.get("/workshop/rules"))
    assert "Web between two holes 9.0 mm (11/32 in) yours , usually 6.0 mm" in said
    assert rule(bench, "rules/plug_factor", "2,8").status_code == 303
    assert rule(bench, "minutes/plug a hole", "15 min").status_code == 303
    assert rule(bench, "cure/plug a hole", "24 h").status_code == 303
    assert drawer(bench.shop)[RULES].table == {
        "rules": {"web": "9 mm", "plug_factor": 2.8}, "minutes": {"plug a hole": "15 min"},
        "cure": {"plug a hole": "24 h"},
    }  # fmt: skip
    assert "15 min, then 24 h left alone" in words(bench.ask.get("/workshop/rules"))
    rule(bench, "rules/web", "9 mm", usual="yes")
    assert "web" not in drawer(bench.shop)[RULES].table["rules"]


@pytest.mark.parametrize(
    ("name", "value", "says"),
    [
        ("rules/web", "9", "9 what: mm or in?"),
        ("minutes/plug a hole", "12", "12 what: min or h?"),
        ("rules/lean_fixed", "80 deg", "More than any rod can lean"),
        ("rules/plug_factor", "many", "Not a plain number"),
        ("minutes/plug a hole", "quick", "one length of time"),
        ("prices/hour", "30", "currency"),
    ],
)
def test_a_figure_that_cannot_be_read_is_said_at_its_field(bench, name, value, says) -> None:
    answer = rule(bench, name, value)
    assert answer.status_code == 422
    assert f'value="{value}"' in answer.text
    fault = re.search(r'<p class="fault"[^>]*>(.*?)</p>', answer.text)
    assert fault is not None
    assert says.casefold() in unescape(fault[1]).casefold()
    assert RULES not in drawer(bench.shop)


def test_what_is_refused_goes_on_being_based_on_what_its_writer_saw(bench) -> None:
    """Put right and sent again, it does not write over what another bench wrote meanwhile."""
    rule(bench, "rules/plug_factor", "5")
    sheet = bench.ask.get("/workshop/rules").text
    assert 'name="based_on" value="1"' in sheet
    refused = rule(bench, "rules/plug_factor", "many", based_on="0")
    assert refused.text.count('name="based_on" value="0"') == 1
    printer(bench, short="179.5 mm", long="249 mm")
    typed_in = {"short": "170 mm", "long": "250 mm", "based_on": "0"}
    refused = post(bench, "/workshop/printer", typed_in)
    assert refused.status_code == 422
    assert 'name="based_on" value="0"' in refused.text


def test_prices_and_stock_are_written_as_lists_and_the_hour_stays(bench) -> None:
    assert rule(bench, "prices/hour", "34 GBP").status_code == 303
    prices = make_form("prices", {"Corvane round lug": "7.20 GBP"}).fields
    sent = {one.name: one.value for one in prices} | {"table": "prices", "based_on": 1}
    assert post(bench, "/workshop/rules/list", sent).status_code == 303
    held = drawer(bench.shop)[RULES].table
    assert held["prices"] == {"hour": "34 GBP", "Corvane round lug": "7.20 GBP"}
    stock = make_form("stock", {"Corvane round lux": 9}).fields
    sent = {one.name: one.value for one in stock} | {"table": "stock", "based_on": 2}
    wrong = post(bench, "/workshop/rules/list", sent)
    assert wrong.status_code == 422
    assert "Did you mean" in words(wrong)
    assert 'value="Corvane round lux"' in wrong.text


# --- the printer -------------------------------------------------------------------------------


def printer(bench, **typed_in: str):
    number = drawer(bench.shop)[PRINTER].number if PRINTER in drawer(bench.shop) else 0
    plain = {"short": "", "long": "", "thickness": "", "paper": "A4", "called": ""}
    return post(bench, "/workshop/printer", plain | typed_in | {"based_on": str(number)})


def test_the_bars_make_the_correction_and_say_what_it_means(bench) -> None:
    """22 in: pi x 558.8 = 1755.5 mm; 179.5/180 of it is 4.9 mm less, 249/250 is 7.0 mm less."""
    assert "Nobody has measured your printer" in words(bench.ask.get("/workshop/printer"))
    done = printer(bench, short="179.5 mm", long="249 mm", called="the grey one")
    assert done.status_code == 303
    said = words(bench.ask.get("/workshop/printer"))
    assert "draws too short both ways" in said
    assert "short side 5 mm (3/16 in) too short" in said
    assert "long side 7 mm (9/32 in) too short" in said
    assert "180 / 179.50 = 1.00279" in said
    assert "by this bench" in said
    assert workshop_printing(bench.shop).correction.long_factor == pytest.approx(250 / 249)
    printer(bench, short="179.5 mm", long="249 mm", forget="yes")
    assert workshop_printing(bench.shop).correction.long_factor == 1.0


@pytest.mark.parametrize(
    ("typed_in", "field", "says"),
    [
        ({"short": "170 mm", "long": "250 mm"}, "short", "more than 2 % off"),
        ({"short": "180 mm", "long": "250"}, "long", "250 what: mm or in?"),
        ({"short": "180 mm"}, "long", "both bars are wanted"),
        ({"thickness": "3 mm"}, "thickness", "does not go round a shell"),
        ({"paper": "A9"}, "paper", "A9"),
    ],
)
def test_a_reading_that_cannot_be_is_refused_at_its_field(bench, typed_in, field, says) -> None:
    answer = printer(bench, **typed_in)
    assert answer.status_code == 422
    fault = re.search(rf'id="f-{field}-fault"[^>]*>(.*?)</p>', answer.text)
    assert fault is not None
    assert says.casefold() in unescape(fault[1]).casefold()
    assert PRINTER not in drawer(bench.shop)


def test_the_check_sheet_is_handed_out(bench) -> None:
    link = re.search(
        r'href="([^"]+)"[^>]*>Check sheet, Letter<', bench.ask.get("/workshop/printer").text
    )
    assert link is not None
    sheet = bench.ask.get(unescape(link[1]))
    assert sheet.content.startswith(b"%PDF")
    assert "check sheet" in sheet.headers["content-disposition"]


# --- safe keeping ------------------------------------------------------------------------------


def chore(bench, name: str) -> str:
    assert post(bench, "/workshop/safe", {"chore": name}).status_code == 303
    assert bench.shop.chores.wait(60).ended is not None
    return words(bench.ask.get("/workshop/safe"))


def test_a_backup_is_made_carried_away_and_brought_back(bench, tmp_path) -> None:
    post(bench, NEW, typed(LUG, done="yes"))
    assert "No backup was made here yet." in words(bench.ask.get("/workshop/safe"))
    said = chore(bench, "backup")
    assert "The backup is made" in said
    assert "counterhoop restore" in said
    (one,) = copies(bench.shop)
    handed = bench.ask.get(f"/workshop/safe/backups/{one.name}")
    assert handed.headers["content-disposition"].startswith("attachment")
    archive = tmp_path / "carried.zip"
    archive.write_bytes(handed.content)
    back = restore_backup(archive, data=tmp_path / "elsewhere")
    from counterhoop.bench.long_work.at_once import WorksAtOnce
    from counterhoop.bench.workshop import open_workshop

    with open_workshop(data=back, works=WorksAtOnce()) as again:
        assert own_book(drawer(again)).entries[0].name == "Quennick pin lug"


def test_no_name_leads_out_of_the_folder_of_backups(bench) -> None:
    (bench.data / "secret.zip").write_bytes(b"key")
    chore(bench, "backup")
    for name in ("..%2Fsecret.zip", "%2e%2e%2fsecret.zip", "..\\secret.zip", "%00"):
        assert bench.ask.get(f"/workshop/safe/backups/{name}").status_code == 404


def test_looking_it_over_says_what_came_of_it(bench) -> None:
    post(bench, NEW, typed(LUG, done="yes"))
    assert "Everything that was saved is there" in chore(bench, "look-over")
    with bench.shop.store.writing() as connection:
        connection.exec_driver_sql("UPDATE revision SET sha256 = 'x' || substr(sha256, 2)")
    said = chore(bench, "look-over")
    assert "Something is damaged" in said
    assert "is not what was saved" in said


def test_plain_files_are_written_beside_the_store(bench) -> None:
    said = chore(bench, "plain")
    (folder,) = (bench.data / "plain").iterdir()
    assert str(folder) in said
    assert any(folder.iterdir())
