"""The shelf's pages with a workshop behind them.

Truth: what was sent and what is kept afterwards, step by step; the codes on labels by a reader of
their own (ISO/IEC 18004, from memory).
"""

from __future__ import annotations

import html
import io
import re
import sys
from pathlib import Path
from types import SimpleNamespace
from urllib.parse import urlsplit

import numpy as np
import pypdfium2 as pdfium
import pytest
from PIL import Image
from starlette.requests import Request
from starlette.testclient import TestClient

sys.path.insert(0, str(Path(__file__).parents[2] / "papers"))

from qr_reader import modules_of, read_modules

from counterhoop.bench.folders.open_folder import add_drum, open_folder
from counterhoop.bench.long_work.at_once import WorksAtOnce
from counterhoop.bench.shelf.cards import card_of, write_piece
from counterhoop.bench.workshop import open_workshop
from counterhoop.papers.label_sheet import plain_sheet
from counterhoop.web.app import make_app
from counterhoop.web.guard.door import Door
from counterhoop.web.guard.pen import WhoMayWrite
from counterhoop.web.guard.stack import KEY, Settings
from counterhoop.web.phone_address import phone_address

HOSTILE = "<script>alert(1)</script> \"x\" & 'y'"
LINE = {"measured.0.what": "holes apart", "measured.0.written": "42.5", "measured.0.with": "rule"}
PIXELS_A_MM = 8.0


def words(answer):
    """Return what a page says, its marks left out."""
    text = re.sub(r"<(script|style)\b.*?</\1>", " ", answer.text, flags=re.DOTALL)
    return " ".join(html.unescape(re.sub(r"<[^>]+>", " ", text)).split())


def faults(answer):
    found = re.findall(r'class="fault" id="([^"]+)-fault"[^>]*>(.*?)</p>', answer.text)
    return {ident: html.unescape(says) for ident, says in found}


def send(bench, path, status=303, **fields):
    answer = bench.ask.post(path, data=fields, follow_redirects=False)
    assert answer.status_code == status, answer.text[:2000]
    return answer


def put(bench, **fields):
    answer = send(bench, "/shelf/new", **({"says": "single-ended lug", "count": "2"} | fields))
    return answer.headers["location"]


def kept(bench, card):
    return card_of(bench.shop, card.rpartition("/")[2])


@pytest.fixture(scope="module")
def app():
    """All pages, put together once."""
    return make_app(None)


@pytest.fixture
def bench(app, tmp_path):
    """Ask the pages of a workshop that nothing is kept in yet."""
    with open_workshop(data=tmp_path / "data", works=WorksAtOnce()) as shop:
        app.state.workshop = shop
        yield SimpleNamespace(
            shop=shop, ask=TestClient(WhoMayWrite(app), raise_server_exceptions=False)
        )


@pytest.fixture
def job(bench):
    made = open_folder(bench.shop, job={"number": "214", "client": "A. Hale"}, by="x")
    tom = add_drum(bench.shop, made, name="small tom", survey={}, by="x")
    return SimpleNamespace(id=made, tom=f"{made}/{tom}")


def test_a_piece_is_put_on_the_shelf_with_what_is_known_of_it(bench):
    assert "Nothing lies on the shelf yet" in words(bench.ask.get("/shelf"))
    assert 'value="0001"' in bench.ask.get("/shelf/new").text
    card = put(bench, number="0001", bin="B/7", price="3.50", condition="pitted\none ear bent",
               **LINE)  # fmt: skip
    page = bench.ask.get(card)
    for said in ("2 on the shelf.", "holes apart 42.5 mm, give or take 0.5 mm", "3.50 GBP",
                 "one ear bent", "0001", "2 came in"):  # fmt: skip
        assert said in words(page), said
    assert 'value="0002"' in bench.ask.get("/shelf/new?bin=B/7").text
    lies = bench.ask.get("/shelf/bins/B%2F7")
    assert "single-ended lug" in words(lies)
    assert bench.ask.get("/shelf/bins/B").status_code == 404
    assert '/shelf/bins/B%2F7"' in bench.ask.get("/shelf").text
    # Another like it has all but its own number, count and day.
    like = bench.ask.get(f"/shelf/new?like={kept(bench, card).kept.piece.id}").text
    assert 'value="0002"' in like
    assert 'value="42.5 mm"' in like


def test_what_cannot_be_read_is_said_and_nothing_typed_is_lost(bench):
    typed = {"says": "lug", "price": "some", "bin": "B 7"} | LINE
    typed |= {"measured.1.what": "ears", "measured.1.written": "eight"}
    answer = send(bench, "/shelf/new", 422, **typed)
    assert set(faults(answer)) == {"f-price", "f-measured-1-written"}
    for value in ("some", "B 7", "42.5", "eight"):
        assert f'value="{value}"' in answer.text
    assert "Nothing is kept yet: 2 lines cannot be read." in words(answer)
    assert set(faults(send(bench, "/shelf/new", 422))) == {"f-says"}
    put(bench, number="7")
    taken = send(bench, "/shelf/new", 422, says="lug", number="7")
    assert "another piece's" in faults(taken)["f-number"]
    assert words(bench.ask.get("/shelf")).count("single-ended lug") == 1


def test_a_search_says_how_it_was_read_and_what_to_leave_out(bench):
    put(bench, number="1", **LINE)
    put(bench, number="2", says="brass lug")
    page = words(bench.ask.get("/shelf", params={"find": "lug, holes 42 +- 0.5, 17 mm"}))
    assert "Holes apart 42 mm, give or take 0.5 mm." in page
    assert "17 mm: of what?" in page
    assert "There is something without “17 mm”." in page
    page = words(bench.ask.get("/shelf", params={"find": "lug holes 42 +- 0.5"}))
    assert (
        "1 single-ended lug 2 free · holes apart 42.5 mm 2 brass lug 2 free · holes apart not"
        in (page)
    )
    assert "0 found" in words(bench.ask.get("/shelf", params={"find": "iron lug"}))
    long = bench.ask.get("/shelf", params={"find": "lug " * 90})
    assert (long.status_code, list(faults(long))) == (422, ["f-find"])
    card = re.search(r'href="(/shelf/pieces/\w+)"', bench.ask.get("/shelf?find=brass").text)[1]
    send(bench, f"{card}/move", kind="scrapped", count="2")
    assert "2 brass lug none left" in words(bench.ask.get("/shelf?find=brass"))
    assert "No piece that is free" in words(bench.ask.get("/shelf?find=brass&free=yes"))


def test_two_who_change_the_same_line_are_shown_both(bench):
    card = put(bench, number="1")
    send(bench, f"{card}/change", based_on="1", says="long lug", number="1", bin="B 7")
    both = send(bench, f"{card}/change", 409, based_on="1", says="short lug", number="1", **LINE)
    assert "What it is short lug long lug" in words(both)
    fields = dict(re.findall(r'type="hidden" name="([^"]+)" value="([^"]*)"', both.text))
    assert (fields["based_on"], fields["bin"]) == ("2", "B 7")
    fields.pop("sent_once")
    send(bench, f"{card}/change", keep="theirs", **fields)
    assert kept(bench, card).kept.piece.says == "long lug"
    send(bench, f"{card}/change", keep="mine", **fields)
    its = kept(bench, card).kept.piece
    assert (its.says, its.bin, len(its.measured)) == ("short lug", "B 7", 1)
    assert "What it is : long lug → short lug" in words(bench.ask.get(card))


def test_it_is_set_aside_once_and_the_last_one_goes_only_once(bench, job):
    card = put(bench, number="1", count="1")
    assert f'value="{job.tom}"' in bench.ask.get(card).text
    fields = {"form": "aside", "kind": "set aside", "count": "1", "job": job.tom}
    for _ in range(2):
        send(bench, f"{card}/move", mark="one form", **fields)
    late = send(bench, f"{card}/move", 422, mark="other form", **fields | {"job": job.id})
    assert "Only 0 free" in words(late)
    assert "1 on the shelf, set aside for job 214, small tom." in words(late)
    send(bench, f"{card}/move", kind="used", count="1", job=job.tom)
    assert "None left." in words(bench.ask.get(card))
    assert "1 used for job 214, small tom" in words(bench.ask.get(card))


def test_a_movement_that_cannot_be_is_said_beside_its_field(bench, job):
    card = put(bench, owner="A. Hale", count="3")
    send(bench, f"{card}/move", kind="set aside", count="1", job=job.tom)
    for fields, at in (
        ({"form": "other", "kind": "lost", "count": "1"}, "other-kind"),
        ({"form": "other", "kind": "came in", "count": "many"}, "other-count"),
        ({"form": "other", "kind": "counted", "count": "1"}, "other-corrects"),
        ({"form": "other", "kind": "sold", "count": "1"}, "other-release"),
        ({"form": "aside", "kind": "set aside", "count": "1"}, "aside-job"),
        ({"form": "aside", "kind": "set aside", "count": "3", "job": job.tom}, "aside-count"),
    ):
        answer = send(bench, f"{card}/move", 422, **fields)
        assert list(faults(answer)) == [at], fields
    # A form that is not there any more: said at the head of the card.
    gone = send(bench, f"{card}/move", 422, form="aside-1", kind="put back", count="2", job=job.tom)
    assert not faults(gone)
    assert "Only 1 set aside for job 214, small tom" in words(gone)


def test_a_clients_piece_says_so_and_is_offered_to_their_jobs_only(bench, job):
    other = open_folder(bench.shop, job={"number": "215", "client": "B. Rowe"}, by="x")
    # Written as the job has it, or it would serve none: the names are offered.
    assert '<option value="A. Hale">' in bench.ask.get("/shelf/new").text
    card = put(bench, owner="A. Hale", says="hoop")
    page = bench.ask.get(card)
    assert "It belongs to A. Hale. It serves only their jobs" in words(page)
    assert f'value="{job.id}"' in page.text
    assert f'value="{other}"' not in page.text
    refused = send(bench, f"{card}/move", 422, form="other", kind="sold", count="1")
    assert "the signed release" in words(refused)
    send(bench, f"{card}/move", kind="given back", count="2")
    assert "2 given back to A. Hale" in words(bench.ask.get(card))


def test_it_is_put_away_and_taken_out_again(bench, job):
    card = put(bench, number="1")
    send(bench, f"{card}/move", kind="set aside", count="1", job=job.tom)
    assert "promised" in words(send(bench, f"{card}/away", 422))
    send(bench, f"{card}/move", kind="put back", count="1", job=job.tom)
    send(bench, f"{card}/away")
    assert "This piece is put away" in words(bench.ask.get(card))
    assert "0 found" in words(bench.ask.get("/shelf?find=lug"))
    assert "Pieces of the shelf 1" in words(bench.ask.get("/workshop/put-away"))
    send(bench, f"{card}/back")
    assert "1 found" in words(bench.ask.get("/shelf?find=lug"))
    assert "Pieces of the shelf 1" not in words(bench.ask.get("/workshop/put-away"))


def test_labels_open_their_piece_and_their_bin(bench):
    card, other = put(bench, number="0041", bin="Bin ü/7"), put(bench, number="0042")
    chosen = bench.ask.get("/shelf/labels?find=lug").text
    assert re.findall(r'name="piece" value="(\w+)" checked', chosen) == [
        other.rpartition("/")[2], card.rpartition("/")[2],
    ]  # fmt: skip
    assert "opens on this machine only" in words(bench.ask.get("/shelf/labels?find=lug"))
    asked = {"piece": card.rpartition("/")[2], "bin": "Bin ü/7", "used": "1"}
    pdf = bench.ask.get("/shelf/labels/file", params=asked)
    assert pdf.headers["content-type"] == "application/pdf"
    shown = pdfium.PdfDocument(pdf.content)[0].render(scale=PIXELS_A_MM * 25.4 / 72).to_numpy()
    ink = np.asarray(shown[:, :, 0] < 128)
    opened = []
    for _, left, top in plain_sheet().corners(2, used=1):
        first, upper = int((left + 0.6) * PIXELS_A_MM), int((top + 0.6) * PIXELS_A_MM)
        wide = int(30.5 * PIXELS_A_MM)
        opened.append(read_modules(modules_of(ink[upper : upper + wide, first : first + wide])))
    assert [urlsplit(one).path for one in opened] == [card, "/shelf/bins/Bin%20%C3%BC%2F7"]
    for one in opened:
        assert "single-ended lug" in words(bench.ask.get(urlsplit(one).path)).lower()


@pytest.mark.parametrize(
    ("door", "address", "reachable"),
    [
        (Door(port=8600), "http://127.0.0.1:8600", False),
        (Door(port=8600, names=("bench.local",)), "http://127.0.0.1:8600", False),
        (Door(port=8600, names=("192.0.2.7", "bench.local"), on_network=True, scheme="https"),
         "https://192.0.2.7:8600", True),
    ],
)  # fmt: skip
def test_a_code_has_the_address_by_which_a_phone_reaches_us(door, address, reachable):
    """The name that the page of who is let in gives to phones."""
    request = Request({"type": "http", KEY: Settings(door=door)})
    found = phone_address(request)
    assert (found.address, found.reachable) == (address, reachable)


def test_labels_that_cannot_be_made_are_said_beside_their_field(bench):
    piece = put(bench).rpartition("/")[2]
    for more, field in (("used=12", "used"), ("used=two", "used"), ("sheet=own", "sheet")):
        answer = bench.ask.get(f"/shelf/labels/file?piece={piece}&{more}")
        assert (answer.status_code, list(faults(answer))) == (422, [f"f-{field}"])
    assert "No label is chosen" in words(bench.ask.get("/shelf/labels/file"))
    sheet = {"paper": "A4", "across": "3", "down": "7", "wide": "62 mm", "high": "38 mm",
             "left": "8 mm", "top": "14 mm", "step_across": "65 mm"}  # fmt: skip
    answer = send(bench, "/shelf/labels/sheet", 422, based_on="0", **sheet)
    assert list(faults(answer)) == ["f-step_down"]
    over = send(bench, "/shelf/labels/sheet", 422, based_on="0", **sheet, step_down="30 mm")
    assert "lie on each other" in words(over)
    send(bench, "/shelf/labels/sheet", based_on="0", **sheet, step_down="38.5 mm")
    answer = bench.ask.get(f"/shelf/labels/file?piece={piece}&sheet=own&used=20")
    assert answer.headers["content-type"] == "application/pdf"
    both = send(bench, "/shelf/labels/sheet", 409, based_on="0", **sheet, step_down="39 mm")
    assert "Two versions" in words(both)


def test_what_was_typed_is_text_and_nothing_else(bench, job):
    card = put(bench, says=HOSTILE, bin=HOSTILE, kind=HOSTILE, condition=HOSTILE, lot=HOSTILE)
    send(bench, f"{card}/move", kind="counted", count="1", corrects=HOSTILE)
    piece = card.rpartition("/")[2]
    for path in (card, f"{card}/change", "/shelf", f"/shelf/new?like={piece}",
                 f"/shelf/labels?piece={piece}", "/shelf/labels"):  # fmt: skip
        page = bench.ask.get(path)
        assert page.status_code == 200
        assert "<script>alert" not in page.text
    href = re.search(r'href="(/shelf/bins/[^"]+)"', bench.ask.get(card).text)[1]
    assert bench.ask.get(html.unescape(href)).status_code == 200


def test_a_piece_has_photographs(bench):
    card, held = put(bench), io.BytesIO()
    Image.new("RGB", (80, 60), "brown").save(held, "JPEG")
    files = [("files", ("front.jpg", held.getvalue(), "image/jpeg")),
             ("files", ("notes.jpg", b"no picture", "image/jpeg"))]  # fmt: skip
    answer = bench.ask.post(f"{card}/photographs", files=files, follow_redirects=False)
    assert answer.status_code == 422
    assert "notes.jpg is not kept" in words(answer)
    (small,) = re.findall(r'src="(/shelf/[^"]+/small\.jpg)"', answer.text)
    assert Image.open(io.BytesIO(bench.ask.get(small).content)).size == (80, 60)
    one = small.removesuffix("/small.jpg")
    send(bench, f"{one}/away")
    assert small not in bench.ask.get(card).text
    send(bench, f"{one}/back")
    assert small in bench.ask.get(card).text
    assert bench.ask.get(small.replace(card, put(bench))).status_code == 404


def test_a_card_that_is_not_there_is_said(bench):
    for path in ("/shelf/pieces/none", "/shelf/pieces/none/change", "/shelf/new?like=none",
                 "/shelf/labels?piece=none", "/shelf/labels/file?piece=none"):  # fmt: skip
        answer = bench.ask.get(path)
        assert answer.status_code in (404, 422), path
        assert "no such piece" in words(answer).lower(), path
    assert bench.ask.post("/shelf/pieces/none/move", data={"kind": "sold"}).status_code in (
        404,
        422,
    )


def test_a_piece_written_by_another_hand_can_be_changed(bench):
    made = write_piece(bench.shop, None, {"number": "1", "fitting": "of another book"},
                       based_on=0, by="x")  # fmt: skip
    card = f"/shelf/pieces/{made.piece.id}"
    assert "not in the fittings book" in words(bench.ask.get(card))
    send(bench, f"{card}/change", based_on="1", number="1", fitting="of another book", bin="B 7")
    assert kept(bench, card).kept.piece.bin == "B 7"
