"""The database server stops under the pages, and comes back; truth: a server of the tests' own."""

from __future__ import annotations

from test_killed_while_saving import open_folder, sheet

from counterhoop.bench.folders.kinds import HANDOVER
from counterhoop.store.address import address_of
from counterhoop.store.copies.verify import verify
from counterhoop.store.revision import find_document, history_of
from counterhoop.store.store import open_store


def test_a_database_that_is_away_is_said_and_pages_go_on_when_it_is_back(start, cluster, tmp_path):
    address = cluster.new_database()
    server = start(tmp_path / "data", "--store", address)
    job = open_folder(server)
    page = sheet(job)

    def save(note):
        return server.browser.post(page, data={**form, "done": note})

    form = server.form(page, page)
    assert save("before").status_code == 303
    form = server.form(page, page)
    cluster.stop()
    try:
        refused = save("while it is away")
        assert refused.status_code == 503
        assert "The database does not answer" in refused.text
        assert "nothing of this is known to be kept" in refused.text
        part = server.browser.post(
            page, data={**form, "done": "a part"}, headers={"HX-Request": "true"}
        )
        assert part.status_code == 503
        assert "The database does not answer" in part.text
        assert "<html" not in part.text
        for looked_at in ("/", page, f"/jobs/{job}/photographs", "/workshop"):
            shown = server.browser.get(looked_at)
            assert shown.status_code == 503, looked_at
            assert "The database does not answer" in shown.text
        program = server.browser.get("/api/jobs")
        assert program.status_code == 503
        assert program.json()["what"].startswith("The database does not answer")
    finally:
        cluster.start()
    # The same form, sent again from the page that is still open.
    assert save("when it is back").status_code == 303
    assert "when it is back" in server.browser.get(page).text
    server.stop()
    assert "Traceback" not in server.said
    assert "Nell" not in server.said
    with open_store(address_of(address, data=tmp_path / "data")) as store:
        assert verify(store).sound
        with store.reading() as r:
            document = find_document(r, job_id=job, kind=HANDOVER, name="")
            notes = [one.body["done"] for one in history_of(r, document.id)]
    assert notes == ["before", "when it is back"]
