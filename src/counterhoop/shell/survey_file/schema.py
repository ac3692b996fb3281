"""The survey file's JSON Schema, for editors and for other programs."""

from __future__ import annotations

from typing import Any

from counterhoop.shell.survey_file.models_job import SurveyWritten

DRAFT = "https://json-schema.org/draft/2020-12/schema"
SCHEMA_ID = "urn:counterhoop:survey:1"


def json_schema() -> dict[str, Any]:
    """Return the JSON Schema of survey files, format 1 (draft 2020-12).

    It says what may stand where. What only arithmetic can tell (a hole outside the shell, a unit
    that is missing from a length in words) is told when the file is read. TOML dates count as
    text in the form of ISO 8601.

    Examples
    --------
    >>> json_schema()["required"]
    ['format', 'job', 'drums']
    """
    schema = SurveyWritten.model_json_schema(by_alias=True)
    return {
        "$schema": DRAFT,
        "$id": SCHEMA_ID,
        "description": "A survey of drums and what is wanted of them, format 1, written in TOML.",
        **schema,
    }
