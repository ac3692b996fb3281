"""The page that leads through the folder of a record: plain HTML that any browser can open."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from html import escape
from urllib.parse import quote

STYLE = (
    "body{font-family:sans-serif;line-height:1.45;max-width:60rem;margin:1rem auto;padding:0 1rem;"
    "color:#22303a;background:#fffdf7}h1,h2{line-height:1.2}img{max-width:100%;height:auto}"
    ".two{display:grid;grid-template-columns:1fr 1fr;gap:.6rem}figure{margin:0}"
    "figcaption{font-size:.9rem}"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A photograph in the folder: where its file lies, what stands beneath it, what it shows."""

    href: str
    says: str
    shows: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """One place, photographed before, after, or both times."""

    name: str
    before: Picture | None = None
    after: Picture | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class DrumPage:
    """One drum on the page.

    Attributes
    ----------
    name, what : str
    told : tuple of (str, tuple of str)
        Headings with sentences.
    files : tuple of (str, str)
        What each file is, and where.
    places : tuple of Place
    """

    name: str
    what: str
    told: tuple[tuple[str, tuple[str, ...]], ...]
    files: tuple[tuple[str, str], ...]
    places: tuple[Place, ...] = ()


def index_page(
    *, title: str, says: Sequence[str], drums: Iterable[DrumPage],
    files: Iterable[tuple[str, str]],
) -> str:  # fmt: skip
    """Return the page; it needs no script, no server and no other file to be read."""
    body = [f"<h1>{escape(title)}</h1>", *(f"<p>{escape(line)}</p>" for line in says)]
    for drum in drums:
        body += _drum(drum)
    listed = [*files]
    if listed:
        body += ["<h2>Also in this folder</h2>", _links(listed)]
    return (
        '<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>{escape(title)}</title>\n<style>{STYLE}</style>\n</head>\n<body>\n"
        + "\n".join(body)
        + "\n</body>\n</html>\n"
    )


def _drum(drum: DrumPage) -> list[str]:
    made = [f"<h2>{escape(drum.name)}</h2>"]
    made += [f"<p>{escape(drum.what)}</p>"] if drum.what else []
    made.append(_links(drum.files))
    for heading, lines in drum.told:
        if lines:
            made.append(f"<h3>{escape(heading)}</h3>")
            made.append(f"<ul>{''.join(f'<li>{escape(line)}</li>' for line in lines)}</ul>")
    if drum.places:
        made.append("<h3>As found and as left</h3>")
    for place in drum.places:
        two = "".join(_figure(one) for one in (place.before, place.after) if one is not None)
        made.append(f'<h4>{escape(place.name)}</h4>\n<div class="two">{two}</div>')
    return made


def _figure(one: Picture) -> str:
    at = quote(one.href)
    return (
        f'<figure><a href="{at}"><img src="{at}" alt="{escape(one.shows)}"></a>'
        f"<figcaption>{escape(one.says)}</figcaption></figure>"
    )


def _links(files: Iterable[tuple[str, str]]) -> str:
    lines = (f'<li><a href="{quote(href)}">{escape(says)}</a></li>' for says, href in files)
    return f"<ul>{''.join(lines)}</ul>"
