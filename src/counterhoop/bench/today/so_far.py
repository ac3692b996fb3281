"""What a drum has taken so far, against what its price holds."""

from __future__ import annotations

from dataclasses import dataclass

from counterhoop.bench.folders.folder import KeptDrum
from counterhoop.bench.price.works import work_priced
from counterhoop.bench.promise.log_said import NOT_BEGUN, LogSaid
from counterhoop.scheme.plan import Scheme
from counterhoop.shell.shop_rules import ShopFigures


@dataclass(frozen=True, slots=True, kw_only=True)
class OperationSoFar:
    """One operation on a drum.

    Attributes
    ----------
    operation : str
    took_min : float
        Hands at work so far, counted or not.
    count, of : int
        How many the log has counted, and how many the price holds.
    price_min : float
        What the price holds.
    """

    operation: str
    took_min: float
    count: int
    of: int
    price_min: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SoFar:
    """All operations on a drum that are in the price or were worked on."""

    lines: tuple[OperationSoFar, ...]

    @property
    def took_min(self) -> float:
        """Hands at work so far."""
        return sum(one.took_min for one in self.lines)

    @property
    def price_min(self) -> float:
        """What the price holds."""
        return sum(one.price_min for one in self.lines)


def so_far_of(
    log: LogSaid, *, job: str, drum: KeptDrum, scheme: Scheme, figures: ShopFigures
) -> SoFar:
    """Return what a drum has taken so far.

    Parameters
    ----------
    job : str
        Its job's name for programs.
    scheme : Scheme
        That it is priced by.
    figures : ShopFigures
        Of its job.
    """
    said = log.of(job, drum)
    ((*priced,),) = work_priced([scheme], figures=figures, log=log.worked).lines
    in_price = {line.operation: line for line in priced}
    names = (*in_price, *(name for name in said if name not in in_price))
    return SoFar(
        lines=tuple(
            OperationSoFar(
                operation=name,
                took_min=its.done_min + its.loose_min,
                count=sum(count for count, _ in its.done),
                of=in_price[name].count if name in in_price else 0,
                price_min=in_price[name].minutes if name in in_price else 0.0,
            )
            for name in names
            for its in (said.get(name, NOT_BEGUN),)
        )
    )
