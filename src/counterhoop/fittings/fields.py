"""Fields of a book entry as they are written in the file: lengths, threads, prices, outlines."""

from __future__ import annotations

import re
from typing import Annotated, Literal

from pydantic import (
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Field,
    WithJsonSchema,
    model_validator,
)

from counterhoop.development.outline import Outline, disc, rounded
from counterhoop.errors import BadInput
from counterhoop.fittings.entry import Behind, PatternHole
from counterhoop.fittings.outline_sides import is_outline
from counterhoop.quantities.length import parse_length
from counterhoop.quantities.money import Money, parse_money
from counterhoop.standards.threads import find_thread


def _text(description: str, example: str) -> WithJsonSchema:
    return WithJsonSchema({"type": "string", "description": description, "examples": [example]})


def _length(given: object) -> float:
    return parse_length(given, allow_zero=False).mm


def _thickness(given: object) -> float:
    return parse_length(given).mm


def _offset(given: object) -> float:
    return parse_length(given, allow_negative=True).mm


def _thread(given: object) -> str:
    return find_thread(given).designation


def _grams(given: object) -> float:
    found = re.fullmatch(
        r"\s*([0-9]+(?:[.,][0-9]+)?)\s*g\s*", given if isinstance(given, str) else ""
    )
    if found is None or float(found[1].replace(",", ".")) == 0.0:
        raise BadInput("not a mass in grams", given=given, wanted='one such as "85 g"')
    return float(found[1].replace(",", "."))


def _bending(given: object) -> float:
    found = re.fullmatch(
        r"\s*([0-9]+(?:[.,][0-9]+)?)\s*N\s*\*?\s*m(?:2|²|\^2)\s*",
        given if isinstance(given, str) else "",
    )
    if found is None or float(found[1].replace(",", ".")) == 0.0:
        raise BadInput("not a stiffness", given=given, wanted='one such as "1500 N m2"')
    return float(found[1].replace(",", "."))


LengthMm = Annotated[
    float, BeforeValidator(_length), _text("a length with its unit, above zero", "12.7 mm")
]
ThicknessMm = Annotated[
    float, BeforeValidator(_thickness), _text("a length with its unit, zero or more", "1.5 mm")
]
OffsetMm = Annotated[
    float,
    BeforeValidator(_offset),
    _text("a length with its unit; below zero is left or up", "-21 mm"),
]
MassG = Annotated[float, BeforeValidator(_grams), _text("a mass in grams", "85 g")]
BendingNM2 = Annotated[
    float,
    BeforeValidator(_bending),
    _text("stiffness E I against bending up and down, in N m2", "1500 N m2"),
]
Thread = Annotated[str, BeforeValidator(_thread), _text("a thread by its name", "12-24")]
Price = Annotated[
    Money, BeforeValidator(parse_money), _text("an amount with its currency", "4.50 GBP")
]
Name = Annotated[str, Field(min_length=1, max_length=80, pattern=r"\S")]


class Written(BaseModel):
    """Anything that stands in the file: nothing that is not known, nothing changed later."""

    model_config = ConfigDict(frozen=True, extra="forbid", str_strip_whitespace=True)


class Rounded(Written):
    """A rectangle with corners of one radius; half the width gives round ends."""

    shape: Literal["rounded"]
    width: LengthMm
    height: LengthMm
    corner: ThicknessMm
    right: OffsetMm = 0.0
    down: OffsetMm = 0.0

    def outline(self) -> Outline:
        """Return it about the fitting's reference point."""
        flat = rounded(self.width, self.height, corner_mm=self.corner)
        return flat.moved(self.right, self.down)


class Rectangle(Written):
    """A rectangle."""

    shape: Literal["rectangle"]
    width: LengthMm
    height: LengthMm
    right: OffsetMm = 0.0
    down: OffsetMm = 0.0

    def outline(self) -> Outline:
        """Return it about the fitting's reference point."""
        return rounded(self.width, self.height).moved(self.right, self.down)


class Disc(Written):
    """A disc."""

    shape: Literal["disc"]
    diameter: LengthMm
    right: OffsetMm = 0.0
    down: OffsetMm = 0.0

    def outline(self) -> Outline:
        """Return it about the fitting's reference point."""
        return disc(self.diameter).moved(self.right, self.down)


class Polygon(Written):
    """Corner by corner, right and down from the reference point."""

    shape: Literal["polygon"]
    points: Annotated[tuple[tuple[OffsetMm, OffsetMm], ...], Field(min_length=3, max_length=400)]
    right: OffsetMm = 0.0
    down: OffsetMm = 0.0

    @model_validator(mode="after")
    def _goes_round(self) -> Polygon:
        if not is_outline(Outline(self.points)):
            raise BadInput(
                "the outline crosses itself or holds no area",
                wanted="corners in order round the base",
            )
        return self

    def outline(self) -> Outline:
        """Return it about the fitting's reference point."""
        return Outline(self.points).moved(self.right, self.down)


Shape = Annotated[Rounded | Rectangle | Disc | Polygon, Field(discriminator="shape")]


class HoleWritten(Written):
    """One hole that the fitting wants in the shell."""

    right: OffsetMm = 0.0
    down: OffsetMm
    hole: LengthMm
    screw: LengthMm
    slot_along: ThicknessMm = 0.0
    slot_down: ThicknessMm = 0.0
    called: Annotated[str, Field(max_length=40)] = ""

    def record(self) -> PatternHole:
        """Return it as the core knows it."""
        return PatternHole(
            right_mm=self.right,
            down_mm=self.down,
            hole_mm=self.hole,
            screw_mm=self.screw,
            slot_along_mm=self.slot_along,
            slot_down_mm=self.slot_down,
            called=self.called,
        )


class MouthWritten(Written):
    """Where a rod enters, and the edge it looks to."""

    down: OffsetMm
    toward: Literal["batter", "resonant"]


class BehindWritten(Written):
    """What stands behind the shell on each screw."""

    washer: ThicknessMm = 0.0
    washer_diameter: ThicknessMm = 0.0
    nut: ThicknessMm = 0.0

    def record(self) -> Behind:
        """Return it as the core knows it."""
        return Behind(
            washer_mm=self.washer, washer_diameter_mm=self.washer_diameter, nut_mm=self.nut
        )


class ScrewWritten(Written):
    """The mounting screws: thread, length under the head, depth of thread that takes them."""

    thread: Thread
    length: LengthMm
    depth: LengthMm | None = None


class SuitsWritten(Written):
    """Depths between the edges that a long lug goes with."""

    least: LengthMm
    most: LengthMm
