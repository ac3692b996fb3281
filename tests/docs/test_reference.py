"""The reference pages are what the code says today."""

from __future__ import annotations

from pathlib import Path
from types import ModuleType

import jsonschema
import pytest

from counterhoop.bench.demo import open_demo
from counterhoop.bench.listing import listing, listing_schema
from counterhoop.bench.plan_job import plan_job
from counterhoop.scheme.findings.catalogue import catalogue
from counterhoop.shell.shop_rules import default_rules

AGAIN = "run docs/reference/make.py"
NAMES = (
    "commands.md",
    "findings.md",
    "shop-rules.md",
    "operations.md",
    "fittings-book.md",
    "threads-and-drills.md",
    "schemes.schema.json",
    "book.schema.json",
    "survey.schema.json",
)


def test_all_pages_are_looked_at(reference: ModuleType) -> None:
    assert set(reference.pages()) == set(NAMES)


@pytest.mark.parametrize("name", NAMES)
def test_a_page_is_what_the_code_says(docs: Path, reference: ModuleType, name: str) -> None:
    assert (docs / "reference" / name).read_text(encoding="utf-8") == reference.pages()[name], AGAIN


def test_every_rule_and_code_stands_once(reference: ModuleType) -> None:
    rules, codes = reference.shop_rules(), reference.findings()
    assert rules.count("\n| `") == len(type(default_rules()).__slots__)
    assert "| `web` | 6 mm |" in rules
    assert "| `lean_fixed` | 2 deg |" in rules
    assert all(codes.count(f"| `{entry.code}` |") == 1 for entry in catalogue())


def test_a_changed_help_text_is_noticed(
    docs: Path, reference: ModuleType, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(reference.app.registered_commands[0], "help", "Something else.")
    assert (docs / "reference" / "commands.md").read_text() != reference.commands()


def test_what_the_schemes_command_prints_fits_its_schema() -> None:
    schema = jsonschema.Draft202012Validator(listing_schema())
    schema.check_schema(listing_schema())
    said = listing(plan_job(open_demo())).model_dump(mode="json")
    assert list(schema.iter_errors(said)) == []
    del said["drums"][0]["schemes"][0]["code"]
    assert list(schema.iter_errors(said))
