"""The published schema: valid itself, kept up to date, true of the files that are read."""

from __future__ import annotations

import json
import subprocess
import sys
import tomllib
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from bad_readings import BAD_READINGS, GOOD_READ
from bad_surveys import BAD_SURVEYS, GOOD, Bad
from survey_text import survey

from counterhoop.shell.survey_file.schema import json_schema
from counterhoop.shell.survey_file.template import new_survey

ROOT = Path(__file__).parents[2]
EVERYTHING = Path(__file__).parent / "data" / "everything.toml"
CASES = sorted((ROOT / "tests" / "cases").glob("?_*.toml"))
SCHEMA = jsonschema.Draft202012Validator(json_schema())
BY_SCHEMA = {
    *("heights in one word", "true for a wall", "list for a wall", "bare number", "no unit"),
    *("kind unknown", "no lugs", "half a lug", "unknown name", "unknown table", "a wish unknown"),
    *("another format", "no format", "no job number", "match of one", "three heads"),
    *("outline without width", "missing in words", "half a lug in stock", "name of another wish"),
    *("gaps as numbers", "gaps as a number", "gaps no unit", "round of another end", "no cut"),
    *("a cut unknown", "no collar", "no threads", "half the air", "a wood unknown"),
    *("a glue unknown", "offcut without width", "half a sheet", "least of all"),
}


def complaints(text: str) -> list[str]:
    """Return what the schema says of a TOML text; TOML dates count as text."""
    plain = json.loads(json.dumps(tomllib.loads(text), default=str))
    return [f"{fault.json_path}: {fault.message}" for fault in SCHEMA.iter_errors(plain)]


def test_the_schema_is_itself_valid() -> None:
    jsonschema.Draft202012Validator.check_schema(json_schema())


def test_the_schema_that_is_kept_is_the_one_that_is_meant(tmp_path: Path) -> None:
    script = ROOT / "docs" / "reference" / "write_survey_schema.py"
    subprocess.run([sys.executable, str(script), str(tmp_path)], check=True, capture_output=True)
    written = (tmp_path / "survey.schema.json").read_text()
    assert (ROOT / "docs" / "reference" / "survey.schema.json").read_text() == written
    assert json.loads(written) == json_schema()


@pytest.mark.parametrize("path", [EVERYTHING, *CASES], ids=lambda path: path.stem)
def test_files_that_are_read_are_good_by_the_schema(path: Path) -> None:
    assert complaints(path.read_text()) == []


def test_the_cases_are_there() -> None:
    assert [path.stem[0] for path in CASES] == list("abcde")


@pytest.mark.parametrize("units", ["mm", "in"])
def test_a_new_file_is_good_by_the_schema(units: Any) -> None:
    assert complaints(new_survey(number="1", units=units)) == []


def test_smaller_files_are_good_by_the_schema() -> None:
    assert complaints(GOOD) == []
    assert complaints(GOOD_READ) == []
    assert complaints(survey()) == []


@pytest.mark.parametrize(
    "one",
    [bad for bad in (*BAD_SURVEYS, *BAD_READINGS) if bad.id in BY_SCHEMA],
    ids=lambda one: one.id,
)
def test_the_schema_refuses_what_needs_no_arithmetic(one: Bad) -> None:
    assert complaints(one.content.decode())


def test_every_name_of_the_format_stands_in_the_example() -> None:
    schema = json_schema()
    names = {
        name
        for table in (schema, *schema["$defs"].values())
        for name in table.get("properties", {})
    }
    text = EVERYTHING.read_text()
    assert sorted(name for name in names if name not in text) == []
