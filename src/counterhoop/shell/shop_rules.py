"""The limits, minutes and prices this workshop works to."""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from functools import cache

from counterhoop.sources import load_table


@dataclass(frozen=True, slots=True, kw_only=True)
class ShopRules:
    """Limits by name; what each says stands in the packaged table of the same names.

    Every default is common practice, no source.
    """

    keep_mm: float
    enlarge_mm: float
    slot_mm: float
    opening_inside_mm: float
    web_mm: float
    plug_web_mm: float
    plug_factor: float
    edge_mm: float
    ring_joint_mm: float
    ply_seam_mm: float
    seam_clear_mm: float
    lug_ends_mm: float
    lug_badge_mm: float
    lug_bracket_mm: float
    mouth_below_hoop_mm: float
    head_stretch_mm: float
    lean_fixed_deg: float
    lean_swivel_deg: float
    engaged_mm: float
    engaged_diameters: float
    bottom_clear_mm: float
    off_middle_mm: float
    half_spacing_mm: float
    look_further_mm: float
    shadow_cover_mm: float
    drill_held_mm: float
    match_deg: float
    girth_spread_mm: float
    nest_mm: float
    round_care_mm: float
    round_ask_mm: float
    flat_mm: float
    head_floats_mm: float
    head_snug_mm: float
    ring_left_mm: float
    bed_ramp_factor: float
    even_enough_cents: float

    def overridden(self, changes: dict[str, float]) -> ShopRules:
        """Return the rules with the workshop's own figures in place of the defaults."""
        return replace(self, **changes)

    def web_needed_mm(self, first_mm: float, second_mm: float) -> float:
        """Wood wanted between holes of these diameters."""
        return max(self.web_mm, min(first_mm, second_mm))


@cache
def default_rules() -> ShopRules:
    """Return the packaged defaults."""
    rows = {
        r.values["name"]: float(r.values["value"])
        for r in load_table("counterhoop.shell", "shop_rules.toml")
    }
    return ShopRules(**{f.name: rows[f.name] for f in fields(ShopRules)})


@dataclass(frozen=True, slots=True, kw_only=True)
class ShopFigures:
    """Minutes by operation, money in minor units of one currency.

    Attributes
    ----------
    currency : str
        ISO 4217 code.
    hour_minor : int
        Price of an hour at the bench, in minor units.
    minutes : tuple of (str, float)
        Minutes by operation name (the packaged names are in ``tables/minutes.toml``).
    prices_minor : tuple of (str, int)
        Price of a part by its name in the fittings book; overrides the book's own.
    cure_hours : tuple of (str, float)
        Hours of waiting by operation.
    """

    currency: str = "GBP"
    hour_minor: int = 3000
    minutes: tuple[tuple[str, float], ...] = ()
    prices_minor: tuple[tuple[str, int], ...] = ()
    cure_hours: tuple[tuple[str, float], ...] = ()
