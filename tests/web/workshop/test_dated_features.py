"""The workshop's dated features on their sheet: typed, refused beside the field, as a file.

Truth: worked by hand from what is typed.
"""

from __future__ import annotations

import re
import time
from html import unescape

from counterhoop.bench.evidence.own_reference import own_reference, own_rows
from counterhoop.bench.evidence.write_reference import write_rows
from counterhoop.web.dated_listing import families_shown

DATED = "/workshop/dated"
NEW = f"{DATED}/own/value/new"
SHIELD = {
    "family": "Corvane", "feature": "badge", "name": "shield", "from": "about 1970",
    "to_give": "1,5", "diameters": "14 in; 16 in", "source": "two bills", "based_on": "0",
}  # fmt: skip


def words(answer) -> str:
    body = re.sub(r"<(script|style)\b.*?</\1>", " ", answer.text, flags=re.S)
    return " ".join(unescape(re.sub(r"<[^>]*>", " ", body)).split())


def post(bench, path: str, data: dict, **more):
    return bench.ask.post(path, data=data, follow_redirects=False, **more)


def faults(answer) -> dict[str, str]:
    """Return what is wrong by the field it stands at."""
    found = re.findall(r'<p class="fault" id="f-(\w+)-fault"[^>]*>(.*?)</p>', answer.text)
    return {name: unescape(says) for name, says in found}


def test_the_packaged_rows_are_listed_with_years_and_sources(bench) -> None:
    said = words(bench.ask.get(DATED))
    assert "Corvane 34 forms, 12 dated numbers" in said
    assert "round, nailed About 1947 to about 1958; took over from transfer." in said
    assert "invented for the demonstration" in said.lower()
    assert "Nothing yet." in said


def test_a_row_is_typed_and_lies_in_the_list(bench) -> None:
    assert post(bench, NEW, SHIELD).headers["location"] == f"{DATED}#yours"
    assert own_rows(bench.shop)["value"] == [{
        "family": "Corvane", "feature": "badge", "name": "shield", "from": 1970, "to_give": 1.5,
        "diameters": ["14 in", "16 in"], "source": "two bills",
    }]  # fmt: skip
    said = words(bench.ask.get(DATED))
    assert "shield yours From about 1970; on 14 in and 16 in only. Two bills." in said
    form = bench.ask.get(f"{DATED}/own/value/0").text
    assert 'value="14 in; 16 in"' in form
    assert "1 row is your own" in words(bench.ask.get("/workshop"))


WRONG = (
    ({"from": "nineteen"}, "from", "four figures, such as 1958"),
    ({"from": "1450"}, "from", "1500"),
    ({"to": "1960"}, "to", "It ends before it begins"),
    ({"source": " "}, "source", "This is missing"),
    ({"family": ""}, "family", "This is missing"),
    ({"share": "often"}, "share", "Cannot be read as a number"),
    ({"diameters": "14"}, "diameters", "unit"),
    ({"lines": "Standart"}, "lines", 'Did you mean "Standard"?'),
    ({"from": "", "follows": "ring"}, "follows", "has this name and an end"),
    ({"follows": "transfer"}, "follows", "it begins when that ends"),
)


def test_what_is_wrong_stands_beside_its_field_and_nothing_typed_is_lost(bench) -> None:
    for typed, field, says in WRONG:
        sent = SHIELD | typed
        answer = post(bench, NEW, sent)
        assert answer.status_code == 422, typed
        assert says in faults(answer).get(field, ""), typed
        for name in ("name", "source", "from"):
            assert f'name="{name}" value="{sent[name].strip()}"' in answer.text
    assert own_reference(bench.shop).kept.number == 0


def test_a_packaged_row_is_laid_over_put_away_and_back(bench) -> None:
    listed = bench.ask.get(DATED).text
    href = unescape(re.search(r'href="([^"]+name=square[^"]*)"', listed)[1])
    form = bench.ask.get(href).text
    assert 'value="oval, on a grommet"' in form
    assert "where you have it from" in words(bench.ask.get(href)).lower()
    row = {"family": "Corvane", "feature": "badge", "name": "square", "from": "1968",
           "source": "a catalogue", "based_on": "0"}  # fmt: skip
    post(bench, NEW, row)
    assert "square yours From about 1968. A catalogue." in words(bench.ask.get(DATED))
    post(bench, f"{DATED}/own/value/0/away", {"based_on": "1"})
    said = words(bench.ask.get(DATED))
    assert "square From about 1966" in said
    assert "Put away 1 Corvane badge, square" in said
    post(bench, f"{DATED}/away", {"at": "0", "based_on": "2"})
    assert "square yours" in words(bench.ask.get(DATED))
    undone = post(bench, "/workshop/undo", {"kind": "reference", "number": "1", "based_on": "3"})
    assert undone.headers["location"] == DATED


def test_two_who_change_one_row_are_shown_both(bench) -> None:
    post(bench, NEW, SHIELD)
    one = SHIELD | {"based_on": "1"}
    post(bench, f"{DATED}/own/value/0", one | {"from": "1971"})
    answer = post(bench, f"{DATED}/own/value/0", one | {"from": "1972"})
    assert answer.status_code == 409
    assert "1971" in words(answer)
    mine = one | {"from": "1972", "based_on": "2", "keep": "mine"}
    assert post(bench, f"{DATED}/own/value/0", mine).status_code == 303
    assert own_rows(bench.shop)["value"][0]["from"] == 1972


def test_a_file_is_looked_at_then_taken_in(bench) -> None:
    post(bench, NEW, SHIELD)
    text = bench.ask.get(f"{DATED}/file").text.replace("shield", "star")
    sent = {"file": ("mine.toml", text.encode(), "application/toml")}
    looked = post(bench, f"{DATED}/file", {}, files=sent)
    assert "1 new, 0 changed, 1 gone; 0 stay as they are." in words(looked)
    assert own_rows(bench.shop)["value"][0]["name"] == "shield"
    hidden = unescape(re.search(r'name="text" value="(.*?)">', looked.text, flags=re.S)[1])
    done = post(bench, f"{DATED}/file", {"text": hidden, "based_on": "1"})
    assert done.status_code == 303
    assert own_rows(bench.shop)["value"][0]["name"] == "star"


def test_a_file_that_is_none_is_one_line_beside_the_field(bench) -> None:
    for content, says in (
        (b"\xff\xfe\x00", "this is no text file"),
        (b"[[value", "not toml"),
        (b'[[value]]\nname = "x"', "source: this is missing"),
        (b'[[shelf]]\nname = "x"', '"shelf" is not known here'),
    ):
        sent = {"file": ("mine.toml", content, "application/toml")}
        answer = post(bench, f"{DATED}/file", {}, files=sent)
        assert answer.status_code == 422
        found = re.search(r'id="dated-file-fault" role="alert">(.*?)</p>', answer.text, flags=re.S)
        assert says in unescape(found[1]).lower()


def test_what_is_not_there_is_said(bench) -> None:
    for path in ("own/value/7", "own/valeu/new", "own/value/new?like=&name=none", "own/value/-1"):
        assert bench.ask.get(f"{DATED}/{path}").status_code in (404, 422)


def test_a_number_that_is_none_is_said_beside_its_field(bench) -> None:
    sent = {"family": "Corvane", "number": "12/B", "year": "1950", "part": "shell", "source": "x"}
    answer = post(bench, f"{DATED}/own/serial/new", sent | {"based_on": "0"})
    assert (answer.status_code, "Not a serial number" in faults(answer)["number"]) == (422, True)


def test_a_form_that_another_took_over_from_does_not_lose_its_end(bench) -> None:
    # "oval, on a grommet" follows it and ends about 1965, as the packaged rows have them.
    nailed = SHIELD | {"name": "round, nailed", "from": "1947", "diameters": "", "to_give": ""}
    for to, says in (("", "has a last year"), ("1990", "end before it begins")):
        answer = post(bench, NEW, nailed | {"to": to})
        assert answer.status_code == 422
        assert "“oval, on a grommet” took over" in faults(answer)["to"]
        assert says in faults(answer)["to"]
    assert post(bench, NEW, nailed | {"to": "1957"}).status_code == 303
    assert "oval, on a grommet About 1958" in words(bench.ask.get(DATED))


def test_a_file_whose_form_follows_one_that_follows_nothing_is_one_line(bench) -> None:
    row = '[[value]]\nsource = "x"\nfamily = "Corvane"\nfeature = "badge"\n'
    text = f'{row}name = "a"\nfollows = "b"\n{row}name = "b"\nto = 1950\nfollows = "c"\n'
    sent = {"file": ("mine.toml", text.encode(), "application/toml")}
    answer = post(bench, f"{DATED}/file", {}, files=sent)
    assert (answer.status_code, "value b.follows" in words(answer)) == (422, True)


def test_a_book_of_two_thousand_numbers_is_listed_at_once(bench) -> None:
    numbers = [
        {"family": "Corvane", "number": f"X {n}", "year": 1950 + n // 100, "source": "a book"}
        for n in range(2000)
    ]
    write_rows(bench.shop, {"serial": numbers}, based_on=0, by="bench")
    own, begun = own_reference(bench.shop), time.process_time()
    rows = dict(families_shown(own)[0].groups)["Serial numbers"]
    # Row by row against all others it took over five seconds.
    assert time.process_time() - begun < 1.0
    assert [one.href.rpartition("/")[2] for one in rows if one.own] == [f"{n}" for n in range(2000)]
