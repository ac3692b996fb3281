"""The snare's job with a yes to its scheme, kept once and copied for each test."""

from __future__ import annotations

from pathlib import Path

from small_shop import SNARE, Clock

from counterhoop.bench.folders.decide import Yes, approve
from counterhoop.bench.folders.folder import drawer, kept_job
from counterhoop.bench.folders.source import to_plan
from counterhoop.bench.folders.survey_file import take_in
from counterhoop.bench.long_work.answers import Done
from counterhoop.bench.long_work.works import Works
from counterhoop.bench.workshop import Workshop
from counterhoop.store.address import address_of
from counterhoop.store.store import open_store


def keep_snare(data: Path, works: Works, *, yes: bool = False) -> str:
    """Keep the snare in a data folder, with a yes or without; return its job's name."""
    with open_store(address_of(data=data)) as store:
        shop = Workshop(store=store, works=works, now=Clock())
        job = take_in(shop, SNARE, name="survey.toml", book_of=lambda _: b"", by="window bench")
        if yes:
            say_yes(shop, job)
        return job


def say_yes(shop: Workshop, job: str) -> None:
    """Write down a yes to what the snare's scheme changes for good."""
    kept = kept_job(shop, job)
    source = to_plan(kept, shop=drawer(shop)).source
    assert source is not None
    answer = shop.works.plan(source)
    assert isinstance(answer, Done)
    scheme = answer.value.drums[0].chosen
    assert scheme is not None
    yes = Yes(who="Nell", when="2030-05-14", how="by letter")
    approve(shop, job, kept.drums[0], scheme=scheme, shown_code=scheme.code, yes=yes, by="bench")
