"""A rule in words: what a shop rule is for, and how it is called in one's own figures."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from counterhoop.sources import load_table

UNITS = ("_mm", "_deg", "_cents")


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleWords:
    """A rule as a finding names it.

    Attributes
    ----------
    says : str
        What it holds to.
    name : str
        The shop rule's name in a survey file; empty for one that cannot be changed.
    """

    says: str
    name: str = ""


def rule_words(rule: str) -> RuleWords:
    """Return the words of a rule; one that is no shop rule is said as it stands.

    Examples
    --------
    >>> rule_words("flat_mm").name
    'flat'
    >>> rule_words("a vent for two heads").says
    'a vent for two heads'
    """
    says = _shop_rules().get(rule)
    if says is None:
        return RuleWords(says=rule)
    unit = next((unit for unit in UNITS if rule.endswith(unit)), "")
    return RuleWords(says=says, name=rule.removesuffix(unit))


@cache
def _shop_rules() -> dict[str, str]:
    rows = load_table("counterhoop.shell", "shop_rules.toml")
    return {row.values["name"]: row.values["says"] for row in rows}
