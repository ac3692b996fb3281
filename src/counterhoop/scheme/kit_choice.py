"""What a choice over a kit holds: the schemes, the parts, the money, and what else was possible."""

from __future__ import annotations

from dataclasses import dataclass

from counterhoop.scheme.kit_match import Differing
from counterhoop.scheme.kit_price import KitPart
from counterhoop.scheme.plan import Scheme


@dataclass(frozen=True, slots=True, kw_only=True)
class Kit:
    """One scheme a drum and what they come to together.

    Attributes
    ----------
    schemes : tuple of Scheme
        In the order of the drums.
    parts : tuple of KitPart
        Everything that the drums need between them.
    bench_minor : int
        Bench time of all drums, each rounded to the nearest coin.
    differing : tuple of Differing
        Drums that should match and do not.
    """

    schemes: tuple[Scheme, ...] = ()
    parts: tuple[KitPart, ...] = ()
    bench_minor: int = 0
    differing: tuple[Differing, ...] = ()

    @property
    def total_minor(self) -> int:
        """Parts bought and bench time; parts without a price are not in it."""
        return self.bench_minor + sum(part.cost_minor for part in self.parts)

    @property
    def bought(self) -> tuple[KitPart, ...]:
        """What has to be bought, the dearest line first."""
        bought = [part for part in self.parts if part.bought]
        return tuple(sorted(bought, key=lambda part: (-part.cost_minor, part.name)))

    @property
    def unpriced(self) -> int:
        """How many parts must be bought of which nobody knows the price."""
        return sum(part.bought for part in self.parts if part.each_minor is None)

    @property
    def differences(self) -> int:
        """In how many things drums differ that should match."""
        return sum(len(d.aspects) for d in self.differing)


@dataclass(frozen=True, slots=True, kw_only=True)
class KitChoice:
    """The choice over a kit.

    Attributes
    ----------
    chosen : Kit
        What to do.
    runner_up : Kit or None
        The best choice that differs in at least one drum.
    if_differing : Kit or None
        The best choice if no drum had to match, where it saves money.
    if_stopped : Kit or None
        A choice that matches better and has a stop, where drums differ in the one chosen.
    without : tuple of str
        Drums that have no scheme at all and are left out.
    by_hand : tuple of str
        Drums whose scheme somebody chose; the others were chosen to go with those.
    says : tuple of str
        The choice, what is bought, the total, what does not match, the next best.
    proven : bool
        Whether no better choice exists, for the choice and for all that it is compared with.
    """

    chosen: Kit
    runner_up: Kit | None = None
    if_differing: Kit | None = None
    if_stopped: Kit | None = None
    without: tuple[str, ...] = ()
    by_hand: tuple[str, ...] = ()
    says: tuple[str, ...] = ()
    proven: bool = True

    @property
    def schemes(self) -> tuple[Scheme, ...]:
        """The schemes chosen, in the order of the drums."""
        return self.chosen.schemes

    @property
    def total_minor(self) -> int:
        """What the choice comes to."""
        return self.chosen.total_minor

    @property
    def bought(self) -> tuple[KitPart, ...]:
        """What has to be bought."""
        return self.chosen.bought
