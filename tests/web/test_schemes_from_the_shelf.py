"""The sheet of schemes and the shelf: pieces are set aside with a scheme, and go once.

What lies there, and what is wanted, is written in the worked job's own files.
"""

from __future__ import annotations

import asyncio
import html
import json
import re
from importlib.resources import files

import httpx
import pytest

from counterhoop.bench.demonstration.worked_shelf import put_demo_shelf
from counterhoop.bench.folders.folder import kept_job
from counterhoop.bench.folders.history import choose_version
from counterhoop.bench.folders.out_of_sight import put_away, put_drum_away
from counterhoop.bench.folders.survey_file import take_in
from counterhoop.bench.parts.set_aside import ToTake, choose_and_set_aside, set_aside
from counterhoop.bench.shelf.whose import key_of
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import CannotDo
from counterhoop.parts.movement import Movement
from counterhoop.parts.piece import Piece
from counterhoop.store.address import address_of
from counterhoop.store.hide import Thing
from counterhoop.store.save import Saved
from counterhoop.store.shelf.look_up import piece_by_number
from counterhoop.store.shelf.move import move, movements_of, set_aside_for
from counterhoop.store.shelf.put import put_new_pieces
from counterhoop.store.store import open_store
from counterhoop.web.app import make_app
from counterhoop.web.guard import pen
from counterhoop.web.plans import plan_for
from planned_once import PLANNED

AT = files("counterhoop.bench").joinpath("demonstration")


@pytest.fixture
def shop(tmp_path):
    with open_store(address_of(data=tmp_path / "data")) as store:
        shop = Workshop(store=store, works=PLANNED)
        put_demo_shelf(shop, by="bench")
        yield shop


def taken_in(shop, name):
    return take_in(
        shop, AT.joinpath(name).read_bytes(), name=name, book_of=lambda _: b"", by="bench"
    )


@pytest.fixture
def ask(shop):
    app = make_app(shop)

    def answer(method, path, data=None, **headers):
        async def once():
            pen._may_write.set(method == "POST")
            inside = httpx.ASGITransport(app=app)
            async with httpx.AsyncClient(transport=inside, base_url="http://bench") as browser:
                return await browser.request(method, path, data=data, headers=headers)

        return asyncio.run(once())

    return answer


def sheet(shop, job, drum):
    return f"/jobs/{job}/drums/{drum_of(shop, job, drum).id}/schemes"


def drum_of(shop, job, name):
    return next(one for one in kept_job(shop, job).drums if one.name == name)


def presses(page):
    """Return what each press of a page sends, by what stands on it; the first of equal ones."""
    found = {}
    for form in re.findall(r'<form class="press".*?</form>', page, flags=re.DOTALL):
        fields = re.findall(r'name="([^"]*)" value="([^"]*)"', form)
        says = re.search(r"<button[^>]*>([^<]*)<", form)
        action = re.search(r'action="([^"]*)"', form)
        values = {html.unescape(name): html.unescape(value) for name, value in fields}
        found.setdefault(says[1], []).append((html.unescape(action[1]), values))
    return found


def aside(shop, job, drum):
    """Return how many are set aside for a drum, by the number on the bag."""
    with shop.store.reading() as r:
        held = set_aside_for(r, key_of(job, drum_of(shop, job, drum).id))
    return {one.kept.piece.number: one.count for one in held}


def free(shop, number):
    with shop.store.reading() as r:
        return piece_by_number(r, number).free


def by_hand(shop, number, count, *, kind="set aside", **more):
    with shop.store.writing() as w:
        piece = piece_by_number(w, number).piece.id
        given = Movement(
            piece_id=piece, kind=kind, count=count, on=shop.now(), bench="hand", **more
        )
        move(w, given)


def test_taking_a_scheme_sets_its_pieces_aside_and_leaving_it_puts_them_back(shop, ask):
    job = taken_in(shop, "lone-snare.toml")
    address = sheet(shop, job, "school snare")
    before = ask("GET", address).text
    assert "Its one piece is on the shelf." in before
    assert "1 Corvane lever strainer: on the shelf (bin B3, number W-005)." in before
    stock = plan_for(shop, kept_job(shop, job)).plan.opened.job.stock
    scheme = plan_for(shop, kept_job(shop, job)).plan.drum("school snare").chosen

    seen = json.dumps({"Corvane lever strainer": 1})
    values = {"scheme": scheme.code, "title": scheme.title, "based_on": "0", "seen": seen}
    assert ask("POST", f"{address}/take", values).status_code == 303
    assert aside(shop, job, "school snare") == {"W-005": 1}
    assert free(shop, "W-005") == 0
    page = ask("GET", address).text
    assert "1 is set aside for this drum." in page
    # The choice changed, and nothing that its prices rest on.
    assert dict(stock)["Corvane lever strainer"] == 1
    assert plan_for(shop, kept_job(shop, job)).plan.opened.job.stock == stock

    # Sent twice, because the answer was lost: nothing is there twice.
    ask("POST", f"{address}/take", values)
    assert aside(shop, job, "school snare") == {"W-005": 1}

    leave = next(said for said in presses(page) if said.startswith("Leave it"))
    action, values = presses(page)[leave][0]
    assert ask("POST", action, values).status_code == 303
    assert aside(shop, job, "school snare") == {}
    assert free(shop, "W-005") == 1

    back, values = presses(ask("GET", address).text)["Undo the last step"][0]
    assert ask("POST", back, values).status_code == 303
    assert aside(shop, job, "school snare") == {"W-005": 1}

    put_drum_away(shop, drum_of(shop, job, "school snare"), by="bench")
    with shop.store.reading() as r:
        key = key_of(job, kept_job(shop, job).hidden_drums[0].id)
        assert set_aside_for(r, key) == ()


def test_a_job_that_is_put_away_or_a_choice_gone_back_on_keeps_no_piece_of_its_scheme(shop):
    job = taken_in(shop, "lone-snare.toml")
    kept, snare = kept_job(shop, job), drum_of(shop, job, "school snare")
    scheme = plan_for(shop, kept).plan.drum("school snare").chosen
    wanted = ToTake(code=scheme.code, moved=[], based_on=0, parts=scheme.parts, seen={})
    done = choose_and_set_aside(shop, kept, snare, wanted, by="bench")
    assert free(shop, "W-005") == 0
    document = done.revision.document_id
    choose_version(shop, document, number=0, based_on=1, by="bench")
    assert free(shop, "W-005") == 1
    snare = drum_of(shop, job, "school snare")
    set_aside(shop, kept, snare, parts=scheme.parts, by="bench")
    assert free(shop, "W-005") == 0
    put_away(shop, thing=Thing.JOB, thing_id=job, by="bench")
    assert free(shop, "W-005") == 1


def test_what_a_person_set_aside_stays(shop, ask):
    job = taken_in(shop, "survey.toml")
    address, key = sheet(shop, job, "small tom"), key_of(job, drum_of(shop, job, "small tom").id)
    by_hand(shop, "W-001", 2, job=key)
    action, values = presses(ask("GET", address).text)["Take this one"][0]
    assert json.loads(values["seen"])["Corvane round lug"] == 6
    ask("POST", action, values)
    assert aside(shop, job, "small tom") == {"W-001": 6, "W-015": 1, "W-006": 6}
    put_drum_away(shop, drum_of(shop, job, "small tom"), by="bench")
    with shop.store.reading() as r:
        assert [(one.kept.piece.number, one.count) for one in set_aside_for(r, key)] == [
            ("W-001", 2)
        ]


def test_a_row_moved_by_hand_moves_no_piece(shop):
    job = taken_in(shop, "survey.toml")
    kept, tom = kept_job(shop, job), drum_of(shop, job, "small tom")
    scheme = plan_for(shop, kept).plan.drum("small tom").chosen
    for based_on, moved in ((0, []), (1, [{"row": "resonant", "right": "2 mm", "down": "0 mm"}])):
        wanted = ToTake(
            code=scheme.code, title=scheme.title, moved=moved, based_on=based_on,
            parts=scheme.parts, seen={},
        )  # fmt: skip
        assert isinstance(choose_and_set_aside(shop, kept, tom, wanted, by="bench"), Saved)
        with shop.store.reading() as r:
            piece = piece_by_number(r, "W-001").piece.id
            assert [one.kind for one in movements_of(r, piece)] == ["came in", "set aside"]
    with pytest.raises(CannotDo, match="since you looked"):
        set_aside(shop, kept, tom, parts=(), by="slow bench")
    assert free(shop, "W-001") < 9
    set_aside(shop, kept, drum_of(shop, job, "small tom"), parts=(), by="bench")
    assert free(shop, "W-001") == 9


def test_a_clients_own_pieces_go_first_and_to_no_other_client(shop, ask):
    """One strainer is wanted: the client's own lies beside the shop's, and another client's."""
    job = taken_in(shop, "lone-snare.toml")
    client, name = kept_job(shop, job).job["client"], "Corvane lever strainer"
    theirs = Piece(id="", number="C-1", fitting=name, says=name, owner=client, bin="Z9")
    others = Piece(id="", number="C-2", fitting=name, says=name, owner="Somebody Else")
    with shop.store.writing() as w:
        put_new_pieces(w, [theirs, others], stamp=shop.stamp("bench"))
    page = ask("GET", sheet(shop, job, "school snare"))
    said = f"(bin Z9, number C-1, {client}'s own: nothing to pay)"
    assert said in html.unescape(page.text)
    assert "C-2" not in page.text
    stock = dict(plan_for(shop, kept_job(shop, job)).plan.opened.job.stock)
    assert stock[name] == 2
    action, values = presses(page.text)["Take it by hand and set its pieces aside"][0]
    ask("POST", action, values)
    assert aside(shop, job, "school snare") == {"C-1": 1}


def test_a_matched_set_is_not_parted_for_fewer(shop, ask):
    job = taken_in(shop, "lone-snare.toml")
    name = "Corvane lever strainer"
    pair = Piece(id="", number="S-2", fitting=name, says=name, count=2, bin="Q1", matched_set=True)
    with shop.store.writing() as w:
        put_new_pieces(w, [pair], stamp=shop.stamp("bench"))
    by_hand(shop, "W-005", 1, job="another")
    page = html.unescape(ask("GET", sheet(shop, job, "school snare")).text)
    assert (
        f"1 {name}: none free on the shelf; 1 set aside for another;"
        " number S-2 is a matched set of 2, not parted for so few."
    ) in page


def test_what_the_kit_chose_is_taken_with_its_pieces_by_one_press(shop, ask):
    job = taken_in(shop, "lone-snare.toml")
    address = sheet(shop, job, "school snare")
    action, values = presses(ask("GET", address).text)["Take it by hand and set its pieces aside"][
        0
    ]
    assert ask("POST", action, values).headers["location"] == f"{address}#shelf"
    assert aside(shop, job, "school snare") == {"W-005": 1}
    assert "1 is set aside for this drum." in ask("GET", address).text


def test_whoever_was_slower_is_told_who_has_the_last_one_and_can_do_without(shop, ask):
    worked, lone = taken_in(shop, "survey.toml"), taken_in(shop, "lone-snare.toml")
    scheme = plan_for(shop, kept_job(shop, lone)).plan.drum("school snare").chosen
    shown = {"scheme": scheme.code, "title": scheme.title, "based_on": "0"}
    shown["seen"] = json.dumps({"Corvane lever strainer": 1})
    mine = presses(ask("GET", sheet(shop, worked, "old snare")).text)
    action, values = mine["Take it by hand and set its pieces aside"][0]
    assert ask("POST", action, values).status_code == 303

    slower = ask("POST", sheet(shop, lone, "school snare") + "/take", shown)
    assert slower.status_code == 409
    number = kept_job(shop, worked).job["number"]
    assert (
        "Corvane lever strainer: the one that lay there is gone, set aside for"
        f" job {number}, old snare by " in html.unescape(slower.text)
    )
    assert aside(shop, lone, "school snare") == {}
    assert drum_of(shop, lone, "school snare").kept("choice").number == 0

    action, values = presses(slower.text)["Take it without"][0]
    assert ask("POST", action, values).status_code == 303
    assert drum_of(shop, lone, "school snare").kept("choice").table["scheme"] == scheme.code
    assert aside(shop, lone, "school snare") == {}


def test_only_what_a_plan_rests_on_plans_it_anew(shop):
    """A bracket that no wish names changes no plan; a strainer that one names does."""
    job = taken_in(shop, "lone-snare.toml")

    def key():
        return plan_for(shop, kept_job(shop, job)).source.key

    before = key()
    by_hand(shop, "W-001", 1, kind="sold")
    assert key() == before
    by_hand(shop, "W-005", 1, job="another")
    assert key() != before


@pytest.mark.parametrize("seen", ["no", "[1]", '{"Corvane lever strainer": true}', "[" * 9999])
def test_a_form_that_says_nothing_readable_of_the_shelf_is_taken_as_it_is(shop, ask, seen):
    job = taken_in(shop, "lone-snare.toml")
    scheme = plan_for(shop, kept_job(shop, job)).plan.drum("school snare").chosen
    shown = {"scheme": scheme.code, "based_on": "0", "seen": seen}
    assert ask("POST", sheet(shop, job, "school snare") + "/take", shown).status_code == 303
    assert aside(shop, job, "school snare") == {"W-005": 1}
