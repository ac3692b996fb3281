"""What each row of the reference must say, as a person writes it."""

from __future__ import annotations

import re
from typing import Annotated, Any

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field

from counterhoop.errors import BadInput
from counterhoop.evidence.reference import End, Feature, Line, Part, SerialExample, Value
from counterhoop.quantities.length import parse_length

EARLIEST, LATEST = 1500.0, 2200.0
_NUMBER = re.compile(r"(?P<prefix>[A-Z]*)(?P<digits>[0-9]{1,12})")

Word = Annotated[str, Field(min_length=1, max_length=120, pattern=r"\S")]
Year = Annotated[float, Field(ge=EARLIEST, le=LATEST, allow_inf_nan=False)]
Give = Annotated[float, Field(ge=0.0, le=50.0, allow_inf_nan=False)]
Share = Annotated[float, Field(gt=0.0, le=1000.0, allow_inf_nan=False)]
Mm = Annotated[float, BeforeValidator(lambda given: parse_length(given, allow_zero=False).mm)]


class Written(BaseModel):
    """Anything that stands in the file: nothing that is not known, nothing changed later."""

    model_config = ConfigDict(frozen=True, extra="forbid", str_strip_whitespace=True, strict=True)
    source: Word


class LineRow(Written):
    """``from`` and ``to`` are years, each with what it is known to, give or take."""

    family: Word = Field(description="the family that made it")
    name: Word
    begins: Year = Field(alias="from", description="a year such as 1948")
    from_give: Give = 1.0
    to: Year | None = None
    to_give: Give = 1.0
    made: Share = 1.0

    def made_of(self) -> Line:
        """Return its record."""
        return Line(
            family=self.family, name=self.name, made=self.made, source=self.source,
            begins=End(year=self.begins, give=self.from_give), ends=_end(self.to, self.to_give),
        )  # fmt: skip


class PartRow(Written):
    """Chances are shares from 0 to 1."""

    name: Word
    lost_in_fifty_years: float = Field(
        ge=0.0, le=0.99, description="a share from 0 to 0.99, such as 0.3"
    )
    from_a_donor: float = Field(default=0.3, ge=0.0, le=1.0)

    def made_of(self) -> Part:
        """Return its record."""
        return Part(**self.model_dump())


class FeatureRow(Written):
    """Something to look at."""

    name: Word
    part: Word = Field(description="the part on which it is seen")
    look: Word = Field(description="how to look at it, in a sentence")
    minutes: float = Field(default=1.0, gt=0.0, le=600.0)
    unlisted: float = Field(default=0.05, gt=0.0, le=10.0)

    def made_of(self) -> Feature:
        """Return its record."""
        return Feature(**self.model_dump())


class ValueRow(Written):
    """``follows`` names the value that it took over from, and stands in place of ``from``."""

    family: Word = Field(description="the family that used it")
    feature: Word = Field(description="the feature of which this is one form")
    name: Word
    begins: Year | None = Field(default=None, alias="from")
    from_give: Give = 1.0
    to: Year | None = None
    to_give: Give = 1.0
    follows: str = ""
    share: Annotated[float, Field(ge=0.01, le=100.0)] = 1.0
    lines: tuple[Word, ...] = Field(default=(), strict=False)
    diameters: tuple[Mm, ...] = Field(default=(), strict=False)

    def made_of(self) -> Value:
        """Return its record."""
        return Value(
            family=self.family, feature=self.feature, name=self.name, follows=self.follows,
            begins=_end(self.begins, self.from_give), ends=_end(self.to, self.to_give),
            share=self.share, lines=self.lines, diameters_mm=self.diameters, source=self.source,
        )  # fmt: skip


class SerialRow(Written):
    """A dated serial number."""

    family: Word = Field(description="the family that counted it")
    number: Word = Field(description='the number as it stands, in quotes, such as "B 10432"')
    year: Year = Field(description="a year such as 1957")
    give: Give = 1.0
    part: Word = "shell"

    def made_of(self) -> SerialExample:
        """Return its record."""
        prefix, number = read_number(self.number)
        return SerialExample(
            family=self.family, prefix=prefix, number=number, year=self.year, give=self.give,
            part=self.part, written=self.number, source=self.source,
        )  # fmt: skip


ROWS: dict[str, type[LineRow | PartRow | FeatureRow | ValueRow | SerialRow]] = {
    "line": LineRow,
    "part": PartRow,
    "feature": FeatureRow,
    "value": ValueRow,
    "serial": SerialRow,
}


def read_number(written: Any) -> tuple[str, int]:
    """Read a serial number: letters before it name its series, spaces and dots do not count.

    Raises
    ------
    BadInput
        When it is anything else.

    Examples
    --------
    >>> read_number("b 10.432")
    ('B', 10432)
    """
    found = _NUMBER.fullmatch(re.sub(r"[\s.,\-/]", "", str(written)).upper())
    if found is None:
        raise BadInput(
            "not a serial number", given=written, wanted='letters, if any, then digits: "B 10432"'
        )
    return found["prefix"], int(found["digits"])


def _end(year: float | None, give: float) -> End | None:
    return None if year is None else End(year=year, give=give)
