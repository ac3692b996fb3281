"""Drums built by hand, and the shop they are worked in."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import pytest

from counterhoop.development.place import Place
from counterhoop.development.shape import HoleShape, Round
from counterhoop.development.surface import Skin
from counterhoop.fittings.book import Book
from counterhoop.fittings.read_book import packaged_book, read_book
from counterhoop.scheme.schemes import Shop
from counterhoop.shell.drum import Circumference, Drum, PlacedFitting, Row
from counterhoop.shell.hole import Hole, Origin
from counterhoop.shell.operations import default_figures
from counterhoop.shell.shop_rules import ShopRules, default_rules

CASES = Path(__file__).parents[1] / "cases"


@pytest.fixture(scope="session")
def book() -> Book:
    own = read_book((CASES / "book.toml").read_text(encoding="utf-8"), name="book.toml")
    return packaged_book().merged(own)


@pytest.fixture(scope="session")
def rules() -> ShopRules:
    return default_rules()


@pytest.fixture(scope="session")
def shop(book: Book, rules: ShopRules) -> Shop:
    return Shop(rules=rules, figures=default_figures(), book=book, stock={})


class Bench:
    """Builds drums with rows, fittings and single holes, numbered as they are added."""

    def __init__(self, book: Book) -> None:
        self.book = book

    def bare(self, *, diameter_mm: float = 302.6, depth_mm: float = 203.0, heads: int = 1) -> Drum:
        return Drum(
            key="tom",
            heads=heads,
            circumference=Circumference(skin=Skin.OLD, mean_mm=math.pi * diameter_mm),
            wall_mm=5.0,
            depth_mm=depth_mm,
        )

    def with_hole(
        self,
        drum: Drum,
        along_deg: float,
        down_mm: float,
        shape: HoleShape | float,
        **more: object,
    ) -> Drum:
        made = Round(shape) if isinstance(shape, float) else shape
        number = len(drum.holes) + 1
        hole = Hole(number=number, place=Place(along_deg, down_mm), shape=made, **more)
        return replace(drum, holes=(*drum.holes, hole))

    def with_fitting(
        self,
        drum: Drum,
        name: str,
        along_deg: float,
        down_mm: float,
        *,
        label: str = "",
        turned_deg: float = 0.0,
        origin: Origin = Origin.NOT_SURE,
        missing: bool = False,
    ) -> tuple[Drum, PlacedFitting]:
        entry = self.book.find(name)
        numbers = []
        for wanted in entry.holes:
            flip = -1.0 if turned_deg == 180.0 else 1.0
            along = along_deg + flip * wanted.right_mm * 360.0 / drum.circumference.mean_mm
            drum = self.with_hole(
                drum,
                along,
                down_mm + flip * wanted.down_mm,
                wanted.hole_mm,
                purpose=f"{label or name}, {wanted.called}",
                origin=origin,
            )
            numbers.append(len(drum.holes))
        placed = PlacedFitting(
            label=label or name,
            fitting=name,
            place=Place(along_deg, down_mm),
            turned_deg=turned_deg,
            holes=tuple(numbers),
            origin=origin,
            missing=missing,
        )
        return drum, placed

    def fitted(
        self, drum: Drum, name: str, along_deg: float, down_mm: float, **more: object
    ) -> Drum:
        drum, placed = self.with_fitting(drum, name, along_deg, down_mm, **more)
        return replace(drum, fittings=(*drum.fittings, placed))

    def with_row(
        self,
        drum: Drum,
        name: str,
        *,
        count: int,
        down_mm: float,
        head: str = "batter",
        first_deg: float = 0.0,
        hoop: str = "",
        pinned: bool = False,
    ) -> Drum:
        lugs = []
        for index in range(count):
            drum, placed = self.with_fitting(
                drum,
                name,
                first_deg + index * 360.0 / count,
                down_mm,
                label=f"{head} lug {index + 1}",
                turned_deg=180.0 if head == "resonant" else 0.0,
            )
            lugs.append(placed)
        row = Row(head=head, fitting=name, lugs=tuple(lugs), hoop=hoop, pinned=pinned)
        return replace(drum, rows=(*drum.rows, row))

    def case_a(self) -> Drum:
        drum = self.with_row(
            self.bare(),
            "Corvane single lug 42",
            count=6,
            down_mm=62.0,
            hoop="Corvane hoop 12 in, 6 ears",
        )
        drum = self.fitted(drum, "Corvane bracket block", 90.0, 130.0, label="bracket")
        return self.with_hole(drum, 30.0, 101.5, 12.7, purpose="vent")

    def case_d(self) -> Drum:
        drum = self.bare(diameter_mm=354.0, depth_mm=139.7, heads=2)
        return self.fitted(drum, "Varlow old strainer", 0.0, 85.4, label="strainer")


@pytest.fixture(scope="session")
def bench(book: Book) -> Bench:
    return Bench(book)
