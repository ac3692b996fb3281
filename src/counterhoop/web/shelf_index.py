"""The margin index of the shelf's sheets."""

from __future__ import annotations

from counterhoop.web.folder_index import Sheet

SHEETS = (
    ("/shelf", "Shelf"),
    ("/shelf/unknown", "What is this?"),
    ("/shelf/labels", "Labels"),
    ("/shelf/rows", "In and out"),
    ("/workshop/fittings", "Fittings book"),
)


def shelf_index(here: str) -> list[Sheet]:
    """Return the lines of the index; pieces and bins count as the shelf."""
    under = [href for href, _ in SHEETS if here == href or here.startswith(f"{href}/")]
    nearest = max(under, key=len, default="")
    return [Sheet(href=href, says=says, here=href == nearest) for href, says in SHEETS]
