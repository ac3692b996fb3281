"""Every snippet of a survey file or a fittings book in the pages is read as a user's would be."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path

import pytest

from counterhoop.errors import BadInput
from counterhoop.fittings.read_book import read_book
from counterhoop.shell.survey_file.read import read_survey

DOCS = Path(__file__).parents[2] / "docs"
FENCE = re.compile(r"^```(?P<info>[^\n]*)\n(?P<body>.*?)^```$", re.DOTALL | re.MULTILINE)
KNOWN = re.compile(
    r"toml (file|book|in job|in drum|in=job|in=drum|(write|add|change)=\S+)|console|"
)
NOT_MEANT_TO_READ = "slip.toml"
JOB = '[job]\nnumber = "1"\n'
DRUM = """[drums."{name}"]
circumference = "952 mm"
depth = "203 mm"
wall = "5 mm"

[[drums."{name}".rows]]
head = "batter"
lugs = 6
fitting = "Corvane round lug"
first = "30 deg"
near = ["37.5 mm", "79.5 mm"]
hole = "6 mm"
"""
INSTEAD = {"diameters": "circumference"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Snippet:
    page: str
    number: int
    info: str
    body: str

    def __str__(self) -> str:
        return f"{self.page} {self.number}"


def snippets() -> list[Snippet]:
    return [
        Snippet(
            page=path.relative_to(DOCS).as_posix(), number=n, info=found["info"], body=found["body"]
        )
        for path in sorted(DOCS.rglob("*.md"))
        for n, found in enumerate(FENCE.finditer(path.read_text("utf-8")), 1)
    ]


def blocks(text: str) -> list[str]:
    """Cut a file before each heading; what stands before the first heading comes first."""
    return [block for block in re.split(r"^(?=\[)", text, flags=re.MULTILINE) if block.strip()]


def whole(fragment: str) -> str:
    """Put round a fragment what it leaves out, and nothing that it says itself."""
    names = dict.fromkeys(["small tom", *re.findall(r'drums\."([^"]+)"', fragment)])
    names |= dict.fromkeys(re.findall(r'"([^"]* tom)"', fragment))
    heads = {block.split("\n", 1)[0] for block in blocks(fragment)}
    base = [JOB, *(b for name in names for b in blocks(DRUM.format(name=name)))]
    if "second head" in fragment:
        base = [block.replace("wall = ", "heads = 1\nwall = ") for block in base]
    left = [block for block in base if block.split("\n", 1)[0] not in heads]
    top = "" if "format =" in fragment else "format = 1\n"
    return top + fragment + "\n" + "\n".join(left)


def inside(fragment: str, *, table: str) -> str:
    """Put lines of one table into that table."""
    name = re.match(r"\w+", fragment)
    assert name is not None
    text = "format = 1\n" + JOB + DRUM.format(name="small tom")
    for known in (name[0], INSTEAD.get(name[0], name[0])):
        text = re.sub(rf"^{known} = .*\n", "", text, count=1, flags=re.MULTILINE)
    return text.replace(f"[{table}]\n", f"[{table}]\n{fragment}", 1)


def read(snippet: Snippet) -> None:
    kind = snippet.info.removeprefix("toml ").replace("in=", "in ")
    if kind == "book" or "[[fitting]]" in snippet.body:
        read_book(snippet.body, name=str(snippet))
    elif kind == "in job":
        read_survey(inside(snippet.body, table="job"), name=str(snippet))
    elif kind == "in drum":
        read_survey(inside(snippet.body, table='drums."small tom"'), name=str(snippet))
    else:
        read_survey(whole(snippet.body), name=str(snippet))


SNIPPETS = snippets()
READ = [
    s
    for s in SNIPPETS
    if s.info.startswith("toml ") and not s.info.startswith(("toml change=", "toml add="))
]


def test_every_fence_says_what_it_holds() -> None:
    assert [f"{s}: {s.info}" for s in SNIPPETS if not KNOWN.fullmatch(s.info)] == []
    assert len(READ) > 25


@pytest.mark.parametrize("snippet", READ, ids=str)
def test_a_snippet_is_read(snippet: Snippet) -> None:
    if NOT_MEANT_TO_READ in snippet.info:
        with pytest.raises(BadInput, match="no unit"):
            read(snippet)
    else:
        read(snippet)


def test_a_snippet_with_a_slip_is_refused() -> None:
    good = next(s for s in READ if '"crack"' in s.body)
    bad = Snippet(page="x", number=1, info=good.info, body=good.body.replace("crack", "crak"))
    with pytest.raises(BadInput, match="crack"):
        read(bad)
