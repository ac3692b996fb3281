"""The scheme that was chosen for a drum, as a person writes it."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from counterhoop.shell.survey_file.field import Offset, Written, text_field
from counterhoop.shell.survey_file.models_hole import Short


class RowMovedWritten(Written):
    """A row moved by hand from where its scheme puts it.

    ``row`` is "batter", "resonant", "both" for long lugs, or the label of a single fitting;
    ``right`` runs along the surface that is laid out, ``down`` toward the resonant edge.
    """

    row: Short
    right: Offset | None = None
    down: Offset | None = None


class ChosenWritten(Written):
    """The chosen scheme, by its code; ``title`` tells two schemes of one code apart."""

    scheme: Short
    title: Annotated[str, text_field(most=400, empty=True)] = ""
    moved: Annotated[tuple[RowMovedWritten, ...], Field(max_length=60)] = ()
