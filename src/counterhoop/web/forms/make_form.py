"""The form of one thing: what it asks, with what stands there so far."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from counterhoop.errors import BadInput
from counterhoop.web.forms.ask import Ask
from counterhoop.web.forms.faults_at import with_faults
from counterhoop.web.forms.fields import Field, Form, Item
from counterhoop.web.forms.inputs import Inputs
from counterhoop.web.forms.names import input_id
from counterhoop.web.forms.read_form import NAME
from counterhoop.web.forms.shapes import ByWord, Named, Part, Several, Shape, Table
from counterhoop.web.forms.things import THINGS, Thing
from counterhoop.web.forms.words import Units, words_in


def make_form(
    thing: str,
    item: object,
    *,
    ident: str = "",
    units: Units = "mm",
    faults: Iterable[BadInput] = (),
    offers: Mapping[str, Sequence[str]] | None = None,
    name: str = "",
    title: str = "",
) -> Form:
    """Return the form of a thing.

    Parameters
    ----------
    thing : str
        A name of ``THINGS``.
    item : object
        What is written so far, as it is kept; anything may be missing or wrong.
    ident : str
        Id of the form, its own on the page; the thing's name when left out.
    units : "mm" or "in"
        What the examples are written in.
    faults : iterable of BadInput
        Their ``where`` a path within the item ("near[2]").
    offers : Mapping of str to sequence of str
        Names to choose from while typing, by list.
    name : str
        The name under which the thing is kept, where it has one.
    title : str
        Heading, instead of the thing's own.

    Examples
    --------
    >>> form = make_form("ring", {"end": "batter", "wide": "1 in"}, units="in")
    >>> [(field.name, field.value) for field in form.fields]
    [('end', 'batter'), ('wide', '1 in'), ('thick', '')]
    """
    what = THINGS[thing]
    ident = ident or thing.replace(" ", "-")
    inputs = Inputs(ident=ident, units=units)
    ask = Ask(inputs=inputs, words=words_in(what.words), short=what.short)
    parts, more = _asked(what, item, ask=ask)
    if what.lies == "named":
        parts = (_name_field(what, name, ident=ident), *parts)
    form = Form(
        thing=thing, id=ident, title=title or what.title, says=what.says, parts=parts, more=more
    )
    wanted = {field.offers for field in form.fields if field.offers}
    lists = tuple((key, tuple(names)) for key, names in (offers or {}).items() if key in wanted)
    return with_faults(form, faults, offers=lists)


def _asked(what: Thing, item: object, *, ask: Ask) -> tuple[tuple[Item, ...], tuple[Item, ...]]:
    shape = what.shape
    match shape:
        case Named():
            words = ask.words[what.model, what.place]
            return (ask.item((), shape, item, words=words),), ()
        case ByWord():
            return ask.by_word(shape, item)
        case Table() if what.only:
            return _chosen(what, shape, item, ask=ask)
        case Table():
            return ask.table(shape, item, first=what.first)
    raise TypeError(f"no form for {what.name}")


def _chosen(
    what: Thing, table: Table, item: object, *, ask: Ask
) -> tuple[tuple[Item, ...], tuple[Item, ...]]:
    """Return the inputs of some fields of a table, also of those deeper in it."""
    held = item if isinstance(item, dict) else {}
    asked = {name: _at(name, table, held, ask=ask) for name in what.only}
    strange = () if what.short else ask.strange(held, known={p.name for p in table.parts}, path=())
    seen = tuple(asked[name] for name in what.first)
    return (*seen, *strange), tuple(one for name, one in asked.items() if name not in what.first)


def _at(name: str, table: Table, held: Mapping[str, Any], *, ask: Ask) -> Item:
    path: tuple[str | int, ...] = ()
    here: Shape = table
    *way, last = name.split(".")
    value: object = held
    for step in way:
        key: str | int = int(step) if step.isdigit() else step
        match here:
            case Table():
                here = _part(here, step).shape
                value = value.get(key) if isinstance(value, dict) else None
            case Several():
                here = here.of
                place = int(step)
                value = value[place] if isinstance(value, list) and place < len(value) else None
        path = (*path, key)
    if not isinstance(here, Table):
        raise TypeError(f"{name} is no field")
    inner = value if isinstance(value, dict) else {}
    return ask.part(_part(here, last), inner, model=here.model, path=path)


def _part(table: Table, name: str) -> Part:
    part = table.named(name)
    if part is None:
        raise TypeError(f"{table.model} has no {name}")
    return part


def _name_field(what: Thing, name: str, *, ident: str) -> Field:
    return Field(
        name=NAME,
        id=input_id(ident, ("name",)),
        label="What you call it",
        help=f"A name of your own for {what.one}, such as green ripple.",
        help_id=f"{ident}-name-help",
        value=name,
        needed=True,
    )
