"""What goes in and comes out as JSON."""

from __future__ import annotations

import datetime as dt
from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field

Name = Annotated[str, Field(min_length=1, max_length=40)]
Kind = Literal["job", "survey", "wish", "choice", "facts", "arrival", "handover"]
"""The documents that a program may write; a yes and a tick have ways of their own."""


class Shape(BaseModel):
    """What all of them keep to."""

    model_config = ConfigDict(extra="forbid", frozen=True)


class Fault(Shape):
    """Why something was not done; the same for every fault."""

    what: str
    where: str = ""
    given: str = ""
    wanted: str = ""
    step: str = ""


class JobShort(Shape):
    """A job as a list has it."""

    id: str
    title: str
    drums: list[str]
    state: str
    says: str
    changed_at: dt.datetime


class Jobs(Shape):
    """One sheet of the list of jobs."""

    jobs: list[JobShort]
    count: int
    sheet: int
    sheets: int


class DrumNamed(Shape):
    """A drum of a job."""

    id: str
    name: str


class DocumentShown(Shape):
    """A document as it stands; ``body`` is what was typed."""

    kind: str
    drum: str
    revision: int
    as_found: int | None
    changed_at: dt.datetime | None
    by: str
    body: Any


class JobWhole(Shape):
    """A job with all of its documents."""

    id: str
    title: str
    drums: list[DrumNamed]
    documents: list[DocumentShown]


class NewJob(Shape):
    """A folder to be opened: the job's table of a survey file."""

    job: dict[str, Any] = Field(default_factory=dict)


class NewDrum(Shape):
    """A drum to be put into a folder: its table of a survey file, as far as it is known."""

    name: Name
    survey: dict[str, Any] = Field(default_factory=dict)


class Made(Shape):
    """What was made."""

    id: str


class Writing(Shape):
    """A document as it shall stand, and the revision that the writer saw (0 for none)."""

    body: dict[str, Any]
    based_on: Annotated[int, Field(ge=0, le=10**9)]
    why: Annotated[str, Field(max_length=400)] = ""


class Written(Shape):
    """It is kept, as this revision."""

    revision: int


class BothVersions(Shape):
    """Somebody else saved first: nothing was kept. Write again on top of ``revision``."""

    what: str
    revision: int
    mine: Any
    theirs: Any
    by: str


class Tick(Shape):
    """A hole of the hole list is done, or is not."""

    hole: Annotated[int, Field(ge=1, le=10**6)]
    done: bool
    code: Annotated[str, Field(max_length=20)]


class AtWork(Shape):
    """It is being worked out: ask again in a moment."""

    says: str
    share: float


class PaperShown(Shape):
    """A paper that can be had."""

    name: str
    drum: str
    says: str
    media_type: str


class Papers(Shape):
    """The papers of a job."""

    papers: list[PaperShown]
