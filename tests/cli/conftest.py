"""Run the commands in this process, as the installed script would."""

from __future__ import annotations

import sys
from dataclasses import dataclass

import pytest

from counterhoop.cli import main


@dataclass(frozen=True)
class Ran:
    code: int
    out: str
    err: str


@pytest.fixture
def run(capsys, monkeypatch):
    def command(*words):
        monkeypatch.setattr(sys, "argv", ["counterhoop", *map(str, words)])
        with pytest.raises(SystemExit) as left:
            main()
        captured = capsys.readouterr()
        code = left.value.code
        return Ran(code=0 if code is None else int(code), out=captured.out, err=captured.err)

    return command
