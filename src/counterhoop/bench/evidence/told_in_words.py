"""Date a drum by words that were typed in one line each: "badge=oval"."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import Path

from counterhoop.bench.evidence.own_reference import laid_over
from counterhoop.bench.open_job import read_bytes
from counterhoop.errors import BadInput
from counterhoop.evidence.dated import Dated, date_drum
from counterhoop.evidence.read_reference import packaged_reference, rows_in
from counterhoop.evidence.reference import UNLISTED, Reference, Value
from counterhoop.evidence.seen import HOW_SURE, Seen
from counterhoop.quantities.nearest import did_you_mean
from counterhoop.quantities.size import parse_size
from counterhoop.shell.survey_file.gate import survey_bytes


def reference_from(path: Path | None) -> Reference:
    """Return the packaged reference, with a file laid over it where one is named.

    Raises
    ------
    BadInput, CannotDo
        A file that cannot be read, or rows in it.
    """
    if path is None:
        return packaged_reference()
    text = survey_bytes(read_bytes(path, what="file of dated features"), name=path.name)
    return laid_over(rows_in(text, name=path.name), name=path.name)[1]


def date_by_words(
    told: Mapping[str, Iterable[str]], reference: Reference, *, family: str, looked_at: int,
    line: str = "", size: str = "", serial: str = "",
) -> Dated:  # fmt: skip
    """Return when a drum was made.

    Parameters
    ----------
    told : mapping of str to iterable of str
        Looks such as "badge=oval", by how sure: "seen", "told", "guessed". A form's first words
        do while no other form begins so; "none of these" is one too.
    reference : Reference
    family, line : str
        By the reference's names.
    looked_at : int
        The year of looking.
    size : str
        "14 in dia x 5.5 in deep", where it is known.
    serial : str
        As it is written on the drum.

    Raises
    ------
    BadInput
        Names the look that cannot be read, and what there is instead.
    """
    lines = {one.name for one in reference.lines_of(family, line=line)}
    across = parse_size(size, where="size").dia.mm if size else None
    forms: dict[str, dict[str, Value]] = {}
    for value in reference.values:
        if value.family == family and (not value.lines or lines & {*value.lines}):
            forms.setdefault(value.feature, {})[value.name] = value
    seen = [
        _seen(text, forms, sure=HOW_SURE[sure]) for sure, texts in told.items() for text in texts
    ]
    return date_drum(
        seen, reference, family=family, line=line, looked_at=looked_at, diameter_mm=across,
        serial=serial,
    )  # fmt: skip


def _seen(text: str, forms: Mapping[str, Mapping[str, Value]], *, sure: float) -> Seen:
    feature, sign, form = (part.strip() for part in text.partition("="))
    if not (feature and sign and form):
        raise BadInput(
            "a look names a feature and its form", where="saw", given=text,
            wanted='them with = between, such as "badge=oval"',
        )  # fmt: skip
    name = _one_of(feature, forms, where="saw")
    return Seen(feature=name, value=_one_of(form, (*forms[name], UNLISTED), where=name), sure=sure)


def _one_of(word: str, names: Iterable[str], *, where: str) -> str:
    """Return the name that a word is, or that alone begins with it."""
    listed = list(names)
    exact = [one for one in listed if one.casefold() == word.casefold()]
    begun = exact or [one for one in listed if one.casefold().startswith(word.casefold())]
    if len(begun) == 1:
        return begun[0]
    raise BadInput(
        "more than one begins so" if begun else "the dated features have no such word",
        where=where, given=word, wanted="one of " + "; ".join(begun or listed),
        step="" if begun else did_you_mean(word, listed),
    )  # fmt: skip
