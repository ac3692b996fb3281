"""The commands as a person meets them."""

from __future__ import annotations

import json
import re
from pathlib import Path

import jsonschema
import pytest

from counterhoop.bench.listing import listing_schema

CASES = Path(__file__).parents[1] / "cases"
COMMANDS = ("new", "check", "schemes", "papers", "fitting", "check-sheet", "demo")


def test_help_names_every_command_and_cuts_no_sentence_short(run):
    ran = run("--help")
    assert ran.code == 0
    for command in COMMANDS:
        assert f"  {command}" in ran.out
    assert not re.search(r"\w\.\.\.$", ran.out, flags=re.MULTILINE)


@pytest.mark.parametrize("command", COMMANDS)
def test_each_command_explains_itself(command, run):
    ran = run(command, "--help")
    assert ran.code == 0
    assert len(ran.out) > 200


def test_a_new_survey_file_reads_at_once(run, tmp_path):
    survey = tmp_path / "job.toml"
    assert run("new", survey).code == 0
    ran = run("check", survey)
    assert ran.code == 0
    assert "stop" in ran.out  # the example's numbers are still in it


def test_schemes_as_json_keep_to_their_schema(run):
    ran = run("schemes", CASES / "a_corvane.toml", "--json")
    assert ran.code == 0
    assert ran.err == ""
    told = json.loads(ran.out)
    jsonschema.validate(told, listing_schema())
    (drum,) = told["drums"]
    assert [s["chosen"] for s in drum["schemes"]].count(True) == 1


def test_schemes_in_words_name_the_chosen_and_what_is_set_aside(run):
    ran = run("schemes", CASES / "b_hallmere.toml")
    assert "[chosen]" in ran.out
    assert "set aside" in ran.out
    assert "bracket" in ran.out


def test_a_fitting_can_be_shown_by_part_of_its_name(run):
    assert "Corvane round long lug 134" in run("fitting", "long lug").out
    assert "mm" in run("fitting", "Corvane round long lug 134").out


def test_papers_replace_only_their_own_folder(run, tmp_path):
    to = tmp_path / "papers"
    for _ in range(2):
        ran = run("papers", CASES / "d_varlow.toml", "--to", to)
        assert ran.code == 0
        assert "DRAFT" in ran.out
    assert [p.name for p in tmp_path.iterdir()] == ["papers"]
    assert list(to.rglob("*.pdf"))
