"""Whatever is wrong with a survey file, one clear line says so, and nothing else is raised."""

from __future__ import annotations

import importlib.util
import sys
from pathlib import Path
from types import ModuleType

import pytest

from counterhoop.errors import BadInput
from counterhoop.shell.survey_file import read_survey, survey_bytes


def _table() -> ModuleType:
    path = Path(__file__).parent / "bad_surveys.py"
    spec = importlib.util.spec_from_file_location("bad_surveys", path)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules["bad_surveys"] = module
    spec.loader.exec_module(module)
    return module


TABLE = _table()


def read_bytes(content: bytes) -> None:
    read_survey(survey_bytes(content, name="kit.toml"), name="kit.toml")


def test_the_good_file_is_good() -> None:
    read_bytes(TABLE.GOOD.encode())


def test_the_table_is_long_enough_and_says_each_thing_once() -> None:
    names = [one.id for one in TABLE.BAD_SURVEYS]
    assert len(names) >= 60
    assert len(set(names)) == len(names)
    assert all(one.says.strip() for one in TABLE.BAD_SURVEYS)


@pytest.mark.parametrize("one", TABLE.BAD_SURVEYS, ids=lambda one: one.id)
def test_a_bad_file_gets_one_clear_line(one) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(BadInput) as caught:
        read_bytes(one.content)
    line = str(caught.value)
    assert one.says in line, line
    assert line.startswith("kit.toml"), line
    assert "\n" not in line
    assert len(line) <= 400, line
    assert "pydantic" not in line
    assert "Traceback" not in line
