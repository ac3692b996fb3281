"""A small tom of the demonstration, worked on and ready to be handed over: all of it invented."""

from __future__ import annotations

import io
import tomllib
from importlib.resources import files
from typing import Any

from priced_job import BY, OnTheBench, saved

from counterhoop.bench.folders.album import tell_photographs, words_of
from counterhoop.bench.folders.decide import choose
from counterhoop.bench.folders.kinds import CHOICE, FACTS, HANDOVER, PHOTOGRAPHS, TICKS
from counterhoop.bench.folders.photographs import put_photograph_in
from counterhoop.bench.folders.survey_file import take_in
from counterhoop.bench.folders.write_down import Change, write_down
from counterhoop.bench.record.record_of import DrumRecord, record_of
from counterhoop.bench.workshop import Workshop
from counterhoop.store.body import Json

DEMO = files("counterhoop.bench").joinpath("demonstration")
DAY = "2030-05-13"
VIEWS = ("outside 0", "batter edge", "resonant edge")


def tom_on_the_bench(shop: Workshop) -> OnTheBench:
    """Take the small tom in, alone."""
    text = DEMO.joinpath("survey.toml").read_text("utf-8")
    head = text[: text.index("[[match]]")]
    stock = text[text.index("[stock]") : text.index("[[approval]]")]
    its = text[text.index('[drums."small tom"]') : text.index('[drums."large tom"]')]
    survey = f"{head}{stock}{its}".encode()
    job = take_in(shop, survey, name="survey.toml", book_of=lambda _name: b"", by=BY)
    bench = OnTheBench(shop=shop, id=job)
    facts = tomllib.loads(DEMO.joinpath("folder.toml").read_text("utf-8"))["facts"]["small tom"]
    write(bench, FACTS, facts, drum=bench.drum.id)
    return bench


def write(bench: OnTheBench, kind: str, value: Json, *, drum: str = "") -> None:
    """Write a document anew."""
    held = (bench.job.drum(drum) if drum else bench.job).kept(kind).number
    change = Change(kind=kind, name=drum, value=value, based_on=held)
    saved(write_down(bench.shop, bench.id, change, by=BY))


def take_first(bench: OnTheBench) -> tuple[str, list[int]]:
    """Take its first scheme; return its code and the numbers of its holes."""
    scheme = bench.plan().drums[0].chosen
    assert scheme is not None
    saved(
        choose(
            bench.shop, bench.id, bench.drum.id, code=scheme.code, title=scheme.title, moved=[],
            based_on=bench.drum.kept(CHOICE).number, by=BY,
        )
    )  # fmt: skip
    return scheme.code, [plan.number for plan in scheme.layout.holes]


def tick(bench: OnTheBench, code: str, holes: list[int]) -> None:
    """Tick holes."""
    done: dict[str, Json] = {
        str(number): {"when": "2030-05-12T10:00:00+00:00", "by": BY} for number in holes
    }
    write(bench, TICKS, {"code": code, "done": done}, drum=bench.drum.id)


def hand_over(bench: OnTheBench, **more: Json) -> None:
    """Write the hand-over."""
    said: dict[str, Json] = {
        "found": "Rust on every rod.\nOther tom: nothing.", "done": "Rods cleaned and oiled.",
        "not_known": "Who painted the inside.", "bag": {"screws": True, "says": "The old wrap."},
        "warranty": "We put right what we did, for two years.", "to": "Nell", "handed_over": DAY,
    }  # fmt: skip
    write(bench, HANDOVER, {**said, **more})


def photographed(bench: OnTheBench, *, after: tuple[str, ...] = VIEWS[:2]) -> dict[str, bytes]:
    """Put photographs in, before of all views and after of some; return them by place and time."""
    told: dict[str, Json] = {}
    sent = {}
    for view in VIEWS:
        for late in (False, True):
            if late and view not in after:
                continue
            sent[f"{view} {late}"] = jpeg = picture(40 * VIEWS.index(view) + 100 * late)
            made = put_photograph_in(
                bench.shop, bench.id, drum=bench.drum.id, name="a.jpg", pieces=[jpeg], by=BY
            )
            told[made] = words_of(view=view, drum=bench.drum.id, after=late)
    number = bench.job.kept(PHOTOGRAPHS).number
    saved(tell_photographs(bench.shop, bench.id, told, based_on=number, by=BY))
    return sent


def picture(tint: int) -> bytes:
    """Return a small photograph of one colour."""
    from PIL import Image

    out = io.BytesIO()
    Image.new("RGB", (120, 90), (tint, 120, 200 - tint)).save(out, "JPEG")
    return out.getvalue()


def record(bench: OnTheBench) -> DrumRecord:
    """Return the record of its one drum."""
    (one,) = record_of(bench.shop, bench.job, bench.plan())
    return one


def said(one: DrumRecord) -> dict[str, Any]:
    """Return what a record says, by its heading."""
    made = one.record
    return {name: getattr(made, name) for name in ("found", "story", "bag", "not_known", "sure")}
