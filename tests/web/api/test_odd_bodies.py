"""Whatever is put into a document, no address and no page ever breaks on it."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

KINDS = ("job", "survey", "wish", "choice", "facts", "arrival", "handover")
NAMES = (
    *("job", "number", "client", "match", "drums", "rules", "stock", "wraps", "wish", "want"),
    *("finish_plan", "wall", "depth", "circumference", "rows", "holes", "edges", "batter"),
    *("gaps", "seam", "fittings", "near", "along", "scheme", "moved", "row", "lugs", "book"),
    *("came", "missing", "handed_over", "done", "code", "size", "units", "features"),
)
LEAVES = (
    st.none() | st.booleans() | st.integers(-(10**30), 10**30)
    | st.floats(allow_nan=False, allow_infinity=False)
    | st.text(max_size=12) | st.sampled_from(("5 mm", "30 deg", "batter", "lug 2", "\ud800", "\0"))
)  # fmt: skip
BODIES = st.recursive(
    LEAVES,
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(st.sampled_from(NAMES) | st.text(max_size=6), inner, max_size=5)
    ),
    max_leaves=25,
)
TABLES = st.dictionaries(st.sampled_from(NAMES) | st.text(max_size=6), BODIES, max_size=6)


@pytest.mark.parametrize("kind", KINDS)
def test_nothing_that_is_kept_breaks_a_page(api, kind):
    job = api.ask.post("/api/jobs", json={"job": {"number": "30-001"}}).json()["id"]
    shell = {"circumference": "951 mm", "depth": "203 mm", "wall": "5 mm"}
    drum = api.ask.post(f"/api/jobs/{job}/drums", json={"name": "tom", "survey": shell})
    drum = drum.json()["id"]
    of_drum = kind in ("survey", "wish", "choice", "facts")
    pages = [
        *("/", f"/api/jobs/{job}", f"/api/jobs/{job}/schemes", f"/jobs/{job}"),
        *(f"/jobs/{job}/drums/{drum}{end}" for end in ("", "/shell", "/schemes", "/bench")),
        f"/jobs/{job}/wrap",
    ]
    revision = {"now": {"job": 2, "survey": 1}.get(kind, 0)}

    @settings(
        max_examples=15, deadline=None, derandomize=True, database=None,
        suppress_health_check=list(HealthCheck),
    )  # fmt: skip
    @given(TABLES)
    def keep_and_look(body):
        answer = api.ask.put(
            f"/api/jobs/{job}/documents/{kind}",
            params={"drum": drum} if of_drum else {},
            content=_json({"body": body, "based_on": revision["now"]}),
            headers={"content-type": "application/json"},
        )
        assert answer.status_code in (200, 422), answer.text
        if answer.status_code == 200:
            revision["now"] = answer.json()["revision"]
        for page in pages:
            told = api.ask.get(page, headers={"accept": "text/html"})
            assert told.status_code < 500, (page, body)

    keep_and_look()


def _json(value):
    import json

    return json.dumps(value).encode("ascii")


def test_a_body_without_end_is_refused(api):
    deep = b'{"body":' + b'{"a":' * 100_000 + b"1" + b"}" * 100_000 + b',"based_on":0}'
    for method, path in (("PUT", "/api/jobs/x/documents/job"), ("POST", "/api/jobs")):
        answer = api.ask.request(
            method, path, content=deep, headers={"content-type": "application/json"}
        )
        assert answer.status_code == 422, answer.text[:200]
