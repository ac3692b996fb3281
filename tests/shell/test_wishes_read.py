"""Wishes, finish plan, ends, groups and approvals become their records."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from survey_text import drum_of, read, survey

from counterhoop.development.place import Place
from counterhoop.development.surface import Skin
from counterhoop.development.truing import Removal, Truing
from counterhoop.shell.readings import Air
from counterhoop.shell.survey_file.read import read_survey
from counterhoop.shell.wish import (
    BackToFactory,
    FinishPlan,
    KitSnare,
    Move,
    OtherLugs,
    Pattern,
    PutOn,
    SecondHead,
    Shorten,
    TakeOut,
    Wish,
)

EVERYTHING = Path(__file__).parent / "data" / "everything.toml"
BRACKET = (
    '[[drums.tom.fittings]]\nlabel = "bracket"\nfitting = "b"\nalong = "90 deg"\ndown = "2 in"\n'
)


def wish(fields: str, *, drum: str = "") -> Wish:
    text = survey(drum=drum, more=f"{BRACKET}[drums.tom.wish]\n{fields}")
    (found,) = read(text).job.drums[0].wishes
    return found


@pytest.mark.parametrize(
    ("fields", "record"),
    [
        ('want = "other lugs"\nlug = "A"', OtherLugs(lug="A")),
        (
            'want = "other lugs"\nlug = "A"\nheads = "resonant"\nlugs = "8 lugs"',
            OtherLugs(lug="A", heads=("resonant",), count=8),
        ),
        ('want = "back to factory"', BackToFactory()),
        (
            'want = "take out"\nfittings = ["Bracket", "batter lug 2"]\nplate = "P"',
            TakeOut(labels=("bracket", "batter lug 2"), plate="P"),
        ),
        (
            'want = "put on"\nfitting = "B"\nalong = "lug 2"\ndown = "3 in"\nfree_along = "5 mm"',
            PutOn(fitting="B", near=Place(90.0, 76.2), free_along_mm=5.0),
        ),
        (
            'want = "put on"\nfitting = "B"\nlabel = "new"\nreplaces = "bracket"\n'
            'turned = "90 deg"',
            PutOn(fitting="B", label="new", replaces="bracket", turned_deg=90.0),
        ),
        (
            'want = "move"\nfitting = "bracket"\nalong = "10 deg"\ndown = "3 mm"\n'
            'from_edge = "resonant"\nfree_down = "2 mm"',
            Move(label="bracket", near=Place(10.0, 200.0), free_down_mm=2.0),
        ),
        ('want = "shorten"\ndepth = "6 in"', Shorten(depth_mm=152.4)),
        (
            'want = "kit snare"\ndepth = "6 in"\nend = "batter"\nfree = "1 in"\n'
            'lug = "A"\nlugs = 8\nstrainer = "S"\nbutt = "T"',
            KitSnare(
                depth_mm=152.4,
                end="batter",
                free_mm=25.4,
                lug="A",
                count=8,
                strainer="S",
                butt="T",
            ),
        ),
    ],
)
def test_a_wish_becomes_its_record(fields: str, record: Wish) -> None:
    assert wish(fields) == record


def test_a_second_head() -> None:
    plain = wish('want = "second head"')
    assert plain == SecondHead()
    full = wish(
        'want = "second head"\nlug = "A"\nlong_lugs = ["L"]\nhoop = "H"\n'
        'patterns = ["second row turned", "long lugs"]',
    )
    assert full == SecondHead(
        lug="A", long_lugs=("L",), patterns=(Pattern.TURNED, Pattern.LONG_LUGS), hoop="H"
    )


def test_a_missing_fitting_may_be_put_back_where_it_was() -> None:
    fields = '[[drums.tom.wish]]\nwant = "put on"\nfitting = "b"\nlabel = "bracket"'
    text = survey(more=f"{BRACKET}missing = true\n{fields}")
    assert read(text).job.drums[0].wishes == (PutOn(fitting="b", label="bracket"),)


def test_the_finish_plan() -> None:
    assert read(survey()).job.drums[0].finish == FinishPlan()
    plan = '[drums.tom.finish_plan]\nkind = "new wrap"\nthickness = "0.5 mm"\ntrue_batter = "1 mm"'
    assert read(survey(more=plan)).job.drums[0].finish == FinishPlan(
        kind="new wrap", thickness_mm=0.5, truing=Truing(batter=Removal(1.0))
    )


def test_the_open_end_of_a_single_headed_drum_is_not_surveyed_until_it_is_said() -> None:
    assert drum_of(survey(heads=2)).edge("resonant").surveyed
    assert not drum_of(survey()).edge("resonant").surveyed
    said = "edges = { resonant = { there = false, wrap_to_edge = true } }"
    edge = drum_of(survey(drum=said)).edge("resonant")
    assert edge.surveyed
    assert not edge.there
    assert edge.wrap_to_edge


def test_a_wrap_may_be_nitrate_until_it_is_said_that_it_is_not() -> None:
    wrap = 'finish = { kind = "wrap", thickness = "0.5 mm" }'
    assert drum_of(survey(drum=wrap)).finish.maybe_nitrate
    not_so = wrap.replace(" }", ', nitrate = "no" }')
    assert not drum_of(survey(drum=not_so)).finish.maybe_nitrate
    assert not drum_of(survey()).finish.maybe_nitrate


def test_everything_in_the_file_arrives() -> None:
    read_whole = read_survey(EVERYTHING.read_text(), name="everything.toml")
    job = read_whole.job
    assert job.date == dt.date(2026, 11, 2)
    assert (job.units, job.book_files) == ("in", ("own_lugs.toml",))
    assert job.story.startswith("Bought as a pair")
    assert job.match == (("small tom", "large tom"),)
    assert job.stock == (("Tarn lug", 14),)
    (approval,) = job.approvals
    assert (approval.drum, approval.covers, approval.scheme) == ("small tom", "7KQ2", 2)
    assert approval.when == dt.date(2026, 11, 3)
    small, large, side = (wanted.drum for wanted in job.drums)
    assert [len(drum.holes) for drum in (small, large, side)] == [19, 8, 27]
    assert small.edge("batter").ring
    assert [line.kind for line in small.lines] == ["ply seam", "crack", "ring joint"]
    assert small.inside[0].place.down_mm == 80.0
    assert [mark.kind for mark in small.marks] == ["shadow", "imprint", "shadow"]
    # Hand-worked: 203.17 edge to edge, and where it was read the batter edge stood off the plate
    # by 0, by 0.15 (a third of the way from 0.1 to 0.25) and by 0.05.
    assert small.depth_mm == pytest.approx(
        (203.0 + 203.5 + 203.0 + 0.0 + 0.15 + 0.05) / 3.0, abs=1e-3
    )
    assert small.readings.wood == "hard maple"
    assert [side.readings.air, small.readings.air] == [
        Air(temperature_c=pytest.approx(17.78, abs=0.01), humidity_percent=48.0),
        Air(temperature_c=18.0, humidity_percent=55.0),
    ]
    assert side.circumference.skin is Skin.BARE
    assert side.beds[0].deep_mm == 1.5
    assert read_whole.findings == {"small tom": (), "large tom": (), "side drum": ()}
