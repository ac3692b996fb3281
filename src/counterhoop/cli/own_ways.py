"""How this workshop works and prices: its open hours, its terms."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Annotated, Any

import typer

from counterhoop.cli.of_job import need_kept
from counterhoop.cli.options import DataFolder, StoreAddress
from counterhoop.cli.store import BENCH, workshop
from counterhoop.errors import BadInput

if TYPE_CHECKING:
    from counterhoop.bench.promise.hours_open import OpenHours
    from counterhoop.store.body import Json

LISTED = ("exclusions", "to_pay", "shop_lines", "warranty")
TICKED = ("included", "by_year")


def hours(
    week: Annotated[
        list[str] | None,
        typer.Option("--week", metavar="DAY=HOURS", help='"mon=9-12:30, 13:30-18"; again.'),
    ] = None,
    off: Annotated[
        list[str] | None,
        typer.Option(
            "--off", metavar="DAYS", help='"2030-07-01 to 2030-07-14" is closed as well; again.'
        ),
    ] = None,
    clamps: Annotated[str, typer.Option("--clamps", metavar="N", help="How many there are.")] = "",
    drying: Annotated[
        str, typer.Option("--drying", metavar="N", help="Places on the drying shelf.")
    ] = "",
    room: Annotated[str, typer.Option("--room", metavar="WARMTH", help='"18 °C", "64 °F".')] = "",
    data: DataFolder = None,
    store: StoreAddress = "",
) -> None:
    """Show when the workshop is open and what it glues and dries with, or write it down."""
    from counterhoop.bench.folders.folder import Kept, drawer
    from counterhoop.bench.folders.kinds import OPEN_HOURS
    from counterhoop.bench.promise.hours_open import open_hours, write_open_hours
    from counterhoop.bench.promise.promises import today_of

    said = {"clamps": clamps, "drying": drying, "room": room}
    with workshop(store, data) as shop:
        kept = drawer(shop).get(OPEN_HOURS, Kept())
        table: dict[str, Any] = {**kept.table, **{name: one for name, one in said.items() if one}}
        if week:
            # A week that is written down is all of it: what was usual stays where nothing is said.
            said_days = _pairs(week, where="week").items()
            table["week"] = {**open_hours(shop).typed, **{_weekday(d): h for d, h in said_days}}
        if off:
            table["off"] = [*(table.get("off") or ()), *off]
        if week or off or any(said.values()):
            need_kept(write_open_hours(shop, table, based_on=kept.number, by=BENCH))
        now = open_hours(shop)
        today = today_of(shop).isoformat()
        shut = [str(days) for days in drawer(shop).get(OPEN_HOURS, Kept()).table.get("off") or ()]
    for line in _open_text(now, [days for days in shut if days.split()[-1] >= today]):
        typer.echo(line)


def terms(
    said: Annotated[
        list[str] | None,
        typer.Argument(
            metavar="NAME=VALUE",
            help='"tax=added", "rate=20 %"; empty for the usual. Lines are parted by " / ".',
        ),
    ] = None,
    data: DataFolder = None,
    store: StoreAddress = "",
) -> None:
    """Show how the workshop prices and what that makes of a price, or write it down."""
    from counterhoop.bench.folders.folder import Kept, drawer
    from counterhoop.bench.folders.kinds import TERMS
    from counterhoop.bench.price.example import example
    from counterhoop.bench.price.terms import terms_of, write_terms
    from counterhoop.bench.promise.promises import today_of

    with workshop(store, data) as shop:
        kept = drawer(shop).get(TERMS, Kept())
        if said:
            table: dict[str, Json] = {**kept.table}
            for name, value in _pairs(said, where="terms").items():
                table[name] = _term(name, value)
            need_kept(write_terms(shop, table, based_on=kept.number, by=BENCH))
        written = drawer(shop).get(TERMS, Kept()).table
        now = terms_of(shop)
        made = example(shop, now, day=today_of(shop))
    for name, value in written.items():
        typer.echo(f"{name}: {_shown(value)}")
    for line in now.says:
        typer.echo(line)
    typer.echo(f"Work that comes to {made.typed}: {made.face}")
    for label, amount in made.rows:
        typer.echo(f"  {amount:>12}  {label}")


def _open_text(now: OpenHours, shut: Sequence[str]) -> list[str]:
    lines = [f"{day}  {hours}" for day, hours in now.typed.items() if hours]
    lines += [f"closed  {days}" for days in shut]
    lines.append(f"{now.clamps} clamps, {now.drying} places to dry, {now.room_c:g} °C in the room.")
    return [*lines, *([now.says] if now.says else [])]


def _pairs(given: Sequence[str], *, where: str) -> dict[str, str]:
    found = {}
    for one in given:
        name, there, value = one.partition("=")
        if not there:
            raise BadInput("no value", where=where, given=one, wanted='such as "mon=9-12"')
        found[name.strip()] = value.strip()
    return found


def _weekday(said: str) -> str:
    """Return a weekday's whole name, so that "sat" is written over "saturday"."""
    from counterhoop.job.open_hours.week import WEEKDAYS

    plain = said.casefold()
    found = [day for day in WEEKDAYS if len(plain) > 1 and day.startswith(plain)]
    if len(found) != 1:
        raise BadInput("no such day", where="week", given=said, wanted="mon, tue ... sun")
    return found[0]


def _term(name: str, value: str) -> Json:
    if name in LISTED:
        return [line.strip() for line in value.split(" / ") if line.strip()]
    if name in TICKED:
        if value not in ("yes", "no", ""):
            raise BadInput("yes or no", where=name, given=value)
        return value == "yes"
    return value


def _shown(value: object) -> str:
    if isinstance(value, list):
        return " / ".join(map(str, value))
    return "yes" if value is True else str(value)
