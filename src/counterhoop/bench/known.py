"""What a store knows of a job and a survey file does not, for papers to say."""

from __future__ import annotations

from dataclasses import dataclass, field

from counterhoop.bench.parts.told import PartsTold
from counterhoop.papers.identity_sheet import Identity


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """What is known of a job beside its survey.

    Attributes
    ----------
    drums : tuple of (str, Identity)
        By the drum's name: those named here have an identity sheet.
    parts : PartsTold
        What was ticked of strip-downs, what the shelf has, what codes open.
    """

    drums: tuple[tuple[str, Identity], ...] = ()
    parts: PartsTold = field(default_factory=PartsTold)
