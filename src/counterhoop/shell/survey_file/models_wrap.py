"""Wrap at hand or to be bought, as a person writes it."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from counterhoop.shell.survey_file.field import (
    Amount,
    Height,
    Size,
    Time,
    Written,
    one_word_of,
    whole_field,
)
from counterhoop.shell.survey_file.models_hole import Short
from counterhoop.shell.wrap_stock import GLUES


class OffcutWritten(Written):
    """A piece left from earlier work; the pattern runs along its length."""

    name: Short
    length: Size
    width: Size


class WrapWritten(Written):
    """One sort of wrap: its sheet, how it is put on, and this person's pace."""

    thickness: Size
    length: Size
    width: Size
    runs: Annotated[
        Literal["along", "across", "either"], one_word_of("along", "across", "either")
    ] = "along"
    sheets: Annotated[int, whole_field(least=0, most=1000, noun="a number of sheets")] | None = None
    kerf: Height | None = None
    overlap: Height | None = None
    edge_clear: Height | None = None
    price: Amount | None = None
    glue: Annotated[str, one_word_of(*GLUES)] = GLUES[0]
    brushing: Time | None = None
    laying: Time | None = None
    offcuts: Annotated[tuple[OffcutWritten, ...], Field(max_length=100)] = ()
