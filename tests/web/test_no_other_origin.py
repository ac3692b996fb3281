"""No request leaves the machine: nothing that pages are made of names another one.

The policy of the pages forbids it as well, and every browser test fails on a foreign request.
"""

from __future__ import annotations

import re
from importlib.resources import files

import pytest

NAMES_ANOTHER = re.compile(r"(?i)\b(?:https?|wss?|ftp):[\\/]+\S+|(?<=[\"'(=\s])//[a-z0-9[]\S*")
# A word for a kind of document that looks like an address; nobody asks for it.
NEVER_ASKED = re.compile(r"http://www\.w3\.org/(?:2000/svg|1999/xhtml)\b")
READ = {".html", ".css", ".js", ".svg", ".json", ".webmanifest"}
COMMENT = {
    ".css": re.compile(r"/\*.*?\*/", re.S),
    # A line of comment only: two strokes within a line may be an address.
    ".js": re.compile(r"/\*.*?\*/|^\s*//.*?$", re.S | re.M),
    ".html": re.compile(r"\{#.*?#\}", re.S),
}


def others_in(name, text):
    """Return every other machine that a file names, outside its comments."""
    ending = name[name.rindex(".") :]
    code = COMMENT[ending].sub("", text) if ending in COMMENT else text
    return [
        found for found in NAMES_ANOTHER.findall(code) if not NEVER_ASKED.match(found.strip("\"'"))
    ]


def every_file(folder):
    for one in folder.iterdir():
        if one.is_dir():
            yield from every_file(one)
        elif "." in one.name and one.name[one.name.rindex(".") :] in READ:
            yield one


@pytest.mark.parametrize("room", ["templates", "static"])
def test_templates_and_static_files_name_no_other_machine(room):
    read = {one.name: one.read_text("utf-8") for one in every_file(files("counterhoop.web") / room)}
    assert len(read) > 5
    assert {name: found for name, text in read.items() if (found := others_in(name, text))} == {}


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("a.html", '<img src="//pictures.example/x.png">'),
        ("a.html", "<a href='https://elsewhere.example/'>there</a>"),
        ("a.css", "/* a letter */ @import url(//letters.example/a.css);"),
        ("a.css", 'src: url("http://letters.example/a.woff2");'),
        ("a.js", 'fetch("https://elsewhere.example/count")'),
        ("a.js", "new WebSocket(`wss://elsewhere.example/`)"),
        ("a.svg", '<image href="http://www.w3.org.elsewhere.example/x"/>'),
    ],
)
def test_a_planted_one_is_found(name, text):
    assert len(others_in(name, text)) == 1


def test_what_is_no_address_is_passed_over():
    assert others_in("a.svg", '<svg xmlns="http://www.w3.org/2000/svg">') == []
    assert others_in("a.js", "  // see https://elsewhere.example\nlet half = width // 2") == []
    assert others_in("a.html", "{# from https://elsewhere.example #}<p>1 // 2</p>") == []
