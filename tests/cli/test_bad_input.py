"""Bad input is one clear line and exit code 2: no traceback, nothing half-written."""

from __future__ import annotations

import importlib.util
import sys
from pathlib import Path

import pytest


def _table():
    """Load the table of bad survey files that the survey room keeps."""
    path = Path(__file__).parents[1] / "shell" / "bad_surveys.py"
    spec = importlib.util.spec_from_file_location("bad_surveys", path)
    module = importlib.util.module_from_spec(spec)
    sys.modules["bad_surveys"] = module
    spec.loader.exec_module(module)
    return module.BAD_SURVEYS


BAD = _table()
CASES = Path(__file__).parents[1] / "cases"
GOOD = CASES / "d_varlow.toml"


def test_the_table_is_long_enough():
    assert len(BAD) >= 60
    assert len({bad.id for bad in BAD}) == len(BAD)


@pytest.mark.parametrize("bad", BAD, ids=[bad.id for bad in BAD])
def test_a_bad_survey_is_one_line_and_two(bad, run, tmp_path):
    survey = tmp_path / "job.toml"
    survey.write_bytes(bad.content)
    ran = run("papers", survey, "--to", tmp_path / "papers")
    assert ran.code == 2
    assert ran.out == ""
    (line,) = ran.err.strip().splitlines()
    assert bad.says in line
    assert "Traceback" not in line
    assert sorted(p.name for p in tmp_path.iterdir()) == ["job.toml"]


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("check", "nowhere.toml"), "no such file"),
        (("schemes", "nowhere.toml"), "no such file"),
        (("check", CASES), "cannot read it"),
        (("schemes", GOOD, "--drum", "Varlow snar"), "no drum of that name"),
        (("papers", GOOD, "--to", "p", "--drum", "x"), "no drum of that name"),
        (("papers", GOOD, "--to", "p", "--scheme", "99"), "99"),
        (("papers", GOOD, "--to", "p", "--paper", "A9"), "A9"),
        (("papers", GOOD, "--to", "p", "--printer", "12"), "12"),
        (("papers", GOOD, "--to", "p", "--printer", "150 mm, 250 mm"), "2 %"),
        (("papers", GOOD, "--to", "p", "--thickness", "3"), "unit"),
        (("fitting", "no such lug at all"), "no such fitting"),
        (("fitting", "--book", "nowhere.toml"), "no such file"),
        (("check-sheet", "--to", "c.pdf", "--paper", "napkin"), "napkin"),
    ],
)
def test_a_slip_on_the_command_line_is_one_line_and_two(words, says, run, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    ran = run(*words)
    assert ran.code == 2
    (line,) = ran.err.strip().splitlines()
    assert says in line
    assert list(tmp_path.iterdir()) == []


def test_an_unknown_fitting_is_named_with_its_near_miss(run, tmp_path):
    text = GOOD.read_text(encoding="utf-8").replace("Varlow new strainer", "Varlow new stariner")
    (tmp_path / "book.toml").write_bytes((CASES / "book.toml").read_bytes())
    survey = tmp_path / "job.toml"
    survey.write_text(text, encoding="utf-8")
    ran = run("schemes", survey)
    assert ran.code == 2
    assert "Varlow new strainer" in ran.err.strip().splitlines()[-1]


def test_a_folder_of_somebody_else_is_left_alone(run, tmp_path):
    (tmp_path / "letters").mkdir()
    (tmp_path / "letters" / "mine.txt").write_text("keep", encoding="utf-8")
    ran = run("papers", GOOD, "--to", tmp_path / "letters")
    assert ran.code == 2
    assert "other files" in ran.err
    assert [p.name for p in (tmp_path / "letters").iterdir()] == ["mine.txt"]


def test_new_never_writes_over_a_file(run, tmp_path):
    survey = tmp_path / "job.toml"
    survey.write_text("mine", encoding="utf-8")
    ran = run("new", survey)
    assert ran.code == 2
    assert survey.read_text(encoding="utf-8") == "mine"
