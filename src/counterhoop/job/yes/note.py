"""The note to the client on what was found on the way: what differs, its price, the day moved."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from counterhoop.errors import BadInput
from counterhoop.job.yes.differences import Difference
from counterhoop.quantities.day import say_day
from counterhoop.quantities.money import Money
from counterhoop.scheme.phrases import counted
from counterhoop.shell.approval import Approval


@dataclass(frozen=True, slots=True, kw_only=True)
class DayMoved:
    """When the drum was to be ready, and when it will be."""

    was: dt.date
    now: dt.date

    @property
    def says(self) -> str:
        """Both days in words.

        Examples
        --------
        >>> DayMoved(was=dt.date(2030, 5, 10), now=dt.date(2030, 5, 17)).says
        'Ready by 17 May 2030 instead of 10 May 2030, 7 days later.'
        >>> DayMoved(was=dt.date(2030, 5, 10), now=dt.date(2030, 5, 10)).says
        'Ready by 10 May 2030, as before.'
        """
        days = (self.now - self.was).days
        if not days:
            return f"Ready by {say_day(self.now)}, as before."
        how = f"{counted(abs(days), 'day')} {'later' if days > 0 else 'sooner'}"
        return f"Ready by {say_day(self.now)} instead of {say_day(self.was)}, {how}."


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangeNote:
    """What a client is asked to agree to once work has begun.

    Attributes
    ----------
    found : tuple of str
        What was found on the way, a sentence each ("A crack runs from hole 4 to the edge.").
    agreed : Approval
        The yes that no longer covers what is to be done.
    differs : tuple of Difference
        What is done for good and is not as it was agreed; nothing where only hours, price or day
        come of what was found.
    more : Money
        What it adds to the price; below zero takes off.
    in_all : Money or None
        The price with it, in the same currency; None where no price was agreed.
    day : DayMoved or None
        The day, where one was promised.
    cuts : bool
        Whether a yes to it is one to what is cut for good, too; else that is given on the approval
        sheet alone.
    work : tuple of str
        What is done for it, each a few words ("1 lifted ply glued").
    beside : tuple of str
        What else differs that no drum has for itself, and is not in this price: a sentence each.

    Raises
    ------
    BadInput
        Where nothing was found and nothing differs, or the amounts are in two currencies.
    """

    found: tuple[str, ...]
    agreed: Approval
    differs: tuple[Difference, ...]
    more: Money
    in_all: Money | None = None
    day: DayMoved | None = None
    cuts: bool = True
    work: tuple[str, ...] = ()
    beside: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        if not self.differs and not self.found:
            raise BadInput(
                "nothing differs from what was agreed", where="change note",
                wanted="a scheme that the yes does not cover",
            )  # fmt: skip
        if self.in_all is not None and self.in_all.currency != self.more.currency:
            raise BadInput(
                "amounts in two currencies", where="change note",
                given=f"{self.more} and {self.in_all}", wanted="one currency for the whole job",
            )  # fmt: skip

    @property
    def price_says(self) -> str:
        """What it does to the price, in one sentence.

        The sum that was agreed before is the difference, so the three amounts add up.
        """
        if not self.more.minor:
            said = "The price stays as it was"
        elif self.more.minor > 0:
            said = f"The price rises by {self.more}"
        else:
            said = (
                f"The price falls by {Money(minor=-self.more.minor, currency=self.more.currency)}"
            )
        if self.in_all is None:
            return f"{said}."
        if not self.more.minor:
            return f"{said}: {self.in_all}."
        return f"{said}, from {self.in_all - self.more} to {self.in_all}."

    @property
    def beside_says(self) -> str:
        """What this price leaves out, in sentences; empty for nothing."""
        return (
            f"Not in this price, for it is the whole job's: {' '.join(self.beside)}"
            if (self.beside)
            else ""
        )
