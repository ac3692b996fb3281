"""What a page says of the photographs of a folder, and what it lets one choose."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from counterhoop.bench.folders.album import Photograph, missing_views
from counterhoop.bench.folders.folder import KeptDrum, KeptJob
from counterhoop.bench.folders.views import VIEWS, WANTED, View, view_says

IN_TURN = "in turn"
"""Instead of a view: the first photograph is of the first view still missing, and so on."""
MOST_SHOWN = 8
WHOLE = KeptDrum(id="", name="the job as a whole")


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """One photograph as a page lists it."""

    id: str
    shows: str
    view_says: str
    after: bool
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class AlbumSheet:
    """The photographs of one drum, or of the job as a whole.

    Attributes
    ----------
    id, name, aside : str
        On the page.
    missing : tuple of str
        Which views are still missing, in sentences.
    pictures : tuple of Shown
        Before the work first, in the order of the views.
    """

    id: str
    name: str
    aside: str
    missing: tuple[str, ...]
    pictures: tuple[Shown, ...]


def shown(found: Iterable[Photograph]) -> tuple[Shown, ...]:
    """Return photographs as a page lists them, before the work first, in the order of the views."""
    order = {view.name: place for place, view in enumerate(VIEWS)}
    ordered = sorted(found, key=lambda one: (one.after, order.get(one.view, len(order))))
    return tuple(
        Shown(
            id=one.id, shows=one.shows, view_says=view_says(one.view), after=one.after,
            says=one.says,
        )
        for one in ordered
    )  # fmt: skip


def of_drum(found: Iterable[Photograph], drum: KeptDrum | None) -> list[Photograph]:
    """Return the photographs of one drum, or those of none."""
    if drum is None:
        return [one for one in found if one.drum is None]
    return [one for one in found if one.drum is not None and one.drum.id == drum.id]


def album_sheets(found: Sequence[Photograph], job: KeptJob) -> list[AlbumSheet]:
    """Return a sheet for each drum that is photographed, and one for what shows no single drum."""
    sheets = []
    for drum in job.drums:
        if not of_drum(found, drum):
            continue
        missing = missing_views(found, drum)
        sheets.append(
            AlbumSheet(
                id=f"drum-{drum.id}",
                name=drum.name,
                aside=f"{len(WANTED) - len(missing)} of {len(WANTED)} views",
                missing=missing_says(found, drum),
                pictures=shown(of_drum(found, drum)),
            )
        )
    # A photograph of a drum that is put away comes back with its drum.
    rest = of_drum(found, None)
    if rest:
        sheets.append(
            AlbumSheet(id="whole", name=WHOLE.name, aside="", missing=(), pictures=shown(rest))
        )
    return sheets


def missing_says(found: Sequence[Photograph], drum: KeptDrum) -> tuple[str, ...]:
    """Return in sentences which views of a drum are still missing, before and after the work."""
    said = []
    before, after = missing_views(found, drum), missing_views(found, drum, after=True)
    if len(before) == len(WANTED):
        said.append(
            "No view yet. Wanted before anything is touched: outside and inside four ways, both "
            "edges, and every stamp or label."
        )
    elif before:
        said.append(f"Still missing: {views_say(before)}.")
    if any(one.after for one in of_drum(found, drum)) and after:
        said.append(f"After the work still missing: {views_say(after)}.")
    return tuple(said)


def missing_in_short(found: Sequence[Photograph], job: KeptJob) -> tuple[str, ...]:
    """Return one sentence on which drums lack views."""
    if not job.drums:
        return ()
    lacking = [(drum, len(missing_views(found, drum))) for drum in job.drums]
    bare = [drum.name for drum, many in lacking if many == len(WANTED)]
    some = [f"{many} of the {drum.name}" for drum, many in lacking if 0 < many < len(WANTED)]
    said = []
    if some:
        said.append(f"Views still missing: {', '.join(some)}.")
    if len(bare) == len(job.drums) > 1:
        said.append("None of the drums is photographed yet.")
    elif bare:
        said.append(f"Not photographed yet: {', '.join(bare)}.")
    return tuple(said) or ("Every view that is wanted is there.",)


def views_say(views: Iterable[View]) -> str:
    """Return views in words, those of one side together.

    Examples
    --------
    >>> views_say([VIEWS[1], VIEWS[3], VIEWS[8]])
    'outside, a quarter along and three quarters along; batter edge'
    """
    sides: dict[str, list[str]] = {}
    for view in views:
        side, _, turn = view.says.partition(", ")
        sides.setdefault(side, []).append(turn)
    return "; ".join(
        f"{side}, {listed(turns)}" if turns[0] else side for side, turns in sides.items()
    )


def drum_choices(job: KeptJob) -> list[tuple[str, str]]:
    """Return what a photograph may show."""
    return [*((drum.id, drum.name) for drum in job.drums), ("", WHOLE.name)]


def view_choices(*, in_turn: bool = False) -> list[tuple[str, str]]:
    """Return the views to choose from; ``in_turn`` where several come at once."""
    first = [(IN_TURN, "the missing views, in turn")] if in_turn else []
    views = [(view.name, view.says) for view in VIEWS]
    return [*first, *views, ("", "not said yet")]


def listed(words: list[str]) -> str:
    """Return words as one says them.

    Examples
    --------
    >>> listed(["the small tom", "the large tom", "the old snare"])
    'the small tom, the large tom and the old snare'
    """
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"
