"""Style sheets that may be kept, a choice that is remembered, times and words as pages say them."""

from __future__ import annotations

import asyncio
import datetime as dt
import re

import httpx
import jinja2
import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterhoop.errors import BadInput
from counterhoop.web.app import make_app
from counterhoop.web.guard import pen
from counterhoop.web.look.jinja import templates
from counterhoop.web.look.mine import COOKIE, Mine
from counterhoop.web.look.say import clock, day, moment
from counterhoop.web.look.static_files import ASK_AGAIN, FOLDER, FOR_GOOD, content_key, static
from counterhoop.web.pages.mine import own_path


@pytest.fixture
def ask():
    """Ask the app without a guard before it, which would say that this request may write."""
    app = make_app(None)

    def answer(method, path, *, data=None, cookie=""):
        async def once():
            pen._may_write.set(method == "POST")
            inside = httpx.ASGITransport(app=app)
            async with httpx.AsyncClient(transport=inside, base_url="http://bench") as browser:
                headers = {"Cookie": f"{COOKIE}={cookie}"} if cookie else {}
                return await browser.request(method, path, data=data, headers=headers)

        return asyncio.run(once())

    return answer


def test_a_file_asked_for_by_its_content_is_kept_for_good(ask):
    kept = ask("GET", static("paper.css"))
    assert kept.headers["cache-control"] == FOR_GOOD
    assert kept.headers["content-type"].startswith("text/css")


@pytest.mark.parametrize("query", ["", "?v=", "?v=0123456789abcdef", "?v=a&v=b"])
def test_any_other_way_it_is_asked_for_again(query, ask):
    assert ask("GET", f"/static/paper.css{query}").headers["cache-control"] == ASK_AGAIN


def test_a_file_that_is_not_there_is_a_page_that_is_not_there(ask):
    assert ask("GET", "/static/none.css").status_code == 404
    assert ask("GET", "/static/fonts").status_code == 404


def test_the_style_sheet_names_its_fonts_by_their_content():
    text = (FOLDER / "paper.css").read_text("utf-8")
    named = re.findall(r'url\("([^"?]+)\?v=([0-9a-f]+)"\)', text)
    assert [name for name, _ in named] == [
        "fonts/inter-regular.woff2",
        "fonts/inter-semibold.woff2",
    ]
    assert [content_key(name) for name, _ in named] == [key for _, key in named]
    assert text.count("url(") == len(named)


def test_fonts_are_small_and_have_their_licence():
    fonts = list((FOLDER / "fonts").glob("*.woff2"))
    assert sum(font.stat().st_size for font in fonts) < 120_000
    assert "SIL OPEN FONT LICENSE" in (FOLDER / "fonts" / "OFL.txt").read_text("utf-8")


def test_no_template_holds_a_script_or_a_style_of_its_own():
    """The policy of the pages refuses both."""
    for folder in (FOLDER.parent / "templates",):
        for file in folder.rglob("*.html"):
            text = re.sub(r"\{#.*?#\}", "", file.read_text("utf-8"), flags=re.S)
            assert not re.search(r"\sstyle=|<style|\son[a-z]+=|hx-on|javascript:", text), file.name
            assert not re.search(r"<script(?![^>]*\bsrc=)", text), file.name
            assert not re.search(r"https?://(?!www\.w3\.org/)", text), file.name


# --- what a browser chose ----------------------------------------------------------------------


def test_a_choice_changes_only_what_it_names(ask):
    answer = ask("POST", "/mine", data={"light": "night", "back": "/jobs/12"}, cookie="in.day")
    assert answer.status_code == 303
    assert answer.headers["location"] == "/jobs/12"
    assert f"{COOKIE}=in.night;" in answer.headers["set-cookie"]
    assert "HttpOnly" in answer.headers["set-cookie"]
    assert "SameSite=strict" in answer.headers["set-cookie"]


def test_a_choice_that_there_is_none_of_is_refused(ask):
    assert ask("POST", "/mine", data={"units": "cubits"}).status_code == 422
    with pytest.raises(BadInput, match="mm or in"):
        Mine().changed(units="cubits")


@pytest.mark.parametrize("cookie", ["", "nonsense", "in.nonsense", "a.b.c", "."])
def test_a_cookie_that_says_nonsense_says_nothing(cookie, ask):
    assert 'data-light="machine" data-units="mm"' in ask("GET", "/none", cookie=cookie).text


@given(st.text())
def test_the_way_back_never_leads_elsewhere(written):
    """By the parser of the standard library: what has no host stays here."""
    from urllib.parse import urlsplit

    back = own_path(written)
    assert back.startswith("/")
    assert not back.startswith(("//", "/\\"))
    assert urlsplit(back).netloc == ""


@pytest.mark.parametrize(
    "written", ["//elsewhere.example", "https://elsewhere.example", "/\\e.example", "/\t/e.example"]
)
def test_known_tricks_lead_to_the_first_page(written):
    assert own_path(written) == "/"


# --- words -------------------------------------------------------------------------------------


def test_days_and_times_are_this_machines():
    """17 May 2030 is a Friday by the calendar."""
    noon = dt.datetime(2030, 5, 17, 12, 3).astimezone()
    in_tokyo = noon.astimezone(dt.timezone(dt.timedelta(hours=9)))
    assert clock(in_tokyo) == "12:03"
    assert moment(in_tokyo) == "Fri 17 May 2030, 12:03"
    assert day(dt.date(2030, 5, 17)) == "Fri 17 May 2030"


def test_a_name_that_a_page_forgot_is_a_fault():
    with pytest.raises(jinja2.UndefinedError):
        templates().from_string("{{ forgotten }}").render()


PIECES = (
    "{{ p.face(bad, bad) }}",
    "{{ p.facts([(bad, bad)]) }}",
    "{{ p.notice(bad) }}",
    "{{ p.saved(bad, bad) }}",
    "{{ p.field(bad, bad, value=bad, help=bad, fault=bad) }}",
    "{{ p.field(bad, bad, kind='note', value=bad, more={'data-x': bad}) }}",
    "{{ p.field(bad, bad, kind='choice', value=bad, choices=[(bad, bad)]) }}",
    "{{ p.press(bad, bad, {bad: bad}) }}",
    "{{ p.conflict([(bad, bad, bad)], bad, {bad: bad}, by=bad, at=bad) }}",
    "{{ p.working(bad, 0.5, stop=bad) }}",
    "{{ p.index([{'href': bad, 'says': bad, 'note': bad}]) }}",
    "{% call p.sheet(bad, id=bad, aside=bad) %}{{ bad }}{% endcall %}",
    "{% call p.picture(bad, id=bad) %}{{ bad }}{% endcall %}",
    "{% call p.more(bad) %}{{ bad }}{% endcall %}",
)


@pytest.mark.parametrize("piece", PIECES)
def test_text_from_people_is_escaped_in_every_piece(piece):
    bad = '"><script>x</script>'
    text = templates().from_string(piece).render(bad=bad)
    assert "<script" not in text
    assert "&#34;&gt;&lt;script&gt;" in text
