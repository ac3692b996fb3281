"""What has a form of its own, in the order of the work."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Any, Final, Literal, TypeAlias

from pydantic import BaseModel, create_model

from counterhoop.fittings.kinds import AnyEntry
from counterhoop.shell.survey_file import models_job as job
from counterhoop.shell.survey_file import models_readings as readings
from counterhoop.shell.survey_file.field import Amount, Name, Time
from counterhoop.shell.survey_file.models_hole import (
    FittingWritten,
    InsideWritten,
    MarkWritten,
    RowWritten,
    SingleHole,
)
from counterhoop.shell.survey_file.models_tuning import (
    HoopHeightsWritten,
    KitWritten,
    TuningWritten,
    TurnWritten,
)
from counterhoop.shell.survey_file.models_wish import FinishPlanWritten, WishWritten
from counterhoop.shell.survey_file.models_wrap import WrapWritten
from counterhoop.sources import load_table
from counterhoop.web.forms.shapes import Named, Shape, shape_of

Lies: TypeAlias = Literal["fields", "table", "list", "ends", "named"]

_PACKAGE = "counterhoop.web.forms"
_MODELS: dict[str, Any] = {
    model.__name__: model
    for model in (
        *(job.DrumWritten, job.FinishWritten, job.RingWritten, job.SeamWritten, job.LineWritten),
        *(job.BedWritten, job.HoopsWritten, job.JobWritten, job.MatchWritten, job.ApprovalWritten),
        *(readings.AirWritten, readings.RoundWritten, readings.EdgeWritten, readings.FitWritten),
        *(readings.ThreadWritten, RowWritten, FittingWritten, SingleHole, MarkWritten),
        *(InsideWritten, FinishPlanWritten, WrapWritten),
        *(TuningWritten, TurnWritten, HoopHeightsWritten, KitWritten),
    )
} | {
    "Wish": WishWritten,
    "Stock": dict[Name, job.Pieces],
    "Rules": dict[Name, job.RuleFigure],
    "Prices": dict[Name, Amount],
    "Minutes": dict[Name, Time],
    "Cure": dict[Name, Time],
    "BookEntry": AnyEntry,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Thing:
    """One thing that a form is for.

    Attributes
    ----------
    name, title, one, says : str
        What it is called, the heading of its form, how it is spoken of, how to read it.
    model : str
        Name of the model that it is written by.
    document : str
        Kind of the document that it stands in.
    place : str
        The name in that document's body; nothing when it is the body itself.
    lies : Lies
        "fields" are some fields of the body, "table" a table, "list" one of a list, "ends" one of
        both ends, "named" a table under a name of the person's own.
    only : tuple of str
        The fields that are this thing's, with dots; empty for all of its model.
    first : tuple of str
        The fields that are seen at once; empty for those that must be there.
    short : bool
        Whether other ways to give a reading are left to the longer form.
    words : str
        Table of words for its fields.
    """

    name: str
    title: str
    one: str
    says: str
    model: str
    document: str
    lies: Lies
    place: str = ""
    only: tuple[str, ...] = ()
    first: tuple[str, ...] = ()
    short: bool = False
    words: str = "words.toml"

    @property
    def shape(self) -> Shape:
        """The shape of everything that its model may say."""
        return _shape(self.model)

    @property
    def wrapper(self) -> type[BaseModel]:
        """A model of one field, ``item``, that holds such a thing."""
        return _wrapper(self.model)

    @property
    def bare(self) -> bool:
        """Tell whether it is nothing but names of the person's own, each with a value."""
        return isinstance(self.shape, Named)


@cache
def _wrapper(model: str) -> type[BaseModel]:
    made: type[BaseModel] = create_model("One", item=(_MODELS[model], ...))
    return made


@cache
def _shape(model: str) -> Shape:
    schema = _wrapper(model).model_json_schema(by_alias=True)
    return shape_of(schema["properties"]["item"], defs=schema.get("$defs", {}))


def _things() -> dict[str, Thing]:
    things = {}
    for row in load_table(_PACKAGE, "things.toml"):
        if "name" in row.values:
            values: dict[str, Any] = {
                key: tuple(held) if isinstance(held, list) else held
                for key, held in row.values.items()
            }
            things[values["name"]] = Thing(**values)
    return things


THINGS: Final = _things()
"""Every thing by its name, in the order of the work."""


@dataclass(frozen=True, slots=True, kw_only=True)
class InnerTable:
    """How a table within a thing is shown: its fields that are seen, what one of a list is.

    ``called`` names one of a list by what stands in it ("Lug {lug}").
    """

    first: tuple[str, ...] = ()
    one: str = ""
    called: str = ""

    def title(self, held: object) -> str:
        """Return what one of a list is called, or nothing when it does not say so itself.

        Examples
        --------
        >>> InnerTable(called="Lug {lug}").title({"lug": 5})
        'Lug 5'
        """
        values = held if isinstance(held, dict) else {}
        try:
            return self.called.format_map(values)
        except KeyError:
            return ""


@cache
def inner_table(model: str) -> InnerTable:
    """Return how a table within a thing is shown."""
    for row in load_table(_PACKAGE, "things.toml"):
        if row.values.get("of") == model:
            return InnerTable(
                first=tuple(row.values.get("first", ())),
                one=row.values.get("one", ""),
                called=row.values.get("called", ""),
            )
    return InnerTable()
