"""Near misses of spelling."""

from __future__ import annotations

from counterhoop.quantities.nearest import did_you_mean, nearest

KNOWN = ["batter", "resonant", "long lug", "Strainer"]


def test_near_and_far() -> None:
    assert nearest("batr", KNOWN) == "batter"
    assert nearest("LONG-LUG", KNOWN) == "long lug"
    assert nearest("strianer", KNOWN) == "Strainer"
    assert nearest("xylophone", KNOWN) is None
    assert nearest("", KNOWN) is None
    assert nearest("batter", []) is None


def test_in_words() -> None:
    assert did_you_mean("resonnant", KNOWN) == 'Did you mean "resonant"?'
    assert did_you_mean("xylophone", KNOWN) == ""
