"""Write down what the workshop's printer does to lengths."""

from __future__ import annotations

from counterhoop.bench.folders.kinds import PRINTER
from counterhoop.bench.folders.write_down import Change, write_down
from counterhoop.bench.printing import Printing
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.store.body import Json
from counterhoop.store.save import Conflict, Saved


def write_printer(
    shop: Workshop, *, paper: str, short: str, long: str, thickness: str, called: str,
    based_on: int, by: str,
) -> Saved | Conflict:  # fmt: skip
    """Write down what the printer does to lengths, as read off its check sheet.

    Parameters
    ----------
    short, long : str
        The two bars as read; both empty for a printer that nobody measured.

    Raises
    ------
    BadInput
        For what cannot be read, and for a bar more than 2 % off.
    """
    if bool(short) != bool(long):
        raise BadInput("both bars are wanted", where="long" if short else "short")
    measured = f"{short}; {long}" if short else ""
    Printing.read(paper=paper, measured=measured, thickness=thickness)
    typed = {"paper": paper, "measured": measured, "thickness": thickness, "called": called}
    body: dict[str, Json] = {name: value for name, value in typed.items() if value}
    return write_down(shop, None, Change(kind=PRINTER, value=body, based_on=based_on), by=by)
