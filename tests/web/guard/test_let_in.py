"""The sheet of who is let in, as it stands in the folder; truth: rule 4."""

from __future__ import annotations

import html
import re
import xml.etree.ElementTree as ET

import pytest
import segno
from fastapi import FastAPI

from counterhoop.web.faults import answer_faults
from counterhoop.web.guard.pairing import let_in
from counterhoop.web.look.static_files import FOLDER, KeptFiles
from counterhoop.web.pages import let_in as sheet

SAME = "Sec-Fetch-Site: same-origin"
MARKUP = '<script>alert("Quennick")</script>'


@pytest.fixture
def pages(open_door):
    """The sheet behind the guard; it asks nothing of a workshop."""

    def start(**settings):
        app = FastAPI(docs_url=None, redoc_url=None, openapi_url=None)
        app.include_router(sheet.pages)
        app.mount("/static", KeptFiles(directory=FOLDER))
        answer_faults(app)
        return open_door(app=app, **settings)

    return start


def rows(said):
    body = said.body.split("<tbody>")[1].split("</tbody>")[0]
    return [
        " ".join(html.unescape(re.sub("<[^>]*>", " ", row)).split())
        for row in body.split("</tr>")
        if row.strip()
    ]


def make_link(door, who):
    said = door.post("/let-in/link", SAME, who)
    found = re.search(r"https?://\S+/enter\?token=([\w-]+)", said.body)
    return said, found and html.unescape(found.group(0)), found and found.group(1)


def test_all_are_listed_and_one_knows_oneself(pages):
    door = pages()
    mine = door.pair("bench")
    door.pair("phone")
    door.pair("labels", kind="program")
    first, second, third = rows(door.ask("GET /let-in", mine))
    assert re.fullmatch(
        r"bench \(this browser\) Fri 17 May 2030, \d\d:\d\d Strike off bench", first
    )
    assert second.startswith("phone Fri")
    assert third.startswith("labels (a program)")


def test_a_name_full_of_markup_is_shown_as_text(pages):
    """Put in past the page of the link, as an older version or a hand in the file might."""
    door = pages()
    let_in(door.settings.paired, name=MARKUP, kind="browser", now=door.clock.now())
    said = door.ask("GET /let-in", door.pair())
    assert MARKUP not in said.body
    assert html.escape(MARKUP, quote=False)[:20] in said.body.replace("&#34;", '"')


def test_striking_off_is_at_once_and_the_number_hits_no_other(pages):
    door = pages()
    mine, phone = door.pair("bench"), door.pair("phone")
    said = door.post("/let-in/strike-off", SAME, mine, body=b"number=2")
    assert (said.status, said.headers["location"]) == (303, "/let-in")
    assert door.ask("GET /let-in", phone).status == 401
    newer = door.pair("tablet")
    assert door.post("/let-in/strike-off", SAME, mine, body=b"number=2").status == 422
    assert door.ask("GET /let-in", newer).status == 200


@pytest.mark.parametrize(
    "body", [b"", b"number=", b"number=all", b"number=2&number=1x", b"number=-1"]
)
def test_what_is_no_number_strikes_nobody_off(pages, body):
    door = pages()
    mine = door.pair("bench")
    assert door.post("/let-in/strike-off", SAME, mine, body=body or b"x=1").status == 422
    assert len(door.settings.paired.listed()) == 1


def test_for_this_machine_only_no_link_is_made_and_it_says_why(pages):
    door = pages(names=("bench.local",))
    mine = door.pair()
    said = door.ask("GET /let-in", mine)
    assert "--lan" in said.body
    assert "/let-in/link" not in said.body
    refused, link, _ = make_link(door, mine)
    assert (refused.status, link) == (409, None)
    assert "--lan" in refused.body


def test_on_the_network_a_link_is_shown_this_once_and_lets_one_in(pages):
    door = pages(names=("192.0.2.7", "bench.local"), on_network=True)
    mine = door.pair()
    said, link, token = make_link(door, mine)
    assert said.status == 200
    assert said.headers["cache-control"] == "no-store"
    assert link == f"http://192.0.2.7:{door.port}/enter?token={token}"
    assert token not in door.ask("GET /let-in", mine).body
    body = f"token={token}&name=phone".encode()
    assert door.post("/enter", SAME, body=body).status == 303
    assert door.post("/enter", SAME, body=body).status == 403
    _, _, other = make_link(door, mine)
    door.clock.s += 15 * 60
    assert other != token
    assert door.post("/enter", SAME, body=f"token={other}&name=p".encode()).status == 403


def test_the_code_drawn_is_the_link(pages):
    """Each module of the encoder against the path that is drawn: strokes of one module's height."""
    door = pages(names=("192.0.2.7",), on_network=True)
    said, link, _ = make_link(door, door.pair())
    drawn = ET.fromstring(re.search(r"<svg.*?</svg>", said.body, re.DOTALL).group(0))
    wanted = [list(row) for row in segno.make_qr(link, error="m").matrix_iter(border=4)]
    assert dark_in(drawn, width=len(wanted)) == [[bool(one) for one in row] for row in wanted]
    assert int(drawn.get("width")) <= 320
    assert "style" not in ET.tostring(drawn).decode()


def dark_in(drawn, *, width):
    """Follow the path: M and m move, h draws a row of modules."""
    grid = [[False] * width for _ in range(width)]
    path = next(one for one in drawn.iter() if one.tag.endswith("path") and one.get("stroke"))
    x = y = 0.0
    for command, numbers in re.findall(r"([Mmh])([^Mmhz]*)", path.get("d")):
        values = [float(one) for one in re.findall(r"-?[\d.]+", numbers)]
        if command == "h":
            for column in range(int(x), int(x + values[0])):
                grid[int(y)][column] = True
            x += values[0]
        elif command == "m":
            x, y = x + values[0], y + values[1]
        else:
            x, y = values
    return grid


def test_a_stranger_or_a_foreign_page_makes_no_link_and_strikes_nobody_off(pages):
    door = pages(names=("192.0.2.7",), on_network=True)
    mine = door.pair()
    for path, body in (("/let-in/link", b"x=1"), ("/let-in/strike-off", b"number=1")):
        assert door.post(path, SAME, body=body).status == 401
        assert door.post(path, "Sec-Fetch-Site: cross-site", mine, body=body).status == 403
        assert door.ask(f"GET {path}", mine).status == 405
    assert len(door.settings.paired.listed()) == 1


def test_the_fingerprint_stands_beside_the_link_when_it_is_sealed(pages):
    door = pages(names=("192.0.2.7",), on_network=True, https=True)
    said, link, _ = make_link(door, door.pair())
    assert link.startswith("https://192.0.2.7:")
    assert all(line in said.body for line in door.settings.certificate.fingerprint_lines)
    plain = pages(names=("192.0.2.7",), on_network=True)
    assert "--https" in plain.ask("GET /let-in", plain.pair()).body
