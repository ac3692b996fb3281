"""The description of the addresses is kept: schemathesis asks whatever it allows, and forbids."""

from __future__ import annotations

import traceback

import pytest
import schemathesis
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from schemathesis.checks import CHECKS, load_all_checks

load_all_checks()
WANTED = (
    "not_a_server_error", "status_code_conformance", "content_type_conformance",
    "response_schema_conformance",
)  # fmt: skip


def described(api):
    return schemathesis.openapi.from_asgi("/api/openapi.json", api.app)


def ask(api, job, drum, *, count):
    schema = described(api)
    checks = [CHECKS.get_one(name) for name in WANTED]
    seen = set()
    for result in schema.get_all_operations():
        operation = result.ok()
        seen.add(operation.label)
        cases = st.one_of(
            operation.as_strategy(),
            operation.as_strategy(generation_mode=schemathesis.GenerationMode.NEGATIVE),
        )

        @settings(
            max_examples=count, deadline=None, derandomize=True, database=None,
            suppress_health_check=list(HealthCheck),
        )  # fmt: skip
        @given(cases, st.booleans())
        def one(case, of_a_job):
            if of_a_job and "job_id" in case.path_parameters:
                case.path_parameters["job_id"] = job
                if "drum_id" in case.path_parameters:
                    case.path_parameters["drum_id"] = drum
            case.call_and_validate(checks=checks)

        one()
    assert len(seen) >= 9


def of_the_demonstration(api, demo):
    drums = api.ask.get(f"/api/jobs/{demo}").json()["drums"]
    return demo, drums[0]["id"]


def test_no_address_breaks_and_each_keeps_to_its_description(api, demo):
    ask(api, *of_the_demonstration(api, demo), count=6)


@pytest.mark.full
def test_no_address_breaks_in_a_long_row(api, demo):
    ask(api, *of_the_demonstration(api, demo), count=200)


def test_a_broken_address_would_be_found(api, demo, monkeypatch):
    from counterhoop.web.api import routes

    def breaks(*_given, **_more):
        raise ZeroDivisionError

    monkeypatch.setattr(routes, "on_the_bench", breaks)
    with pytest.raises(Exception) as found:  # noqa: PT011
        ask(api, *of_the_demonstration(api, demo), count=3)
    # It comes through the test's transport as it is, or as an answer of 500.
    told = "".join(traceback.format_exception(found.value))
    assert "ZeroDivisionError" in told or "erver error" in told
