"""Jobs of invented drums that get a new wrap, as small as their tests ask."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

from counterhoop.development.flat import Development
from counterhoop.development.outline import disc, rounded
from counterhoop.development.place import Place
from counterhoop.development.surface import Skin, Surface
from counterhoop.development.truing import Truing
from counterhoop.fittings.entry import Fitting, Kind
from counterhoop.scheme.layout import FittingPlan, Layout
from counterhoop.scheme.plan import Criteria, Scheme
from counterhoop.shell.drum import Circumference, Drum, DrumKind, OldFinish
from counterhoop.shell.job import DrumWanted, Job
from counterhoop.shell.operations import default_figures
from counterhoop.shell.shop_rules import default_rules
from counterhoop.shell.wish import FinishPlan
from counterhoop.shell.wrap_stock import WrapStock

RULES = default_rules()
STOCK = WrapStock(
    name="amber drift", thickness_mm=0.5, length_mm=1400.0, width_mm=610.0, price_minor=6200
)
LUG = Fitting(
    name="tube lug", kind=Kind.LUG, source="invented", serves=("batter",),
    base=rounded(30.0, 50.0, corner_mm=4.0),
)  # fmt: skip
SPUR = Fitting(
    name="spur", kind=Kind.SPUR, source="invented", base=rounded(50.0, 70.0, corner_mm=4.0)
)
BADGE = Fitting(name="badge", kind=Kind.BADGE, source="invented", base=disc(40.0))


def lugs(count: int, *, first_deg: float = 0.0, fitting: Fitting = LUG) -> list[FittingPlan]:
    return [
        FittingPlan(
            label=f"lug {n + 1}", fitting=fitting, row="batter",
            place=Place((first_deg + 360.0 * n / count) % 360.0, 60.0),
        )
        for n in range(count)
    ]  # fmt: skip


def there(label: str, fitting: Fitting, deg: float, down_mm: float = 100.0) -> FittingPlan:
    return FittingPlan(label=label, fitting=fitting, place=Place(deg, down_mm))


def wrapped(
    key: str = "tom",
    *,
    bare_mm: float = 300.0,
    depth_mm: float = 178.0,
    fittings: list[FittingPlan] | None = None,
    swing: tuple[float, float] = (0.0, 0.0),
    wrap: str = STOCK.name,
    thickness_mm: float = STOCK.thickness_mm,
    **drum: Any,
) -> Scheme:
    """A drum of a bare diameter under half a millimetre of old wrap, read by tape."""
    over_mm = math.pi * (bare_mm + 1.0)
    found = Drum(
        key=key,
        circumference=Circumference(
            skin=Skin.OLD, mean_mm=over_mm, readings_mm=(("middle", over_mm),)
        ),
        wall_mm=5.0, depth_mm=depth_mm, finish=OldFinish(kind="wrap", thickness_mm=0.5),
    )  # fmt: skip
    found = replace(found, **drum)
    skin = Surface(skin=Skin.NEW, circumference_mm=math.pi * (bare_mm + 2 * thickness_mm))
    layout = Layout(
        drum=found,
        flat=Development(
            surface=skin, depth_mm=depth_mm, wall_mm=5.5, depth_cos_mm=swing[0],
            depth_sin_mm=swing[1],
        ),
        truing=Truing(),
        finish=FinishPlan(kind="new wrap", thickness_mm=thickness_mm, wrap=wrap),
        holes=(),
        fittings=tuple(lugs(6) if fittings is None else fittings),
    )  # fmt: skip
    return Scheme(
        drum=key, number=1, pattern="finish", title="A new wrap", layout=layout, findings=(),
        parts=(), work=(),
        criteria=Criteria(cut=0, shows_mm2=0, shows_inside_mm2=0, money_minor=0, margin_mm=9.0),
    )  # fmt: skip


def job_of(*schemes: Scheme, stock: WrapStock = STOCK) -> Job:
    return Job(
        number="31", client="The Quarry Street Six", wraps=(stock,), rules=RULES,
        figures=default_figures(),
        drums=tuple(
            DrumWanted(drum=s.layout.drum, wishes=(), finish=s.layout.finish) for s in schemes
        ),
    )  # fmt: skip


def bass(*spurs_deg: float) -> Scheme:
    """A bass drum of 22 in, too long for the sheet, with its spurs at these places."""
    spurs = [there(f"spur {n}", SPUR, deg) for n, deg in enumerate(spurs_deg, 1)]
    return wrapped(
        "bass drum", bare_mm=558.0, depth_mm=356.0, kind=DrumKind.BASS,
        fittings=[*lugs(8, first_deg=22.5), *spurs],
    )  # fmt: skip
