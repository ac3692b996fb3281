"""What fits some holes of a drum in a survey file: by the book, and by an open shelf."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import get_args

from counterhoop.bench.long_work.parts_tasks import PlaceTold, what_fits
from counterhoop.bench.open_job import open_job
from counterhoop.bench.parts.fits_shelf import Offered, measured_pieces, offered
from counterhoop.bench.parts.place_asked import PlaceAsked
from counterhoop.bench.plan_job import Progress
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput
from counterhoop.fittings.entry import Kind
from counterhoop.parts.places.match import Turn
from counterhoop.parts.places.serves import How
from counterhoop.quantities.length import parse_length
from counterhoop.quantities.nearest import did_you_mean


@dataclass(frozen=True, slots=True, kw_only=True)
class FitsTold:
    """What serves at a place, in the order in which it is offered; what does not, last."""

    told: PlaceTold
    offered: tuple[Offered, ...]


def asked_of(
    *, holes: Sequence[int], kinds: Sequence[str], turn: str, mirror: bool, takes: str
) -> PlaceAsked:
    """Return what is asked of a place, from words.

    Raises
    ------
    BadInput
        For a kind or a turn that there is none of, and an arm that cannot be read.
    """
    turns: tuple[Turn, ...] = get_args(Turn)
    found = next((one for one in turns if one == turn.strip().casefold()), None)
    if found is None:
        wanted = ", ".join(f'"{one}"' for one in turns)
        raise BadInput("not a way to stand", where="turn", given=turn, wanted=wanted)
    takes_mm = None
    if takes:
        try:
            takes_mm = parse_length(takes).mm
        except BadInput as fault:
            raise fault.at("takes") from None
    return PlaceAsked(
        holes=tuple(holes),
        kinds=tuple(_kind(word) for word in kinds),
        turn=found,
        mirror=mirror,
        takes_mm=takes_mm,
    )


def ask_fits(
    survey: Path, drum: str, asked: PlaceAsked, *, shop: Workshop | None = None,
    progress: Progress = lambda _says, _share: None,
) -> FitsTold:  # fmt: skip
    """Hold book and shelf against a place of a drum in a survey file.

    Parameters
    ----------
    drum : str
        Its name, whatever its capitals.
    shop : Workshop, optional
        Whose shelf is looked at too: its own pieces and those of the job's client.

    Raises
    ------
    BadInput
        For a file, a drum or a place that cannot be used.
    """
    opened = open_job(survey)
    names = [one.drum.key for one in opened.job.drums]
    key = next((one for one in names if one.casefold() == drum.strip().casefold()), drum)
    client = " ".join(opened.job.client.split())
    measured = measured_pieces(shop, client=client) if shop else ()
    told = what_fits(opened, key, asked, measured, progress=progress)
    found: list[Offered] = []
    for how in How:
        serves = [one for one in told.serves if one.how is how]
        if shop and how is not How.NO:
            found += offered(shop, serves, client=client, measured=measured)
        else:
            found += [Offered(serves=one) for one in serves]
    return FitsTold(told=told, offered=tuple(found))


def _kind(word: str) -> Kind:
    plain = " ".join(word.split()).casefold()
    for kind in Kind:
        if kind.value.casefold() == plain:
            return kind
    raise BadInput(
        "no such kind of fitting", where="kind", given=word, wanted="a kind of the fittings book",
        step=did_you_mean(word, [kind.value for kind in Kind]),
    )  # fmt: skip
