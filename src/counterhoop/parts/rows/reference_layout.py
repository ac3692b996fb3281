"""The columns of the sheets in which a workshop keeps what was in use when.

One sheet for forms of a feature, one for dated serial numbers. A row's values have the words of
the reference's own file, so that whoever reads that file can take them.
"""

from __future__ import annotations

from functools import cache
from typing import cast

from counterhoop.errors import BadInput
from counterhoop.parts.rows.cell_readers import (
    read_facts,
    read_figure,
    read_name,
    read_size,
    read_words,
    read_year,
)
from counterhoop.parts.rows.csv_cell import Cell
from counterhoop.parts.rows.layout import Field, Hint, Layout
from counterhoop.quantities.length import Length


def _figure(value: object) -> Cell:
    """Return a figure to ten digits, a whole one without a point."""
    figure = float(f"{cast(float, value):.10g}")
    return int(figure) if figure.is_integer() else figure


def _listed(value: object) -> Cell:
    return "; ".join(str(each) for each in cast("tuple[object, ...]", value))


def read_sizes(text: str, hint: Hint) -> tuple[str, ...]:
    """Return lengths as they were written, each with its unit.

    Raises
    ------
    BadInput
        One of them cannot be read.

    Examples
    --------
    >>> read_sizes("14; 16", Hint(unit="in"))
    ('14 in', '16 in')
    """
    return tuple(read_size(part, hint).as_written for part in read_facts(text, hint))


def _same_sizes(some: object, others: object) -> bool:
    def sizes(texts: object) -> list[Length]:
        given = cast("tuple[str, ...]", texts)
        return sorted((read_size(one, Hint()) for one in given), key=lambda each: each.mm)

    return sizes(some) == sizes(others)


def read_share_of_use(text: str, hint: Hint) -> float:
    """Return how usual something was against the others, above nothing.

    Raises
    ------
    BadInput
        Nothing, or a text.
    """
    share = read_figure(text, hint)
    if not 0.01 <= share <= 100.0:
        raise BadInput(
            "no share of what was in use", given=text, wanted="1, or 2 for twice as usual"
        )
    return share


def _years(*, begins: tuple[str, ...], ends: tuple[str, ...]) -> tuple[Field, ...]:
    return (
        Field(name="from", words=begins, read=read_year, write=_figure),
        Field(name="from_give", words=("from give or take",), read=read_figure, write=_figure),
        Field(name="to", words=ends, read=read_year, write=_figure),
        Field(name="to_give", words=("to give or take",), read=read_figure, write=_figure),
    )


@cache
def values_layout() -> Layout:
    """Return the columns of forms of a feature, each in use from about a year to about a year."""
    return Layout(
        name="form of a feature",
        key=("family", "feature", "name"),
        need=("source",),
        fields=(
            Field(name="family", words=("maker",), read=read_name),
            Field(name="feature", words=("what is seen",), read=read_name),
            Field(name="name", words=("value", "form"), read=read_name),
            *_years(begins=("first year", "begins"), ends=("last year", "until", "ends")),
            Field(name="follows", words=("took over from",), read=read_name),
            Field(name="share", words=("how usual",), read=read_share_of_use, write=_figure),
            Field(name="lines", words=("line", "lines of drums"), read=read_facts, write=_listed),
            Field(
                name="diameters",
                words=("sizes", "diameter"),
                read=read_sizes,
                write=_listed,
                units=("in", "mm", "cm"),
                same=_same_sizes,
            ),
            Field(name="source", words=("where from", "seen in"), read=read_words),
        ),
    )


@cache
def serials_layout() -> Layout:
    """Return the columns of serial numbers whose year is known by other means."""
    return Layout(
        name="serial number",
        key=("family", "number"),
        need=("year", "source"),
        fields=(
            Field(name="family", words=("maker",), read=read_name),
            Field(name="number", words=("serial", "serial number"), read=read_name),
            Field(name="year", words=("made in",), read=read_year, write=_figure),
            Field(name="give", words=("give or take",), read=read_figure, write=_figure),
            Field(name="source", words=("where from", "seen in"), read=read_words),
        ),
    )
