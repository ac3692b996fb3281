"""The folder that is carried away: plain files, the photographs byte for byte, links that lead.

Truth: exact law (what comes out is what went in); Python's own readers of ZIP, CSV and HTML.
"""

from __future__ import annotations

import csv
import io
import tomllib
import zipfile
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import unquote

from handed_job import hand_over, photographed, picture, record, take_first, tick
from hypothesis import given
from hypothesis import strategies as st
from priced_job import BY, OnTheBench, text_of
from pypdf import PdfReader

from counterhoop.bench.folders.photographs import lying_in, put_photograph_in
from counterhoop.bench.folders.source_once import to_plan_once
from counterhoop.bench.long_work.answers import Done
from counterhoop.bench.open_job import open_job
from counterhoop.bench.price.bills import give_receipt
from counterhoop.bench.record.ask_record import ask_records
from counterhoop.bench.record.folder_out import folder_out, named_drums
from counterhoop.bench.record.zip_in_pieces import zip_in_pieces


class Links(HTMLParser):
    """Everything that a page points to."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[str] = []
        self.tags: set[str] = set()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.add(tag)
        self.found += [unquote(value) for name, value in attrs if name in ("href", "src") and value]


@given(
    st.dictionaries(
        st.text("abc/ 1", min_size=1, max_size=8), st.lists(st.binary(max_size=40), max_size=4),
        max_size=5,
    )
)  # fmt: skip
def test_what_is_packed_in_pieces_is_what_was_put_in(files: dict[str, list[bytes]]) -> None:
    made = b"".join(zip_in_pieces(files.items()))
    with zipfile.ZipFile(io.BytesIO(made)) as archive:
        assert archive.testzip() is None
        assert archive.namelist() == [*files]
        assert [archive.read(info) for info in archive.infolist()] == [
            b"".join(pieces) for pieces in files.values()
        ]


def test_the_folder_opens_without_this_program(tom: OnTheBench, tmp_path: Path) -> None:
    code, holes = take_first(tom)
    tick(tom, code, holes)
    hand_over(tom)
    sent = photographed(tom)
    give_receipt(
        tom.shop, tom.job, day="2030-05-13", amount="50", how="cash", currency="GBP", by=BY
    )
    # Whatever a photograph is called, it is no paper of a bill.
    named = "receipt 1.pdf"
    put_photograph_in(tom.shop, tom.id, drum="", name=named, pieces=[picture(9)], by=BY)
    records = (record(tom),)
    before = lying_in(tom.shop, tom.id, with_hidden=True)
    source = to_plan_once(tom.shop, tom.job).source
    answer = ask_records(tom.shop, source, named_drums(records), paper="A4")
    assert isinstance(answer, Done)
    files = folder_out(tom.shop, tom.job, records, answer.value, plan=tom.plan())
    with zipfile.ZipFile(io.BytesIO(b"".join(zip_in_pieces(files)))) as archive:
        names = archive.namelist()
        held = {name.removeprefix("record 26-031/"): archive.read(name) for name in names}
    # It was only looked at.
    assert lying_in(tom.shop, tom.id, with_hidden=True) == before
    photographs = {name: data for name, data in held.items() if "/photographs/" in name}
    assert sorted(photographs.values()) == sorted(sent.values())
    assert held["1 small tom/photographs/02 batter edge, as left.jpg"] == sent["batter edge True"]
    _is_its_record(held["1 small tom/handover record.pdf"])
    assert "The edges are newly cut" in text_of(held["1 small tom/care sheet.pdf"])
    assert held["bills/receipt 1.pdf"].startswith(b"%PDF-1.7")
    _is_what_was_measured(held["survey/survey.toml"], tmp_path)
    rows = list(csv.reader(io.StringIO(held["1 small tom/holes.csv"].decode())))
    assert [row[0] for row in rows[1:]] == [str(number) for number in sorted(holes)]
    assert rows[18][-2:] == ["extra, made before it came to us", "closed by us"]
    links = Links()
    links.feed(held["index.html"].decode())
    # No script, nothing from elsewhere, and every link leads to a file that is there.
    assert not links.tags & {"script", "iframe", "link"}
    assert links.found
    assert [link for link in links.found if link not in held] == []
    assert set(held) - {*links.found} == {"index.html", "READ ME.txt"}


def _is_what_was_measured(survey: bytes, tmp_path: Path) -> None:
    """Say that a survey is read whole again, and that what is the workshop's own is not in it."""
    said = tomllib.loads(survey.decode())
    assert {"prices", "minutes", "rules", "stock"}.isdisjoint(said)
    assert b"34.00 GBP" not in survey
    (tmp_path / "survey.toml").write_bytes(survey)
    (drum,) = open_job(tmp_path / "survey.toml").job.drums
    assert len(drum.drum.holes) == 18


def _is_its_record(pdf: bytes) -> None:
    """Say what the record of the tom holds, and that its file is one to be kept."""
    text = text_of(pdf)
    for words in (
        "Handover record: small tom", "13 May 2030", "not photographed as it goes",
        "added by us 12 holes", "We put right what we did, for two years.",
        "Who painted the inside.",
    ):  # fmt: skip
        assert words in text, words
    reader = PdfReader(io.BytesIO(pdf))
    metadata = reader.trailer["/Root"]["/Metadata"].get_data()
    # ISO 19005-2 and 14289-1 (from memory): what a kept and readable file says of itself.
    assert b"<pdfaid:part>2</pdfaid:part>" in metadata
    assert b"<pdfuaid:part>1</pdfuaid:part>" in metadata
    # Three places as found, two of them as left.
    assert sum(len(page.images) for page in reader.pages) == 5
