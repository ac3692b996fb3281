"""The workshop's own book and figures: what serves, what is left out, what a job is told of it.

Truth: worked by hand; a slip in the drawer must stop no job, and must not let other figures in.
"""

from __future__ import annotations

import tomllib
from dataclasses import replace

import pytest
from empty_workshop import DEMO

from counterhoop.bench.folders.folder import drawer, kept_job
from counterhoop.bench.folders.history import choose_version
from counterhoop.bench.folders.kinds import BOOK, PRINTER, RULES, WISH
from counterhoop.bench.folders.open_folder import add_drum, open_folder
from counterhoop.bench.folders.own_book import own_book
from counterhoop.bench.folders.own_figures import own_figures
from counterhoop.bench.folders.read_so_far import read_so_far
from counterhoop.bench.folders.source import to_plan, workshop_printing
from counterhoop.bench.folders.write_down import Change, write_down
from counterhoop.bench.folders.write_own_book import put_entry_away, take_entry_out, write_entry
from counterhoop.bench.folders.write_own_figures import write_figures
from counterhoop.bench.folders.write_printer import write_printer
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput, CannotDo
from counterhoop.store.pointer import NOTHING
from counterhoop.store.save import Conflict, Saved

BY = "window bench"
SHELL = {"circumference": "951 mm", "depth": "203 mm", "wall": "5 mm"}
ROW = {
    "head": "batter", "lugs": 6, "fitting": "Quennick pin lug", "first": "30 deg",
    "near": ["37 mm", "79 mm"], "hole": "6 mm",
}  # fmt: skip
LUG = {
    "name": "Quennick pin lug", "kind": "lug", "source": "measured, caliper, two of them",
    "base": {"shape": "rounded", "width": "22 mm", "height": "56 mm", "corner": "11 mm"},
    "holes": [{"down": "-21 mm", "hole": "6 mm", "screw": "4.8 mm"},
              {"down": "21 mm", "hole": "6 mm", "screw": "4.8 mm"}],
    "reach": "21 mm", "mouth": "-28 mm", "rod_line": "10 mm", "free_depth": "28 mm",
    "thread": "12-24",
}  # fmt: skip
NO_WIDTH = {**LUG, "base": {"shape": "disc", "diameter": "22"}}


def entry(shop: Workshop, item: object, at: int | None = None) -> None:
    number = drawer(shop)[BOOK].number if BOOK in drawer(shop) else 0
    assert isinstance(write_entry(shop, at, item, based_on=number, by=BY), Saved)


def figure(shop: Workshop, table: str, name: str, value: object) -> None:
    number = drawer(shop)[RULES].number if RULES in drawer(shop) else 0
    done = write_figures(shop, {(table, name): value}, based_on=number, by=BY)
    assert isinstance(done, Saved)


def tom(shop: Workshop, **rows: object) -> str:
    job = open_folder(shop, job={"number": "30-001", "client": "Hallmere"}, by=BY)
    add_drum(shop, job, name="tom", survey={**SHELL, **rows}, by=BY)
    return job


def read(shop: Workshop, job: str):
    kept = kept_job(shop, job)
    return read_so_far(kept, kept.drums[0], shop=drawer(shop))


# --- the book ----------------------------------------------------------------------------------


def test_an_own_entry_serves_jobs_and_its_slip_stops_only_those_that_name_it(shop: Workshop):
    names_it, other = tom(shop, rows=[ROW]), tom(shop)
    assert not read(shop, names_it).whole
    entry(shop, LUG)
    assert read(shop, names_it).whole
    entry(shop, NO_WIDTH, at=0)
    (fault,) = read(shop, names_it).faults
    assert fault.where == "rows[1].fitting"
    assert "your own book takes this one out" in str(fault)
    assert read(shop, other).whole
    assert to_plan(kept_job(shop, other), shop=drawer(shop)).source is not None
    (unread,) = own_book(drawer(shop)).unread
    assert unread.fault is not None
    assert unread.fault.where == "base.diameter"


def test_half_an_entry_over_a_packaged_one_lets_no_packaged_figure_in(shop: Workshop):
    """Who writes an own one says that the packaged one is not the part in hand."""
    job = tom(shop, rows=[{**ROW, "fitting": "Corvane round lug"}])
    assert read(shop, job).whole
    entry(shop, {**NO_WIDTH, "name": "corvane  round lug"})
    assert not read(shop, job).whole
    entry(shop, {**LUG, "name": "Corvane round lug"}, at=0)
    opened = read(shop, job).opened
    assert opened is not None
    assert opened.shop.book.find("Corvane round lug").rod_line_mm == 10.0


@pytest.mark.parametrize(
    "odd", [{}, "a lug", 7, {"name": "x", "kind": None}, {"name": 7}, {"name": "x", "kind": "lug"}]
)
def test_whatever_stands_in_the_book_the_rest_serves(shop: Workshop, odd: object):
    write_down(shop, None, Change(kind=BOOK, value={"fitting": [odd, LUG]}, based_on=0), by=BY)
    assert read(shop, tom(shop, rows=[ROW])).whole
    assert [one.at for one in own_book(drawer(shop)).unread] == [0]


def test_of_two_with_one_name_the_first_serves(shop: Workshop):
    entry(shop, LUG)
    entry(shop, {**LUG, "name": "quennick PIN lug", "rod_line": "12 mm"})
    opened = read(shop, tom(shop, rows=[ROW])).opened
    assert opened is not None
    assert opened.shop.book.find("Quennick pin lug").rod_line_mm == 10.0
    (second,) = own_book(drawer(shop)).unread
    assert "two entries of this name" in str(second.fault)


def test_put_away_and_out_again_but_not_while_a_job_names_it(shop: Workshop):
    entry(shop, LUG)
    entry(shop, {**LUG, "name": "another"})
    tom(shop, rows=[ROW])
    with pytest.raises(CannotDo, match=r"30-001, Hallmere"):
        put_entry_away(shop, 0, based_on=2, by=BY)
    with pytest.raises(CannotDo, match="stands in a job"):
        write_entry(shop, 0, {**LUG, "name": "called otherwise"}, based_on=2, by=BY)
    assert isinstance(put_entry_away(shop, 1, based_on=2, by=BY), Saved)
    assert [one.name for one in own_book(drawer(shop)).entries] == ["Quennick pin lug"]
    assert isinstance(take_entry_out(shop, 0, based_on=3, by=BY), Saved)
    assert [one.name for one in own_book(drawer(shop)).entries] == ["Quennick pin lug", "another"]


def test_two_who_write_different_entries_both_get_through_one_entry_is_asked(shop: Workshop):
    entry(shop, LUG)
    entry(shop, {**LUG, "name": "another"})
    assert isinstance(write_entry(shop, 0, {**LUG, "swivel": True}, based_on=2, by="a"), Saved)
    second = {**LUG, "name": "another", "swivel": True}
    assert isinstance(write_entry(shop, 1, second, based_on=2, by="b"), Conflict)
    assert isinstance(write_entry(shop, 1, second, based_on=3, by="b"), Saved)


# --- the figures -------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("table", "name", "value", "says"),
    [
        ("rules", "web", "9", "no unit"),
        ("rules", "webb", "9 mm", "no such rule"),
        ("minutes", "plug a hole", "9", "no unit"),
        ("prices", "Corvane round lug", "6 EUR", "no price of an hour"),
        ("prices", "no such lug", "6 GBP", "no such fitting"),
        ("stock", "Corvane round lug", "nine", "number of pieces"),
    ],
)
def test_a_figure_that_cannot_be_read_is_refused_and_nothing_is_kept(
    shop: Workshop, table: str, name: str, value: str, says: str
):
    with pytest.raises(BadInput, match=says):
        figure(shop, table, name, value)
    assert RULES not in drawer(shop)


def test_stock_of_a_fitting_that_is_gone_is_left_out_and_said(shop: Workshop):
    entry(shop, LUG)
    figure(shop, "stock", "Quennick pin lug", 6)
    figure(shop, "rules", "web", "9 mm")
    put_entry_away(shop, 0, based_on=1, by=BY)
    found = own_figures(drawer(shop))
    assert found.table == {"rules": {"web": "9 mm"}}
    assert ["no such fitting" in str(one) for one in found.faults] == [True]
    opened = read(shop, tom(shop)).opened
    assert opened is not None
    assert opened.job.rules.web_mm == 9.0
    # What was wrong before does not keep one from writing something else.
    figure(shop, "rules", "edge", "14 mm")
    figure(shop, "rules", "web", NOTHING)
    assert drawer(shop)[RULES].table["rules"] == {"edge": "14 mm"}


def test_a_rule_of_ones_own_makes_a_finding_in_the_plan_of_a_job(shop: Workshop):
    """The upper holes of a lug lie some 35 mm below the edge, those that are drilled too."""
    tables = tomllib.loads(DEMO.decode())
    small = tables["drums"]["small tom"]
    job = open_folder(shop, job={"number": "30-001"}, by=BY)
    wish = Change(kind=WISH, pointer="/wish", value=small.pop("wish"), based_on=0)
    drum = {k: v for k, v in small.items() if k not in ("finish_plan", "chosen", "tuning")}
    wish = replace(wish, name=add_drum(shop, job, name="small tom", survey=drum, by=BY))
    write_down(shop, job, wish, by=BY)

    def too_near() -> set[str]:
        source = to_plan(kept_job(shop, job), shop=drawer(shop)).source
        assert source is not None
        plan = shop.works.plan(source).value
        scheme = plan.drum("small tom").ranked.every[0]
        return {f.says for f in scheme.findings if f.rule == "edge_mm"}

    assert too_near() == set()
    figure(shop, "rules", "edge", "60 mm")
    assert too_near()
    figure(shop, "rules", "edge", NOTHING)
    assert too_near() == set()


# --- the printer -------------------------------------------------------------------------------


def test_what_the_printer_does_is_kept_as_typed_and_serves_the_papers(shop: Workshop):
    typed = {"paper": "A3", "short": "179,5 mm", "long": "249.2 mm", "thickness": "0.1 mm"}
    write_printer(shop, **typed, called="the grey one", based_on=0, by=BY)
    printing = workshop_printing(shop)
    assert printing.paper == "A3"
    assert printing.correction.short_factor == pytest.approx(180 / 179.5, rel=1e-12)
    assert printing.correction.long_factor == pytest.approx(250 / 249.2, rel=1e-12)
    with pytest.raises(BadInput, match="more than 2 % off"):
        write_printer(shop, **(typed | {"long": "240 mm"}), called="", based_on=1, by=BY)
    with pytest.raises(BadInput, match="both bars"):
        write_printer(shop, **(typed | {"long": ""}), called="", based_on=1, by=BY)
    kept = drawer(shop)[PRINTER]
    assert kept.table["measured"] == "179,5 mm; 249.2 mm"
    write_printer(shop, paper="A4", short="", long="", thickness="", called="", based_on=1, by=BY)
    assert workshop_printing(shop).correction.short_factor == 1.0
    choose_version(shop, kept.document_id, number=1, based_on=2, by=BY)
    assert workshop_printing(shop).paper == "A3"
