"""The invented shelf and the dated features as files that one may fill with one's own."""

from __future__ import annotations

from dataclasses import dataclass
from importlib.resources import files

from counterhoop.bench.demonstration.worked_shelf import SHELF_FILE, demo_pieces, demo_rows


@dataclass(frozen=True, slots=True, kw_only=True)
class DemoFile:
    """A file by its name, what it is, and its bytes."""

    name: str
    says: str
    content: bytes


def demo_files() -> tuple[DemoFile, ...]:
    """Return the shelf as CSV and as a workbook, and the reference of dated features."""
    from counterhoop.parts.rows.shelf_layout import names_in_use, shelf_layout, values_of
    from counterhoop.parts.rows.write_sheet import sheet_rows
    from counterhoop.parts.rows.xlsx_bytes import xlsx_bytes

    pieces = [values_of(one) for one in demo_pieces()]
    rows = sheet_rows(pieces, shelf_layout(), fields=names_in_use(pieces))
    reference = files("counterhoop.evidence").joinpath("tables", "reference.toml").read_bytes()
    return (
        DemoFile(
            name=SHELF_FILE, content=demo_rows(),
            says=f"{len(pieces)} invented pieces, one a row, as a shelf is read in.",
        ),
        DemoFile(
            name="shelf.xlsx", content=xlsx_bytes(rows, sheet="shelf"),
            says="the same as a workbook.",
        ),
        DemoFile(
            name="dated-features.toml", content=reference,
            says="what was in use from when to when, invented: write your own rows like these.",
        ),
    )  # fmt: skip
