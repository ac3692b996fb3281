"""What someone saw on a drum, and how sure the eye was."""

from __future__ import annotations

from dataclasses import dataclass

from counterhoop.errors import BadInput
from counterhoop.evidence.reference import UNLISTED

SURE = 0.95
HOW_SURE = {"seen": SURE, "told": 0.8, "guessed": 0.6}
"""How often one is right who saw it, was told it, or guesses. Common practice, no source."""
SUREST = 0.99
"""Nobody's eye is taken to be surer. Common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Seen:
    """A feature as it is on the drum.

    Attributes
    ----------
    feature, value : str
        By the reference's names; ``UNLISTED`` when it is in no row, which is likelier where no
        row was in use.
    sure : float
        Above 0, up to 1: how often such a look is right. The rest may be any other value.
    """

    feature: str
    value: str
    sure: float = SURE

    def __post_init__(self) -> None:
        if not 0.0 < self.sure <= 1.0:
            raise BadInput(
                "how sure the eye is", where=self.feature, given=self.sure,
                wanted="a share above 0 and up to 1, such as 0.9",
            )  # fmt: skip

    @property
    def listed(self) -> bool:
        """Whether a row says when it was in use."""
        return self.value != UNLISTED
