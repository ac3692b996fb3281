"""What is this? What is typed, shown again, kept and refused. Truth: worked by hand from it."""

from __future__ import annotations

import re
from html import unescape
from urllib.parse import parse_qsl, urlsplit

from counterhoop.bench.shelf.cards import card_of, write_piece

LINES = {
    "kind": "lug",
    "measured.0.what": "holes apart", "measured.0.written": "42.1",
    "measured.1.what": "base high", "measured.1.written": "2 7/16 in",
    "measured.1.with": "rule",
}  # fmt: skip


def words(answer) -> str:
    return " ".join(unescape(re.sub(r"<[^>]*>", " ", answer.text)).split())


def links(answer, label: str) -> list[str]:
    return [unescape(one) for one in re.findall(rf'href="([^"]*)"[^>]*aria-label="{label}"',
                                                answer.text)]  # fmt: skip


def post(bench, path: str, **fields: object):
    return bench.ask.post(f"/shelf/unknown/{path}", data=fields, follow_redirects=False)


def put(bench, **fields: object) -> str:
    kept = write_piece(bench.shop, None, fields, based_on=0, by="window bench")
    return kept.piece.id


def test_a_line_is_taken_out_and_changed_by_its_address(bench) -> None:
    shown = bench.ask.get("/shelf/unknown", params=LINES)
    assert (shown.status_code, "2 7/16 in (rule)" in words(shown)) == (200, True)
    (out,) = links(shown, "Take base high out")
    asked = dict(parse_qsl(urlsplit(out).query))
    first = {name: value for name, value in LINES.items() if "1" not in name}
    assert asked == first | {"measured.0.written": "42.1 mm"}
    (change,) = links(shown, "Change base high")
    changing = bench.ask.get(change)
    assert 'value="2 7/16 in"' in changing.text
    assert links(changing, "Change base high") == []
    assert links(changing, "Change holes apart")


def test_a_reading_keeps_the_unit_and_the_tool_it_was_typed_in(bench) -> None:
    typed = {"measured.0.what": "holes apart", "measured.0.written": "42.0"}
    in_mm = bench.ask.get("/shelf/unknown", params=typed)
    assert "written=42.0+mm" in str(in_mm.url)
    bench.ask.cookies.set("counterhoop-mine", "in.machine")
    assert "42.0 mm" in words(bench.ask.get(str(in_mm.url)))
    in_inches = bench.ask.get("/shelf/unknown", params=typed | {"measured.0.written": "1.657"})
    assert "1.657 in" in words(in_inches)
    bench.ask.cookies.delete("counterhoop-mine")
    # Whole millimetres are a rule's, as at the command line.
    whole = bench.ask.get("/shelf/unknown", params=typed | {"measured.0.written": "83"})
    assert "83 mm (rule)" in words(whole)
    called = bench.ask.get(
        "/shelf/unknown",
        params=typed | {"measured.0.written": "83 mm", "measured.0.with": "caliper"},
    )
    assert "83 mm (caliper)" in words(called)


def test_a_threads_name_is_its_pitch_and_what_it_measures_across(bench) -> None:
    """12-24: 24 to the inch; M6: 1 mm. ASME B1.1 and ISO 724, by hand."""
    for name, pitch in (("12-24", "24 tpi"), ("M6", "1 mm")):
        for what in ("pitch", "thread across"):
            asked = {"measured.0.what": what, "measured.0.written": name, "kind": "rod"}
            shown = words(bench.ask.get("/shelf/unknown", params=asked))
            assert f"Thread across {name}" in shown
            assert f"Pitch {pitch}" in shown
    put_there = post(bench, "put", **asked, number="0001")
    piece = card_of(bench.shop, put_there.headers["location"].rpartition("/")[2]).kept.piece
    assert {one.dimension.value: round(one.value, 3) for one in piece.measured} == {
        "thread across": 6.0, "pitch": 1.0,
    }  # fmt: skip
    bare = {"measured.0.what": "pitch", "measured.0.written": "24"}
    shown = words(bench.ask.get("/shelf/unknown", params=bare))
    assert "24 tpi" in shown
    assert "24 mm" not in shown


def test_it_is_said_which_holes_are_meant(bench) -> None:
    shown = words(bench.ask.get("/shelf/unknown"))
    assert "Holes apart, the two farthest, centre to centre" in shown


def test_what_cannot_be_read_stands_where_it_was_typed(bench) -> None:
    wrong = bench.ask.get("/shelf/unknown", params=LINES | {"measured.1.written": "tall"})
    assert wrong.status_code == 422
    assert 'value="tall"' in wrong.text
    assert "is not a unit of length" in words(wrong)
    assert links(wrong, "Change holes apart")
    by_rule = {"measured.0.what": "mass", "measured.0.written": "90 g", "measured.0.with": "rule"}
    with_rule = bench.ask.get("/shelf/unknown", params=by_rule)
    assert "Cannot be taken with that" in words(with_rule)
    unknown = bench.ask.get(
        "/shelf/unknown", params={"measured.0.what": "colour", "measured.0.written": "3"}
    )
    assert (unknown.status_code, "Not in the list" in words(unknown)) == (422, True)


def test_a_number_that_is_taken_is_refused_and_what_was_typed_stays(bench) -> None:
    put(bench, number="0001", says="a lug")
    refused = post(bench, "put", **LINES, number="0001", says="flat one", bin="B3", count="2")
    assert refused.status_code == 422
    for kept in ('value="flat one"', 'value="B3"', 'value="2"', "another piece"):
        assert kept in refused.text
    done = post(bench, "put", **LINES, number="0002", bin="B3", count="2", owner="A. Hale")
    assert done.status_code == 303
    piece = card_of(bench.shop, done.headers["location"].rpartition("/")[2]).kept.piece
    assert (piece.number, piece.kind, piece.bin, piece.count) == ("0002", "lug", "B3", 2)
    assert (piece.owner, piece.fitting) == ("A. Hale", "")
    assert [str(one) for one in piece.measured] == ["42.1 mm", "62 mm"]


def test_a_cards_measurements_are_taken_over_and_it_is_given_its_name(bench) -> None:
    bare = put(bench, number="0001", says="no idea")
    assert bench.ask.get(f"/shelf/unknown?piece={bare}").status_code == 200
    post_lines = post(bench, "put", **LINES, number="0002")
    piece_id = post_lines.headers["location"].rpartition("/")[2]
    shown = bench.ask.get(f"/shelf/unknown?piece={piece_id}")
    assert "42.1 mm" in words(shown)
    assert f"piece={piece_id}" in str(shown.url)
    assert "Its card does not say yet what it is." in words(shown)
    state = dict(parse_qsl(shown.url.query.decode()))
    name = "Corvane round bass lug"
    # Somebody was quicker: theirs is said, and nothing is written over it.
    write_piece(
        bench.shop, piece_id, {"fitting": "Corvane round lug"}, based_on=1, by="other bench"
    )
    late = post(bench, "is", **state, fitting=name, based_on=1)
    assert late.status_code == 409
    assert "it says Corvane round lug now" in words(late)
    assert card_of(bench.shop, piece_id).kept.piece.fitting == "Corvane round lug"
    again = post(bench, "is", **state, fitting=name, based_on=2)
    assert again.headers["location"] == f"/shelf/pieces/{piece_id}"
    assert card_of(bench.shop, piece_id).kept.piece.fitting == name


def test_a_piece_that_nobody_has_is_said(bench) -> None:
    gone = bench.ask.get("/shelf/unknown", params={"piece": "no-such", **LINES})
    assert 400 <= gone.status_code < 500
    assert "no such piece" in words(gone)


def test_what_was_about_to_be_measured_holds_nothing_up(bench) -> None:
    about_to = LINES | {"measured.1.written": "", "measured.2.what": "stands out"}
    done = post(bench, "put", **about_to, number="0001")
    assert done.status_code == 303
    piece = card_of(bench.shop, done.headers["location"].rpartition("/")[2]).kept.piece
    assert [str(one) for one in piece.measured] == ["42.1 mm"]


def test_a_name_is_pressed_with_a_line_in_hand_and_the_line_is_not_lost(bench) -> None:
    name, piece = "Corvane round bass lug", put(bench, number="0001", says="no idea")
    wrong = LINES | {"measured.1.written": "tall", "measured.1.with": "", "piece": piece}
    refused = post(bench, "is", **wrong, fitting=name, based_on=1)
    assert (refused.status_code, 'value="tall"' in refused.text) == (422, True)
    assert card_of(bench.shop, piece).kept.piece.fitting == ""
    changing = LINES | {"piece": piece, "write": "1"}
    assert post(bench, "is", **changing, fitting=name, based_on=1).status_code == 303
    kept = card_of(bench.shop, piece).kept.piece
    assert [str(one) for one in kept.measured] == ["42.1 mm", "62 mm"]


def test_one_more_of_what_lies_there_goes_into_its_bag(bench) -> None:
    odd = {
        "kind": "lug", "measured.0.what": "holes apart", "measured.0.written": "47.5 mm",
        "measured.1.what": "base high", "measured.1.written": "71.0 mm",
        "measured.2.what": "stands out", "measured.2.written": "9.0 mm",
    }  # fmt: skip
    first = post(bench, "put", **odd, number="W-061", says="flat lug, blue box", count="1")
    assert first.status_code == 303
    shown = bench.ask.get("/shelf/unknown", params=odd)
    form = re.search(r'<form class="presses" method="post" action="([^"]*/move)">(.*?)</form>',
                     shown.text)  # fmt: skip
    assert form
    assert "One more of W-061" in form[2]
    fields = dict(re.findall(r'name="([^"]*)" value="([^"]*)"', form[2]))
    for _ in range(2):  # sent twice, it came once
        bench.ask.post(form[1], data=fields, follow_redirects=False)
    piece_id = first.headers["location"].rpartition("/")[2]
    assert card_of(bench.shop, piece_id).stock.on_shelf == 2
    assert "One more of" not in words(bench.ask.get("/shelf/unknown", params=LINES))
