"""The shelf: find pieces, put them on it, move them, print their labels."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from counterhoop.cli.options import DataFolder, StoreAddress
from counterhoop.cli.store import BENCH, workshop
from counterhoop.errors import BadInput

shelf_app = typer.Typer(
    help="The shelf of parts: find, show, put on, move, labels.",
    no_args_is_help=True, rich_markup_mode=None, add_completion=False,
)  # fmt: skip

Number = Annotated[str, typer.Argument(metavar="NUMBER", help="On its bag.")]


@shelf_app.command()
def find(
    line: Annotated[
        list[str],
        typer.Argument(metavar="LINE", help='Such as "lug, holes 42 +- 0.5, 24 to the inch".'),
    ],
    free: Annotated[bool, typer.Option("--free", help="Only what is free.")] = False,
    inches: Annotated[
        bool, typer.Option("--inches", help="A length without a unit is in inches.")
    ] = False,
    data: DataFolder = None,
    store: StoreAddress = "",
) -> None:
    """Find pieces by words and measurements in one line, the likeliest first."""
    from counterhoop.bench.shelf.cards import find_pieces
    from counterhoop.bench.shelf.nothing_found import found_without
    from counterhoop.cli.shelf_text import line_text

    with workshop(store, data) as shop:
        result = find_pieces(shop, " ".join(line), units="in" if inches else "mm", only_free=free)
        without = () if result.found else found_without(shop, result.asked, only_free=free)
    for said in (*result.asked.read_as, *result.asked.unread):
        typer.echo(said, err=True)
    for one in result.found:
        typer.echo(line_text(one))
    if not result.found:
        typer.echo("No piece says all of this.")
        for left_out in without:
            typer.echo(f'There is something without "{left_out}".')


@shelf_app.command()
def show(number: Number, data: DataFolder = None, store: StoreAddress = "") -> None:
    """Show a piece: what it is, how many there are, what moved."""
    from counterhoop.bench.shelf.by_name import piece_numbered
    from counterhoop.bench.shelf.cards import card_of
    from counterhoop.cli.shelf_text import card_text

    with workshop(store, data) as shop:
        card = card_of(shop, piece_numbered(shop, number).piece.id)
        for said in card_text(shop, card):
            typer.echo(said)


@shelf_app.command()
def new(
    says: Annotated[str, typer.Argument(metavar="WORDS", help="What it is, in a few words.")] = "",
    measured: Annotated[
        list[str] | None,
        typer.Option(
            "--measured", metavar="READING", help='Again for each: "holes apart 42.5 mm".'
        ),
    ] = None,
    number: Annotated[
        str, typer.Option("--number", metavar="NUMBER", help="On its bag; the next free one.")
    ] = "",
    count: Annotated[str, typer.Option("--count", metavar="N", help="How many came.")] = "1",
    kind: Annotated[str, typer.Option("--kind", metavar="KIND", help="Lug, hoop, rod ...")] = "",
    fitting: Annotated[
        str, typer.Option("--fitting", metavar="NAME", help="The book's entry that it is.")
    ] = "",
    bin_name: Annotated[str, typer.Option("--bin", metavar="BIN", help="Where it lies.")] = "",
    owner: Annotated[
        str, typer.Option("--owner", metavar="CLIENT", help="Whose it is, if not the shop's own.")
    ] = "",
    lot: Annotated[str, typer.Option("--lot", metavar="LOT", help="What it came with.")] = "",
    price: Annotated[str, typer.Option("--price", metavar="AMOUNT", help='"3.50 GBP".')] = "",
    data: DataFolder = None,
    store: StoreAddress = "",
) -> None:
    """Put a piece on the shelf, and say its number."""
    from counterhoop.bench.shelf.new_piece import put_new

    texts = {
        "says": says, "number": number, "count": count, "kind": kind, "fitting": fitting,
        "bin": bin_name, "owner": owner, "lot": lot, "price": price,
    }  # fmt: skip
    with workshop(store, data) as shop:
        kept = put_new(shop, texts, measured=measured or (), by=BENCH)
    typer.echo(f"{kept.piece.number} is on the shelf.")


@shelf_app.command()
def move(
    number: Number,
    what: Annotated[
        str,
        typer.Argument(
            metavar="WHAT",
            help='"came in", "set aside", "put back", "used", "sold", "scrapped", "counted" or'
            ' "given back".',
        ),
    ],
    count: Annotated[int, typer.Option("--count", metavar="N", help="How many.")] = 1,
    whom: Annotated[
        str, typer.Option("--for", metavar="JOB", help='Such as "job 214, small tom".')
    ] = "",
    corrects: Annotated[
        str, typer.Option("--corrects", metavar="WORDS", help="What a count puts right.")
    ] = "",
    release: Annotated[
        str,
        typer.Option(
            "--release", metavar="WORDS", help="What the client signed whose piece is let go."
        ),
    ] = "",
    why: Annotated[str, typer.Option("--why", metavar="WORDS", help="Worth knowing.")] = "",
    data: DataFolder = None,
    store: StoreAddress = "",
) -> None:
    """Write down that a piece moved, and say what is left."""
    from typing import cast, get_args

    from counterhoop.bench.shelf.by_name import piece_numbered, whom_named
    from counterhoop.bench.shelf.cards import move_piece
    from counterhoop.bench.shelf.said import stock_says
    from counterhoop.bench.shelf.whose import said
    from counterhoop.parts.movement import MovementKind

    kinds = get_args(MovementKind)
    if what not in kinds:
        raise BadInput("no such movement", where="what", given=what, wanted=", ".join(kinds))
    with workshop(store, data) as shop:
        piece_id = piece_numbered(shop, number).piece.id
        job = whom_named(shop, whom).key if whom else ""
        stock = move_piece(
            shop, piece_id, cast(MovementKind, what), count=count, job=job, corrects=corrects,
            release=release, why=why, by=BENCH,
        )  # fmt: skip
        typer.echo(stock_says(stock, said=lambda key: said(shop, key)))


@shelf_app.command()
def labels(
    numbers: Annotated[
        list[str] | None, typer.Argument(metavar="NUMBERS", help="Of pieces, as on their bags.")
    ] = None,
    bins: Annotated[
        list[str] | None, typer.Option("--bin", metavar="BIN", help="Again for each bin.")
    ] = None,
    to: Annotated[
        Path, typer.Option("--to", metavar="FILE", help="The PDF to write.")
    ] = Path("labels.pdf"),
    sheet: Annotated[
        str,
        typer.Option(
            "--sheet", metavar="SHEET", help="A4 or Letter, to be cut; own for your gummed ones."
        ),
    ] = "A4",
    used: Annotated[
        int, typer.Option("--used", metavar="N", help="Labels gone from the first sheet.")
    ] = 0,
    address: Annotated[
        str,
        typer.Option(
            "--address", metavar="ADDRESS",
            help='Where a phone reaches the pages, "http://192.0.2.7:8600"; none for no codes.',
        ),
    ] = "",
    data: DataFolder = None,
    store: StoreAddress = "",
) -> None:  # fmt: skip
    """Write labels for bags and bins; with an address, each has a code for the phone."""
    from counterhoop.bench.deliver import deliver_file
    from counterhoop.bench.shelf.by_name import piece_numbered
    from counterhoop.bench.shelf.label_sheet import chosen_sheet
    from counterhoop.bench.shelf.labels import labels_for
    from counterhoop.papers.bag_labels import labels_pdf

    with workshop(store, data) as shop:
        made = labels_for(
            shop, piece_ids=[piece_numbered(shop, one).piece.id for one in numbers or ()],
            bins=bins or (), address=address.rstrip("/"),
        )  # fmt: skip
        chosen = chosen_sheet(shop, sheet)
    written = deliver_file(labels_pdf(made, sheet=chosen, used=used), path=to)
    typer.echo(f"Wrote {written}.")
