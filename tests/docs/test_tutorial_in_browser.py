"""The tutorials in the browser are walked on the real program, and say what stands there.

The truth is the program's own pages: each step of a tutorial is a function of
``docs/pictures/app.py`` or ``app_invoice.py`` that goes through them as a person does.
"""

from __future__ import annotations

import os
import re
from dataclasses import dataclass
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

PAGE = "tutorial/first-drum-in-the-browser.md"
INVOICE = "tutorial/from-first-call-to-invoice.md"
SECTION = re.compile(r"^## (?:\d+ )?(.+)$", re.MULTILINE)
BOLD = re.compile(r"\*\*([^*]+)\*\*")
ITALIC = re.compile(r"(?<!\*)\*([^*\n]+)\*(?!\*)")
TYPED = re.compile(r"(?<!`)`([^`\n]+)`(?!`)")
PICTURE = re.compile(r"!\[[^]]+\]\(\.\./pictures/(app-[^)]+)\)")
MOST_BYTES, MOST_BYTES_TOGETHER = 120_000, 1_000_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """One step as the tutorial tells it."""

    heading: str
    text: str

    @property
    def said(self) -> list[str]:
        """What is said to stand on the page: what is pressed or filled in, what is answered."""
        return [*BOLD.findall(self.text), *ITALIC.findall(self.text)]


def sections(text: str) -> list[Section]:
    _, *rest = SECTION.split(text)
    return [Section(heading=h, text=t) for h, t in zip(rest[::2], rest[1::2], strict=True)]


def not_there(section: Section, words: str) -> list[str]:
    """Return what a section speaks of and the page of its step does not hold."""
    return [said for said in section.said if said.strip() not in words]


def held_to_its_steps(told: list[Section], steps: Any) -> None:
    """Hold each section to what its step saw, typed and took."""
    assert len(told) == len(steps)
    missing = {
        section.heading: not_there(section, step.words)
        for section, step in zip(told, steps, strict=True)
    }
    assert {heading: words for heading, words in missing.items() if words} == {}
    for section, step in zip(told, steps, strict=True):
        assert set(TYPED.findall(section.text)) == set(step.typed), section.heading
        assert PICTURE.findall(section.text) == step.pictures, section.heading


@pytest.fixture(scope="module")
def told(docs: Path) -> list[Section]:
    return sections((docs / PAGE).read_text("utf-8"))


@pytest.fixture(scope="module")
def told_of_invoice(docs: Path) -> list[Section]:
    return sections((docs / INVOICE).read_text("utf-8"))


@pytest.fixture(scope="module")
def walked(app: ModuleType, tmp_path_factory: pytest.TempPathFactory) -> Any:
    """What was seen and typed: the first tutorial, then the reader's own job of the other."""
    if app.chromium_path() is None:
        words = "no chromium here: apt-get install chromium"
        if os.environ.get("CI"):
            pytest.fail(words)
        pytest.skip(words)
    with app.served(tmp_path_factory.mktemp("data")) as link, app.laptop(link) as page:
        return app.walk_all(page, link).steps, app.walk_steps(app.Walk(page=page), app.OWN)


@pytest.fixture(scope="module")
def steps(walked: Any) -> Any:
    """What was seen and typed in the first tutorial, step by step."""
    return walked[0]


def test_what_the_tutorial_names_stands_on_the_page_of_its_step(
    told: list[Section], steps: Any
) -> None:
    *numbered, after = told
    assert len(numbered) == len(steps)
    missing = {
        section.heading: not_there(section, step.words)
        for section, step in zip(numbered, steps, strict=True)
    }
    missing[after.heading] = not_there(after, " ".join(step.words for step in steps))
    assert {heading: words for heading, words in missing.items() if words} == {}
    assert sum(len(section.said) for section in told) > 80


def test_from_the_first_call_to_the_invoice_each_step_is_as_it_is_told(
    app: ModuleType, told_of_invoice: list[Section], walked: Any
) -> None:
    own, after = told_of_invoice[len(app.ROUND) : -1], told_of_invoice[-1]
    held_to_its_steps(own, walked[1])
    assert not after.said
    assert sum(len(section.said) for section in own) > 80
    # "The rest" of half an hour when a quarter went before: by the same model, its text read too.
    pace = app.Walk(page=None).pace
    pace.read(" ".join(section.text for section in own))
    assert walked[1][-1].until_s + pace.spent_s <= 0.75 * 30 * 60


@pytest.mark.full
def test_round_the_invented_workshop_each_step_is_as_it_is_told(
    app: ModuleType, told_of_invoice: list[Section], tmp_path: Path
) -> None:
    with app.served(tmp_path) as link, app.laptop(link) as page:
        page.goto(link)
        page.get_by_role("button", name="Let this browser in").click()
        seen = app.walk_steps(app.Walk(page=page), app.ROUND)
    held_to_its_steps(told_of_invoice[: len(app.ROUND)], seen)


def test_what_it_tells_to_type_was_typed(told: list[Section], steps: Any) -> None:
    for section, step in zip(told, steps, strict=False):
        assert set(TYPED.findall(section.text)) == set(step.typed), section.heading


def test_a_stranger_is_as_quick_as_it_says(told: list[Section], steps: Any) -> None:
    # Keystroke-level model and reading speed: see docs/pictures/app.py. Printing takes its own.
    over_s = {step.name: step.until_s for step in steps}
    assert over_s["recognised"] <= 2 * 60
    assert over_s["odd_hole"] <= 4 * 60
    assert over_s["what_does_not_add_up"] <= 7 * 60
    assert over_s["the_template"] <= 10 * 60


def test_each_step_has_its_picture_and_none_is_heavy(
    docs: Path, told: list[Section], steps: Any
) -> None:
    for section, step in zip(told, steps, strict=False):
        assert PICTURE.findall(section.text) == step.pictures, section.heading
    taken = sorted((docs / "pictures").glob("app-*.png"))
    assert {name for step in steps for name in step.pictures} < {path.name for path in taken}
    sizes = [path.stat().st_size for path in taken]
    assert max(sizes) < MOST_BYTES
    assert sum(sizes) < MOST_BYTES_TOGETHER


def test_a_word_that_is_on_no_page_is_found() -> None:
    (section,) = sections("## 1 Start\n\nPress **Begin**. It says *Begun now.* and `no more`.\n")
    assert not_there(section, "Begin Begun now.") == []
    assert not_there(section, "Go Begun") == ["Begin", "Begun now."]
