"""A piece by the number on its bag, a job or drum by what one calls it."""

from __future__ import annotations

from counterhoop.bench.shelf.for_whom import ForWhom, for_whom
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.quantities.nearest import did_you_mean
from counterhoop.store.shelf.look_up import Kept, piece_by_number


def piece_numbered(shop: Workshop, number: str) -> Kept:
    """Return the piece with this number on its bag.

    Raises
    ------
    BadInput
        When there is none.
    """
    with shop.store.reading() as connection:
        found = piece_by_number(connection, number.strip())
    if found is None:
        raise BadInput(
            "no piece has this number", where="shelf", given=number,
            wanted="the number on its bag, as shelf find shows it",
        )  # fmt: skip
    return found


def whom_named(shop: Workshop, name: str) -> ForWhom:
    """Return the drum or job that is called so, "job 214, small tom".

    Raises
    ------
    BadInput
        When none is, or more than one.
    """
    every = for_whom(shop)
    plain = " ".join(name.split()).casefold()
    found = [one for one in every if one.says.casefold() == plain] or [
        one for one in every if plain in one.says.casefold()
    ]
    if len(found) == 1:
        return found[0]
    says = [one.says for one in found or every]
    raise BadInput(
        "more than one is called so" if found else "no job or drum is called so", where="for",
        given=name, wanted=f'such as "{says[0]}"' if says else "an open job",
        step=did_you_mean(name, says),
    )  # fmt: skip
