"""One client's work on one or more drums, as a survey file tells it."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import Literal

from counterhoop.shell.approval import Approval
from counterhoop.shell.choice import Chosen
from counterhoop.shell.drum import Drum
from counterhoop.shell.shop_rules import ShopFigures, ShopRules
from counterhoop.shell.tuning import KitWish, Tuning
from counterhoop.shell.wish import FinishPlan, Wish
from counterhoop.shell.wrap_stock import WrapStock


@dataclass(frozen=True, slots=True, kw_only=True)
class DrumWanted:
    """One drum with what is wanted of it (several wishes are met together, in order).

    ``chosen`` is the scheme that a person took; without it the choice over the kit decides.
    ``tuning`` is what is written of its heads.
    """

    drum: Drum
    wishes: tuple[Wish, ...]
    finish: FinishPlan
    chosen: Chosen | None = None
    tuning: Tuning | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """A job: drums, wishes, stock, groups that must match, the rules worked to."""

    number: str
    client: str
    owner: str = ""
    date: dt.date | None = None
    measured_by: str = ""
    units: Literal["mm", "in"] = "mm"
    story: str = ""
    drums: tuple[DrumWanted, ...]
    match: tuple[tuple[str, ...], ...] = ()
    kit: KitWish | None = None
    stock: tuple[tuple[str, int], ...] = ()
    wraps: tuple[WrapStock, ...] = ()
    rules: ShopRules
    figures: ShopFigures
    approvals: tuple[Approval, ...] = ()
    book_files: tuple[str, ...] = ()
