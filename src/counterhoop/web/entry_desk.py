"""One own entry of the fittings book on its form, drawn while it is typed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from markupsafe import Markup

from counterhoop.bench.book_listing import packaged_entry
from counterhoop.bench.folders.folder import Kept
from counterhoop.bench.folders.kinds import BOOK
from counterhoop.bench.folders.own_book import OwnEntry, own_book
from counterhoop.fittings.entry import Fitting
from counterhoop.papers.drawing.fitting_picture import fitting_drawing
from counterhoop.papers.screen.play import to_screen
from counterhoop.web.bench_fault import bench_fault
from counterhoop.web.forms import Form, faults_in, make_form, offers_of
from counterhoop.web.look.mine import Units

IDENT = "entry"


@dataclass(frozen=True, slots=True, kw_only=True)
class EntryDesk:
    """What the form shows.

    Attributes
    ----------
    kept : Kept
        The book as it lies in the drawer.
    at : int or None
        The entry's place in it; None for a new one.
    form : Form
        What it asks, with what is typed.
    fitting : Fitting or None
        What it comes to.
    own : OwnEntry or None
        As it is kept.
    units : str
    """

    kept: Kept
    at: int | None
    form: Form
    fitting: Fitting | None
    own: OwnEntry | None
    units: Units


def desk_of(
    kept: Kept, at: int | None, *, item: Any, units: Units, hushed: bool = False
) -> EntryDesk:
    """Return the form of an entry.

    Parameters
    ----------
    at : int or None
        Its place in the own book; None for one that is not kept yet.
    item : Json
        What a new one begins with, or what is being typed.
    hushed : bool
        Whether what is not there yet is not held against it, while one types.
    """
    book = own_book({BOOK: kept})
    own = book.entries[at] if at is not None else None
    typed = item if (own is None or hushed) else own.item
    faults = [bench_fault(one) for one in faults_in("book entry", typed)] if typed else []
    if own is not None and own.fault is not None and not faults:
        faults = [bench_fault(own.fault)]
    if hushed or own is None:
        faults = [one for one in faults if one.given is not None]
    form = make_form(
        "book entry", typed, ident=IDENT, units=units, faults=faults, offers=offers_of(book.book)
    )
    return EntryDesk(
        kept=kept, at=at, form=form, fitting=own.fitting if own else None, own=own, units=units
    )


def parts_of(desk: EntryDesk) -> dict[str, Any]:
    """Return what the templates of the form name."""
    name = desk.own.name if desk.own else ""
    return {
        "form": desk.form,
        "at": "new" if desk.at is None else str(desk.at),
        "called": name,
        "unread": desk.own is not None and desk.own.fitting is None,
        "lies_over": bool(name and packaged_entry(name)),
        "svg": drawn(desk.fitting, units=desk.units) if desk.fitting else "",
    }


def drawn(fitting: Fitting, *, units: Units) -> Markup:
    """Return an entry drawn life-size, or nothing."""
    drawing = fitting_drawing(fitting, units=units)
    return Markup(to_screen(drawing, ident="fitting")) if drawing else Markup("")
