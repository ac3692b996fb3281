"""The tutorial and the how-to pages: commands print what stands there, links lead somewhere."""

from __future__ import annotations

import re
from pathlib import Path
from types import ModuleType

import pytest

AGAIN = "run docs/make_pages.py, and read what changed"
LINK = re.compile(r"\]\((?!https?:)([^)#\s]+)(?:#[^)]*)?\)")
PAGES = (
    "tutorial/first-drum.md",
    "howto/match-two-drums.md",
    "howto/own-fittings-book.md",
    "howto/correct-your-printer.md",
    "howto/record-a-yes.md",
    "howto/read-the-hole-list.md",
    "howto/shorten-a-marching-snare.md",
    "howto/round-and-flat.md",
    "howto/true-an-edge.md",
    "howto/will-a-head-go-on.md",
    "howto/which-thread.md",
    "howto/cut-a-wrap.md",
    "howto/tune-a-kit.md",
    "howto/even-a-head.md",
    "howto/hear-a-second-head.md",
    "howto/what-is-this-part.md",
    "howto/keep-the-shelf.md",
    "howto/date-a-drum.md",
    "howto/strip-down.md",
    "howto/what-fits-these-holes.md",
)


def broken_links(path: Path) -> list[str]:
    return [
        link for link in LINK.findall(path.read_text("utf-8")) if not (path.parent / link).exists()
    ]


def test_every_page_with_commands_is_worked(docs: Path, make_pages: ModuleType) -> None:
    shown = {
        page.relative_to(docs).as_posix()
        for page in docs.rglob("*.md")
        if "```console" in page.read_text("utf-8")
    }
    assert shown <= set(PAGES)
    assert make_pages.PAGES == PAGES


@pytest.mark.parametrize("name", PAGES)
def test_commands_print_what_the_page_says(docs: Path, make_pages: ModuleType, name: str) -> None:
    page = (docs / name).read_text(encoding="utf-8")
    assert make_pages.worked(page) == page, AGAIN


def test_a_page_that_lies_is_found_out(docs: Path, make_pages: ModuleType) -> None:
    page = (docs / "howto/own-fittings-book.md").read_text(encoding="utf-8")
    lie = page.replace("thread: 12-24 UNC", "thread: M6", 1)
    assert lie != page
    assert make_pages.worked(lie) == page


def test_lines_left_out_must_still_be_printed(make_pages: ModuleType) -> None:
    page = "```console\n$ counterhoop --version\nno such line\n...\n```\n"
    with pytest.raises(make_pages.Stale, match="no such line"):
        make_pages.worked(page)


def test_links_lead_to_files(docs: Path) -> None:
    broken = {page.name: broken_links(page) for page in sorted(docs.rglob("*.md"))}
    assert {name: links for name, links in broken.items() if links} == {}


def test_the_first_page_leads_to_pages_that_are_there(docs: Path) -> None:
    # Its photographs of papers come from docs/pictures/make.py, when a version is made.
    assert [a for a in broken_links(docs.parent / "README.md") if not a.endswith(".png")] == []


def test_a_link_to_nowhere_is_found(tmp_path: Path) -> None:
    page = tmp_path / "page.md"
    page.write_text("[a](page.md) [b](gone.md)")
    assert broken_links(page) == ["gone.md"]


def test_diagrams_are_what_their_script_draws(docs: Path, diagrams: ModuleType) -> None:
    for name, text in diagrams.diagrams().items():
        assert (docs / "pictures" / name).read_text("utf-8") == text, (
            "run docs/pictures/diagrams.py"
        )
