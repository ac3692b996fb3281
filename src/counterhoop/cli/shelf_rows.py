"""Sheets of rows in and out, as one types it: of the shelf, and of the dated features."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from counterhoop.cli.options import DataFolder, StoreAddress
from counterhoop.cli.progress import watched
from counterhoop.cli.store import BENCH, workshop
from counterhoop.errors import BadInput

if TYPE_CHECKING:
    from counterhoop.bench.rows.try_rows import Tried
    from counterhoop.bench.rows.waiting import Waiting
    from counterhoop.bench.workshop import Workshop
    from counterhoop.parts.rows.layout import Layout

MOST_SAID = 20
_PIECE = 1 << 20

dated_rows_app = typer.Typer(
    help="Your dated features as a sheet: out, and in again.",
    no_args_is_help=True, rich_markup_mode=None, add_completion=False,
)  # fmt: skip

SheetOut = Annotated[
    Path, typer.Argument(metavar="FILE", help="What to write, ending in .csv or .xlsx.")
]
SheetIn = Annotated[Path, typer.Argument(metavar="FILE", help="A CSV file or an XLSX workbook.")]
Columns = Annotated[
    list[str] | None,
    typer.Option(
        "--as",
        metavar="COLUMN=FIELD",
        help='What a column is, by its header or its letter, such as "Sticker=number"; nothing'
        ' behind the sign leaves it out. "--as list" lists the fields.',
    ),
]
Units = Annotated[
    list[str] | None,
    typer.Option("--unit", metavar="COLUMN=UNIT", help='Its unit, such as "C=mm".'),
]
Comma = Annotated[
    str,
    typer.Option("--comma", help="What a comma in a number is: decimal, or thousands."),
]
SheetName = Annotated[
    str, typer.Option("--sheet", metavar="NAME", help="Which sheet of a workbook.")
]
HeaderRow = Annotated[
    int, typer.Option("--headers-in", metavar="ROW", help="In which row the headers stand.")
]
DryRun = Annotated[bool, typer.Option("--dry-run", help="Only say what would change.")]
ListTo = Annotated[
    Path | None,
    typer.Option("--list", metavar="FILE", help="Write the whole dry run as a CSV file."),
]
Serials = Annotated[
    bool, typer.Option("--serials", help="Serial numbers, in place of forms of features.")
]


def shelf_out(
    file: SheetOut,
    find: Annotated[
        str, typer.Option("--find", metavar="WORDS", help="Only what this search finds.")
    ] = "",
    data: DataFolder = None,
    store: StoreAddress = "",
) -> None:
    """Write the shelf as a sheet, CSV or XLSX.

    It comes in again as it went. No cell of it is a formula.
    """
    with workshop(store, data) as shop:
        _out(shop, "shelf", file, find=find)


def shelf_in(
    file: SheetIn,
    columns: Columns = None,
    units: Units = None,
    comma: Comma = "",
    sheet: SheetName = "",
    header_row: HeaderRow = 0,
    dry_run: DryRun = False,
    list_to: ListTo = None,
    data: DataFolder = None,
    store: StoreAddress = "",
) -> None:
    """Put the rows of a sheet on the shelf: all that are not refused, at once or not at all.

    Columns are known by their headers; what they are taken for is said. Ctrl+C stops it, and
    nothing of it is there then.
    """
    with workshop(store, data) as shop:
        _in(
            shop, "shelf", file, columns=columns, units=units, comma=comma, sheet=sheet,
            header_row=header_row, dry_run=dry_run, list_to=list_to,
        )  # fmt: skip


@dated_rows_app.command(name="out")
def dated_out(
    file: SheetOut, serials: Serials = False, data: DataFolder = None, store: StoreAddress = ""
) -> None:
    """Write your own dated features as a sheet, CSV or XLSX."""
    with workshop(store, data) as shop:
        _out(shop, "serials" if serials else "forms", file)


@dated_rows_app.command(name="in")
def dated_in(
    file: SheetIn,
    serials: Serials = False,
    columns: Columns = None,
    units: Units = None,
    comma: Comma = "",
    sheet: SheetName = "",
    header_row: HeaderRow = 0,
    dry_run: DryRun = False,
    list_to: ListTo = None,
    data: DataFolder = None,
    store: StoreAddress = "",
) -> None:
    """Take the rows of a sheet among your own dated features."""
    with workshop(store, data) as shop:
        _in(
            shop, "serials" if serials else "forms", file, columns=columns, units=units,
            comma=comma, sheet=sheet, header_row=header_row, dry_run=dry_run, list_to=list_to,
        )  # fmt: skip


def _out(shop: Workshop, sort: str, file: Path, *, find: str = "") -> None:
    from counterhoop.bench.deliver import deliver_file
    from counterhoop.bench.rows.rows_out import rows_out

    form = file.suffix.lower().removeprefix(".")
    if form not in ("csv", "xlsx"):
        raise BadInput("how shall it be written?", where="FILE", given=file.name,
                       wanted="a name that ends in .csv or .xlsx")  # fmt: skip
    with watched() as progress:
        paper = rows_out(
            shop, sort, form=form, find=find,
            progress=lambda share: progress("the sheet is being written", share),
        )  # fmt: skip
    typer.echo(f"Wrote {deliver_file(paper.content, path=file)}.")


def _in(
    shop: Workshop, sort: str, file: Path, *, columns: list[str] | None, units: list[str] | None,
    comma: str, sheet: str, header_row: int, dry_run: bool, list_to: Path | None,
) -> None:  # fmt: skip
    from counterhoop.bench.deliver import deliver_file
    from counterhoop.bench.rows.row_sorts import row_sort
    from counterhoop.bench.rows.take_rows import take_now, taken_says
    from counterhoop.bench.rows.try_rows import try_rows
    from counterhoop.bench.rows.waiting import Reading

    kind = row_sort(sort)
    layout = kind.layout()
    if columns == ["list"]:
        for each in layout.fields:
            typer.echo(f"{each.name}  {', '.join(each.words)}".rstrip())
        return
    if comma not in ("", "decimal", "thousands"):
        raise BadInput("what is a comma?", where="--comma", given=comma,
                       wanted='"decimal" or "thousands"')  # fmt: skip
    reading = Reading(sheet=sheet, header_row=header_row, comma=comma)
    with _waiting(shop, sort, file) as kept, watched() as progress:
        one = _with_columns(shop, kept, reading, layout, columns or [], units or [])
        with shop.store.reading() as connection:
            tried = try_rows(
                one, layout, kind.trying(shop, connection, one),
                progress=lambda share: progress("the rows are being tried", share),
            )  # fmt: skip
        if list_to is not None:
            deliver_file(one.list_file.read_bytes(), path=list_to)
        _say(tried)
        if not dry_run and not tried.changes_nothing:
            try:
                taken = take_now(
                    shop, one, by=BENCH,
                    share=lambda share: progress("the rows are being taken", share),
                )  # fmt: skip
            except KeyboardInterrupt:
                typer.echo("Stopped. Nothing of these rows was taken.", err=True)
                raise typer.Exit(130) from None
            typer.echo(taken_says(taken))
        elif dry_run:
            typer.echo("Nothing was taken: this was a dry run.")
    if tried.refused:
        raise typer.Exit(1)


@contextmanager
def _waiting(shop: Workshop, sort: str, file: Path) -> Iterator[Waiting]:
    from counterhoop.bench.rows.waiting import put_aside, put_rows_in

    if not file.is_file():
        raise BadInput("there is no such file", where="FILE", given=str(file))
    with file.open("rb") as opened:
        pieces = iter(lambda: opened.read(_PIECE), b"")
        one = put_rows_in(shop, sort=sort, name=file.name, pieces=pieces, by=BENCH)
    try:
        yield one
    finally:
        put_aside(one)


def _with_columns(
    shop: Workshop, one: Waiting, reading: object, layout: Layout, columns: list[str],
    units: list[str],
) -> Waiting:  # fmt: skip
    from counterhoop.bench.rows.opened import mapped, sheet_of
    from counterhoop.bench.rows.waiting import Reading, read_anew

    assert isinstance(reading, Reading)
    sheet = sheet_of(one.file.read_bytes(), name=one.name, reading=reading)
    chosen, in_units = (
        _by_column(columns, sheet.header, "--as"),
        _by_column(units, sheet.header, "--unit"),
    )
    found = mapped(
        sheet.header, layout, header_row=sheet.header_row, reading=reading, chosen=chosen,
        units=in_units,
    )  # fmt: skip
    for line in (*sheet.says, *found.says):
        typer.echo(line)
    return read_anew(one, reading=reading, chosen=chosen, units=in_units, mapped=True)


def _by_column(said: list[str], header: tuple[str, ...], option: str) -> dict[int, str]:
    """Return what was said of columns, by where they stand."""
    from counterhoop.parts.rows.row import letters
    from counterhoop.quantities.nearest import did_you_mean

    plain = {" ".join(text.casefold().split()): at for at, text in enumerate(header) if text}
    by_letter = {letters(at).casefold(): at for at in range(len(header))}
    found = {}
    for each in said:
        column, sign, value = each.rpartition("=")
        if not sign:
            raise BadInput("which column is what?", where=option, given=each,
                           wanted='a column, "=", and what it is')  # fmt: skip
        key = " ".join(column.casefold().split())
        at = plain.get(key, by_letter.get(key))
        if at is None:
            raise BadInput(
                "the sheet has no such column", where=option, given=column,
                wanted="one of its headers, or a letter", step=did_you_mean(column, header),
            )  # fmt: skip
        found[at] = value.strip()
    return found


def _say(tried: Tried) -> None:
    typer.echo(tried.line)
    for told in tried.first_changed[:MOST_SAID]:
        typer.echo(f"row {told.row}, {told.says}")
    for told in tried.first_refused[:MOST_SAID]:
        typer.echo(told.says, err=True)
    rows = len({told.row for told in tried.first_refused[:MOST_SAID]})
    if tried.refused > rows:
        typer.echo(f"And {tried.refused - rows} more rows: see them with --list FILE.", err=True)
