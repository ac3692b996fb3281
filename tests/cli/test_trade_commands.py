"""Own sales written and asked by command. Truth: what was typed; worked by hand."""

from __future__ import annotations

from pathlib import Path

import pytest
from typer.testing import CliRunner

from counterhoop.cli.commands import app
from counterhoop.errors import BadInput

RUN = CliRunner()
SNARE = "14 dia x 6.5 deep"


def said(data: Path, *words: str) -> str:
    done = RUN.invoke(app, [*words, "--data", str(data)], catch_exceptions=False)
    assert done.exit_code == 0, done.output
    return done.output


def test_a_sale_is_written_listed_and_asked(tmp_path: Path) -> None:
    typed = ("--price", "210.50", "--on", "2026-01-04", "--kind", "snare drum", "--days", "9")
    assert said(tmp_path, "sold", "add", SNARE, *typed) == "Written down; 1 sale counts.\n"
    first = said(tmp_path, "sold", "list").splitlines()[0]
    assert first == "210.50 GBP  4 January 2026, after 9 days  snare drum, 14 dia x 6.5 deep"
    out = said(tmp_path, "worth", SNARE, "--kind", "snare drum", "--part", "8 x lug; 9; 100 %")
    assert out.startswith("About 210 GBP; eight in ten such drums bring between ")
    assert "as a rule such a drum stands 9 days on the shelf" in out
    assert "Restored: your sales are too few to tell it from the drum as it is." in out
    assert "Parted out: " in out


def test_a_slip_is_one_line(tmp_path: Path) -> None:
    for words in (
        ("worth", "14 x 6.5"),
        ("sold", "add", SNARE, "--price", "lots", "--on", "2026-01-02"),
    ):
        with pytest.raises(BadInput) as fault:
            RUN.invoke(app, [*words, "--data", str(tmp_path)], catch_exceptions=False)
        assert "\n" not in str(fault.value)
