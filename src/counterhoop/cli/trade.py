"""Own sales, and what a drum is worth by them: whole, parted out, restored, for its owner."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Annotated

import typer

from counterhoop.cli.options import DataFolder, StoreAddress
from counterhoop.cli.store import BENCH, workshop
from counterhoop.errors import BadInput, CannotDo

if TYPE_CHECKING:
    from counterhoop.bench.trade.own_sales import KeptSale

sold_app = typer.Typer(
    help="What the shop has sold: list it, write a sale down.",
    no_args_is_help=True, rich_markup_mode=None, add_completion=False,
)  # fmt: skip

Size = Annotated[str, typer.Argument(metavar="SIZE", help='Such as "14 dia x 6.5 deep".')]
KindOf = Annotated[str, typer.Option("--kind", metavar="KIND", help="Snare drum, tom ...")]
Line = Annotated[str, typer.Option("--line", metavar="LINE", help="Such as Corvane Tarnbeck.")]
Made = Annotated[str, typer.Option("--made", metavar="YEARS", help='"1964" or "1962 to 1966".')]
Finish = Annotated[str, typer.Option("--finish", metavar="WORDS", help="White pearl wrap ...")]
Wrong = Annotated[
    str, typer.Option("--wrong", metavar="FAULTS", help='Commas between; "none" if looked at.')
]
There = Annotated[
    str, typer.Option("--there", metavar="SHARE", help='How much of it is there: all, "90 %".')
]
Extra = Annotated[
    str, typer.Option("--extra-holes", metavar="N", help="A number, or none.")
]  # fmt: skip
NotOwn = Annotated[
    str, typer.Option("--not-its-own", metavar="PARTS", help="Commas between, or none.")
]


@sold_app.command(name="list")
def sold_list(data: DataFolder = None, store: StoreAddress = "") -> None:
    """List the shop's own sales, the newest first."""
    from counterhoop.bench.trade.own_sales import own_sales

    with workshop(store, data) as shop:
        rows = own_sales(shop).rows
    for one in rows:
        typer.echo(_line(one))
    if not rows:
        typer.echo("No sale is written down yet.")


@sold_app.command(name="add")
def sold_add(
    size: Size,
    price: Annotated[str, typer.Option("--price", metavar="AMOUNT", help="The buyer paid.")],
    sold_on: Annotated[str, typer.Option("--on", metavar="DAY", help="Such as 2026-11-02.")],
    what: Annotated[str, typer.Option("--what", metavar="WORDS", help="What you call it.")] = "",
    days: Annotated[str, typer.Option("--days", metavar="N", help="On the shelf.")] = "",
    fees: Annotated[str, typer.Option("--fees", metavar="AMOUNT", help="Of selling.")] = "",
    postage: Annotated[str, typer.Option("--postage", metavar="AMOUNT", help="Of sending.")] = "",
    kind: KindOf = "",
    line: Line = "",
    made: Made = "",
    finish: Finish = "",
    wrong: Wrong = "",
    there: There = "",
    extra_holes: Extra = "",
    not_its_own: NotOwn = "",
    data: DataFolder = None,
    store: StoreAddress = "",
) -> None:
    """Write a sale down: what it brought, and what the drum was like."""
    from counterhoop.bench.trade.own_sales import own_sales, write_sale
    from counterhoop.store.save import Conflict, Saved

    typed = {
        "size": size, "price": price, "sold_on": sold_on, "what": what, "days": days,
        "fees": fees, "postage": postage, "kind": kind, "line": line, "made": made,
        "finish": finish, "condition": wrong, "complete": there, "extra_holes": extra_holes,
        "changed": not_its_own,
    }  # fmt: skip
    with workshop(store, data) as shop:
        based_on = own_sales(shop).kept.number
        done = write_sale(shop, "", typed, based_on=based_on, by=BENCH)
        if isinstance(done, Conflict):
            raise CannotDo("Another bench wrote a sale at the same moment: give the command again.")
        if not isinstance(done, Saved):
            raise next(iter(done.values()))
        newest = own_sales(shop)
    many = len(newest.counted)
    typer.echo(f"Written down; {many} sale{' counts' if many == 1 else 's count'}.")


def worth(
    size: Size,
    kind: KindOf = "",
    line: Line = "",
    made: Made = "",
    finish: Finish = "",
    wrong: Wrong = "",
    there: There = "",
    extra_holes: Extra = "",
    not_its_own: NotOwn = "",
    wage: Annotated[
        str, typer.Option("--wage", metavar="AMOUNT", help="What an hour is to bring you.")
    ] = "",
    paid: Annotated[
        str, typer.Option("--paid", metavar="AMOUNT", help="Asked or paid for it.")
    ] = "",
    premium: Annotated[
        str, typer.Option("--premium", metavar="RATE", help='On top of that, "25 %".')
    ] = "",
    fetching: Annotated[
        str, typer.Option("--fetching", metavar="AMOUNT", help="The journey for it.")
    ] = "",
    sure: Annotated[
        str, typer.Option("--sure", metavar="RATE", help='How sure the wage is to be, "80 %".')
    ] = "",
    fee: Annotated[str, typer.Option("--fee", metavar="RATE", help="Of selling.")] = "",
    share: Annotated[
        str, typer.Option("--share", metavar="RATE", help="Yours, if you sell it for its owner.")
    ] = "",
    weeks: Annotated[str, typer.Option("--weeks", metavar="N", help="On offer.")] = "",
    part: Annotated[
        list[str] | None,
        typer.Option("--part", metavar="PART", help='Again for each sort: "8 x lug; 9; 80 %".'),
    ] = None,
    restored: Annotated[
        str, typer.Option("--restored", metavar="AMOUNT", help="What it brings restored.")
    ] = "",
    costs: Annotated[
        str, typer.Option("--costs", metavar="AMOUNT", help="Parts and materials for that.")
    ] = "",
    work: Annotated[
        list[str] | None,
        typer.Option("--work", metavar="WORK", help='Again for each: "2 x true an edge".'),
    ] = None,
    data: DataFolder = None,
    store: StoreAddress = "",
) -> None:
    """Say what a drum is worth by your own sales, which way to sell it, what to pay.

    What is left out of the drum was not looked at. Work on the restored drum is that of one of
    eight lugs where none is named.
    """
    from counterhoop.bench.promise.promises import today_of
    from counterhoop.bench.trade.features_typed import read_features
    from counterhoop.bench.trade.own_sales import own_sales
    from counterhoop.bench.trade.ways_reckoned import reckon_ways, valued
    from counterhoop.bench.trade.ways_typed import WORK_FIRST, read_ways
    from counterhoop.job.trade.worth_words import worth_words

    read = read_features(
        {
            "size": size, "kind": kind, "line": line, "made": made, "finish": finish,
            "condition": wrong, "complete": there, "extra_holes": extra_holes,
            "changed": not_its_own,
        }
    )  # fmt: skip
    typed = {
        **WORK_FIRST,
        "wage": wage, "paid": paid, "premium": premium, "fetching": fetching, "sure": sure,
        "fee": fee, "share": share, "weeks": weeks, "parts": "\n".join(part or ()),
        "restored_price": restored, "restored_costs": costs,
        **({"restored_work": "\n".join(work)} if work else {}),
    }  # fmt: skip
    with workshop(store, data) as shop:
        own, ways = own_sales(shop), read_ways(shop, typed)
        _raise_first({**read.faults, **ways.faults})
        on = today_of(shop)
        assert read.features is not None
        found = valued(read.features, own, on=on)
        reckoned = reckon_ways(ways, wanted=read.features, own=own, on=on)
    for said in worth_words(found):
        typer.echo(said)
    typer.echo("")
    for said in (reckoned.face, reckoned.beside, *reckoned.says, *reckoned.left_out):
        if said:
            typer.echo(said)
    for said in reckoned.granted:
        typer.echo(f"    {said}")


def _raise_first(faults: Mapping[str, BadInput]) -> None:
    for fault in faults.values():
        raise fault


def _line(one: KeptSale) -> str:
    from counterhoop.quantities.day import say_day

    sale = one.read.sale
    if sale is None:
        why = next(iter(one.read.faults.values()))
        return f"{one.what}: cannot be read, and counts for nothing: {why}"
    left_out = "  left out of every value" if one.struck else ""
    return (
        f"{sale.price}  {say_day(sale.sold_on)}, after {sale.days_on_shelf} days  "
        f"{one.what}{left_out}"
    )
