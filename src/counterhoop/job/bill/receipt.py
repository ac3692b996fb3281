"""Money that came in or went back, written down once."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from counterhoop.errors import BadInput
from counterhoop.quantities.money import Money


@dataclass(frozen=True, slots=True, kw_only=True)
class Receipt:
    """One payment.

    Attributes
    ----------
    number : str
        Running, given from outside.
    day : date
    job, client : str
    amount : Money
        More than nothing.
    how : str
        As it was paid ("cash", "by transfer").
    against : str
        Number of the invoice; empty for a deposit before there is one.
    back : bool
        Paid back to the client.
    """

    number: str
    day: dt.date
    job: str
    client: str
    amount: Money
    how: str
    against: str = ""
    back: bool = False

    def __post_init__(self) -> None:
        where = f"receipt {self.number}"
        if not self.number.strip():
            raise BadInput("no running number", where="receipt", wanted="the next of its series")
        if self.amount.minor <= 0:
            raise BadInput("a payment of nothing", where=where, given=str(self.amount))
        if not self.how.strip():
            raise BadInput("not said how it was paid", where=where, wanted="such as cash")

    @property
    def came_in(self) -> Money:
        """The amount; below zero where it went back."""
        return self.amount.times(-1) if self.back else self.amount
