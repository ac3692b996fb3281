"""The plan of the whole bench as a page finds it: there, under way, stopped, or refused."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeVar

from counterhoop.bench.long_work.answers import Answer, Done, Failed, Working
from counterhoop.bench.promise.bench_now import BenchNow, bench_now
from counterhoop.bench.promise.shop_plan import ShopPlan, shop_plan
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput

T = TypeVar("T")
WAIT_S = 0.08
"""What a page waits for a plan before it shows how far it is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchPlanned:
    """How far the plan of the bench is.

    Attributes
    ----------
    bench : BenchNow or None
        What is on the bench; None where the opening hours cannot be read.
    plan : ShopPlan or None
        The plan, once it is there.
    working, failed : Working, Failed or None
        How far it is; why nothing came of it. For ``work.html``.
    hours_wrong : str
        What is wrong with the opening hours, as far as it keeps the bench from being planned.
    """

    bench: BenchNow | None = None
    plan: ShopPlan | None = None
    working: Working | None = None
    failed: Failed | None = None
    hours_wrong: str = ""

    @property
    def titles(self) -> dict[str, str]:
        """What one calls each open job, by its name for programs."""
        return {one.kept.id: one.title for one in self.bench.jobs} if self.bench else {}


def bench_planned(shop: Workshop, *, wait_s: float = WAIT_S) -> BenchPlanned:
    """Return the plan of the bench, or how far it is.

    Parameters
    ----------
    wait_s : float
        How long it may be waited for.
    """
    try:
        bench = bench_now(shop)
        answer = patiently(shop, lambda: shop_plan(shop), wait_s=wait_s)
    except BadInput as fault:
        return BenchPlanned(hours_wrong=str(fault))
    match answer:
        case Done():
            return BenchPlanned(bench=answer.value.bench, plan=answer.value)
        case Failed():
            return BenchPlanned(bench=bench, failed=answer)
    return BenchPlanned(bench=bench, working=answer)


def patiently(shop: Workshop, ask: Callable[[], Answer[T]], *, wait_s: float = WAIT_S) -> Answer[T]:
    """Return the answer of work that comes soon, else how far it is.

    What is waited for may be what the work rests on: it is asked for again.
    """
    answer = ask()
    if isinstance(answer, Working) and not isinstance(shop.works.wait(answer.id, wait_s), Working):
        return ask()
    return answer
