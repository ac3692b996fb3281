"""One movement of a piece, written down once and never changed."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import Literal, get_args

from counterhoop.errors import BadInput

MovementKind = Literal[
    "came in", "set aside", "put back", "used", "sold", "scrapped", "counted", "given back"
]
FOR_A_JOB = ("set aside", "put back", "used")


@dataclass(frozen=True, slots=True, kw_only=True)
class Movement:
    """What moved, how many, when, for whom.

    Attributes
    ----------
    piece_id : str
        Which piece.
    kind : MovementKind
        "counted" says how many lie on the shelf, set aside ones with them.
    count : int
        How many; none only where they were counted.
    job : str
        The job that it is set aside or used for, or put back from.
    client : str
        Whose job that is; of what is given back, who took it.
    on : datetime
        When, as the bench gave it.
    bench : str
        Which bench, or who.
    corrects : str
        What a count puts right ("came in 4, three were in the bag").
    release : str
        The signed release with which a client's piece is sold or scrapped.
    why : str
        What else is worth keeping.

    Raises
    ------
    BadInput
        For what makes no sense whatever the stock is.
    """

    piece_id: str
    kind: MovementKind
    count: int
    on: dt.datetime
    job: str = ""
    client: str = ""
    bench: str = ""
    corrects: str = ""
    release: str = ""
    why: str = ""

    def __post_init__(self) -> None:
        kinds = get_args(MovementKind)
        if self.kind not in kinds:
            raise BadInput(
                "no such movement", where="movement", given=self.kind, wanted=", ".join(kinds)
            )
        if self.count < 0 or (self.count == 0 and self.kind != "counted"):
            raise BadInput("how many?", where=self.kind, given=self.count, wanted="1 or more")
        if self.kind in FOR_A_JOB and not self.job:
            raise BadInput("for which job?", where=self.kind, wanted="the job's name")
        if self.kind == "counted" and not self.corrects.strip():
            raise BadInput(
                "what does the count put right?",
                where="counted",
                wanted='a few words such as "four written, three in the bag"',
            )
