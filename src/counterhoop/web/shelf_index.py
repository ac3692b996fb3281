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
    others = [href for href, _ in SHEETS[1:]]
    return [
        Sheet(
            href=href, says=says,
            here=here == href
            or here.startswith(f"{href}/")
            and not (href == "/shelf" and any(here.startswith(one) for one in others)),
        )
        for href, says in SHEETS
    ]  # fmt: skip
