"""What parts cost: only amounts of one currency are added."""

from __future__ import annotations

from dataclasses import replace

from counterhoop.fittings.read_book import packaged_book
from counterhoop.scheme.price import price_of
from counterhoop.shell.shop_rules import ShopFigures

LUG = replace(packaged_book().entries[0], price_minor=680, currency="EUR")


def test_a_price_in_another_currency_is_not_added_as_if_it_were_ours() -> None:
    """Hand-worked: 6.80 EUR is 6.80 EUR, and in pounds nobody knows."""
    assert price_of(LUG, figures=ShopFigures(currency="EUR")) == 680
    assert price_of(LUG, figures=ShopFigures(currency="GBP")) is None


def test_the_workshops_own_price_goes_before_the_books() -> None:
    own = ShopFigures(currency="GBP", prices_minor=((LUG.name, 590),))
    assert price_of(LUG, figures=own) == 590
