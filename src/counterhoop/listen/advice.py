"""What may be turned at the rods after listening, and what listening cannot tell."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class RodShare:
    """One rod's part in the pattern; it means something only together with all the others.

    Attributes
    ----------
    rod : int
        Its number, from 1.
    along_deg : float
        Where it is, along the shell.
    share : float
        Its part of the correction: 1 up for the rod turned up most, -1 the same down.
    cents : float
        How far the pitch near it is from the middle one.
    turns : float or None
        How far to turn it now, up positive; None before a turn is known for this drum.
    """

    rod: int
    along_deg: float
    share: float
    cents: float
    turns: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Advice:
    """What to do now, in sentences, and the figures behind them.

    Attributes
    ----------
    sentences : tuple of str
        In order.
    pattern : tuple of RodShare
        Every rod, by number; empty where nothing is to be turned by ear.
    expected : str
        What should be heard afterwards.
    stop : bool
        It is as even as listening can make it.
    unknown : tuple of str
        What these taps cannot tell, and what does.
    """

    sentences: tuple[str, ...] = ()
    pattern: tuple[RodShare, ...] = ()
    expected: str = ""
    stop: bool = False
    unknown: tuple[str, ...] = ()
