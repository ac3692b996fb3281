"""The hand-over as a page and as papers; a folder that is carried away opens.

Truth: what was put in; Python's own reader of ZIP.
"""

from __future__ import annotations

import html
import io
import zipfile

from handed_job import hand_over, photographed, take_first, tick
from priced_job import OnTheBench, text_of
from starlette.testclient import TestClient


def test_the_page_says_the_record_and_what_it_lacks(tom: OnTheBench, ask: TestClient) -> None:
    at = f"/jobs/{tom.id}/handed-over"
    bare = html.unescape(ask.get(at).text)
    assert "No scheme is taken: the record does not show how it was left." in bare
    code, holes = take_first(tom)
    tick(tom, code, holes)
    hand_over(tom)
    photographed(tom)
    page = html.unescape(ask.get(at).text)
    for said in (
        "12 new holes drilled", "Rods cleaned and oiled.", "Who painted the inside.",
        "No photograph after the work: resonant edge.", "Handed over on 13 May 2030 to Nell.",
        "1.1 mm apart, its lean with them; within 0.8 mm of flat. Trued:",
    ):  # fmt: skip
        assert said in page, said


def test_papers_and_folder_are_handed_out(tom: OnTheBench, ask: TestClient) -> None:
    hand_over(tom)
    sent = photographed(tom)
    at = f"/jobs/{tom.id}/handed-over"
    record = ask.get(f"{at}/{tom.drum.id}/record.pdf")
    assert record.headers["content-type"] == "application/pdf"
    assert "Handover record: small tom" in text_of(record.content)
    assert "How to look after it: small tom" in text_of(
        ask.get(f"{at}/{tom.drum.id}/care.pdf").content
    )
    folder = ask.get(f"{at}/record.zip")
    assert folder.headers["content-disposition"] == 'attachment; filename="record 26-031.zip"'
    with zipfile.ZipFile(io.BytesIO(folder.content)) as archive:
        held = [archive.read(name) for name in archive.namelist() if "/photographs/" in name]
    assert sorted(held) == sorted(sent.values())
    ready = ask.get(f"{at}/making?what=folder")
    assert ready.status_code == 200
    assert f"{at}/record.zip" in ready.text
    assert ask.get(f"{at}/nobody/record.pdf").status_code == 404
    assert ask.get(f"{at}/making?what=gold").status_code in (404, 422)
