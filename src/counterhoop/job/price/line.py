"""One line of a quote: what it says, what it comes to, and where it came from."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from enum import StrEnum

from counterhoop.errors import BadInput
from counterhoop.quantities.money import Money


class Origin(StrEnum):
    """Where a line came from."""

    SCHEME = "scheme"
    SURVEY = "survey"
    WRAP = "wrap"
    PARTS = "parts"
    RULES = "rules"
    TYPED = "typed"


class Kind(StrEnum):
    """What a line pays for."""

    WORK = "work"
    PART = "part"
    MATERIAL = "material"
    POSTAGE = "postage"
    OTHER = "other"


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """What a line says: its words, how many, and what they come to together.

    ``amount`` is None where no price is known. It is with or without tax as the workshop types
    all its prices (``Tax.included``).
    """

    says: str
    amount: Money | None
    count: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class QuoteLine:
    """One line of a quote.

    Attributes
    ----------
    key : str
        The same for the same thing each time a quote is made anew ("work: plug a hole").
    origin : Origin
    kind : Kind
    stands : Said
        What is on the quote.
    struck : bool
        Left out by a person; kept, so that it can be put back.
    stood_on : Said or None
        What the origin said when a person changed the line; None for a line as it came.
    now : Said or None
        What the origin says today, where that is no longer what the change stood on.
    gone : bool
        The origin no longer asks for a line that a person has touched.

    Examples
    --------
    >>> said = Said(says="plug a hole", amount=Money(minor=8000, currency="GBP"), count=8)
    >>> line = QuoteLine(key="w", origin=Origin.SCHEME, kind=Kind.WORK, stands=said)
    >>> str(line.edited(amount=Money(minor=7500, currency="GBP")).edited_from)
    '80.00 GBP'
    """

    key: str
    origin: Origin
    kind: Kind
    stands: Said
    struck: bool = False
    stood_on: Said | None = None
    now: Said | None = None
    gone: bool = False

    @property
    def touched(self) -> bool:
        """Whether a person wrote, changed or struck it: such a line never goes by itself."""
        return self.struck or self.stood_on is not None or self.origin is Origin.TYPED

    @property
    def counts(self) -> bool:
        """Whether it is part of the price."""
        return not self.struck

    @property
    def amount(self) -> Money:
        """What it comes to.

        Raises
        ------
        BadInput
            Where no price is known.
        """
        if self.stands.amount is None:
            raise BadInput("no price is known", where=self.stands.says, step="Type one.")
        return self.stands.amount

    @property
    def edited_from(self) -> Money | None:
        """What its origin made it come to when a person changed it."""
        return None if self.stood_on is None else self.stood_on.amount

    def edited(
        self, *, says: str | None = None, amount: Money | None = None, count: int | None = None
    ) -> QuoteLine:
        """Return the line with a person's own words, amount or count; what is left out stays."""
        old = self.stands
        new = Said(
            says=old.says if says is None else says,
            amount=old.amount if amount is None else amount,
            count=old.count if count is None else count,
        )
        if self.origin is Origin.TYPED:
            return replace(self, stands=new)
        return replace(self, stands=new, stood_on=self.stood_on or old)

    def strike(self) -> QuoteLine:
        """Return the line left out of the price."""
        return replace(self, struck=True)

    def put_back(self) -> QuoteLine:
        """Return the line as part of the price again."""
        return replace(self, struck=False)

    def as_it_came(self) -> QuoteLine:
        """Return the line as its origin has it today, a person's change dropped."""
        return replace(
            self, stands=self.now or self.stood_on or self.stands, stood_on=None, now=None
        )

    def kept_over(self) -> QuoteLine:
        """Return the line with the person's change standing on what its origin says today."""
        return replace(self, stood_on=self.now or self.stood_on, now=None)


def typed_line(
    key: str, says: str, *, amount: Money, kind: Kind = Kind.OTHER, count: int = 1
) -> QuoteLine:
    """Return a line that a person adds."""
    said = Said(says=says, amount=amount, count=count)
    return QuoteLine(key=key, origin=Origin.TYPED, kind=kind, stands=said)


def by_key(lines: Iterable[QuoteLine]) -> dict[str, QuoteLine]:
    """Return lines by their keys, in their order.

    Raises
    ------
    BadInput
        For two lines of one key.
    """
    found: dict[str, QuoteLine] = {}
    for line in lines:
        if line.key in found:
            raise BadInput("two lines have one key", where=line.stands.says, given=line.key)
        found[line.key] = line
    return found
