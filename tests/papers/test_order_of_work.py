"""The order of work and its cautions: common practice, no source, but for the sources named."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from itertools import product

import pytest
from example_jobs import FIGURES, full_scheme

from counterhoop.development.truing import Removal, Truing
from counterhoop.fittings.entry import Fitting, Kind
from counterhoop.papers.bench_sheet import step_rows
from counterhoop.papers.cautions import cautions_for
from counterhoop.papers.facts import Lengths
from counterhoop.papers.order_of_work import (
    PACKAGE,
    Step,
    asked_of,
    needs_of,
    not_checked,
    order_of_work,
)
from counterhoop.scheme.layout import HoopPlan, Layout
from counterhoop.scheme.plan import Scheme, WorkLine
from counterhoop.scheme.price import work_of
from counterhoop.scheme.verdict import Verdict
from counterhoop.shell.drum import Material, OldFinish
from counterhoop.shell.operations import operations
from counterhoop.shell.readings import EndReadings, Readings, RimReadings
from counterhoop.shell.wish import FinishPlan
from counterhoop.sources import load_table

FINISHES = ("stays", "clear lacquer", "paint", "new wrap")
OLD = ("wrap", "lacquer", "paint", "bare")
PAPERS = ("template", "threads")
"""Keys of cautions that belong to a paper and to no step of the work."""
EXTRA = (
    (),
    (("cut an end off", 1), ("make an edge", 1)),
    (("cut a snare bed", 2), ("glue in a ring", 1), ("make an edge", 1)),
)


def scheme_with(finish: str, old: str = "wrap", extra: tuple[tuple[str, int], ...] = ()) -> Scheme:
    plan = FinishPlan(kind=finish)
    scheme = full_scheme(finish=plan)
    drum = replace(scheme.layout.drum, finish=OldFinish(kind=old))
    layout = replace(scheme.layout, drum=drum)
    return replace(scheme, layout=layout, work=work_of(layout, extra=extra, figures=FIGURES))


def steps_of(scheme: Scheme) -> tuple[Step, ...]:
    return order_of_work(scheme, figures=FIGURES, say=Lengths())


def keys(scheme: Scheme) -> list[str]:
    return [step.key for step in steps_of(scheme)]


@pytest.mark.parametrize(("finish", "old", "extra"), list(product(FINISHES, OLD, EXTRA)))
def test_every_priced_minute_stands_in_one_step(
    finish: str, old: str, extra: tuple[tuple[str, int], ...]
) -> None:
    scheme = scheme_with(finish, old, extra)
    steps = steps_of(scheme)
    assert sum(step.minutes for step in steps) == pytest.approx(scheme.minutes)
    done = [d.operation for step in steps for d in step.done if d.priced]
    assert sorted(done) == sorted(line.operation for line in scheme.work)
    assert "other" not in [step.key for step in steps]


def test_every_operation_of_the_house_has_a_step() -> None:
    placed = {
        name
        for row in load_table(PACKAGE, "order_of_work.toml")
        for name in row.values["operations"]
    }
    assert {o.name for o in operations()} == placed


def test_work_round_every_job_is_there_though_no_scheme_is_priced_with_it() -> None:
    """Counted by hand on the drawn drum: what stands on it comes off and goes on again."""
    scheme = scheme_with("stays")
    layout = scheme.layout
    left_out = {
        d.operation: d.times for step in steps_of(scheme) for d in step.done if not d.priced
    }
    for once in ("photograph and book in", "survey a drum", "strip a drum", "tune a drum"):
        assert left_out[once] == 1
    assert left_out["pack a drum"] == 1
    lugs = [f for f in layout.standing if "lug" in f.fitting.kind]
    back = [f for f in lugs if f.status == "stays"]
    assert left_out.get("refit a lug", 0) == len(back)
    new = sum(w.count for w in scheme.work if w.operation == "put on hoop and head")
    assert left_out.get("put on hoop and head", 0) + new == len(layout.hoops)


def test_only_what_came_with_the_drum_and_goes_on_again_is_soaked_and_cleaned() -> None:
    """Counted by hand: five old lugs come off, of five new ones two are the drum's own, moved;
    of two hoops one is new. Six lugs that stay are all soaked, beside six that are bought."""
    scheme = scheme_with("stays")

    def times(layout: Layout) -> tuple[int, int]:
        steps = steps_of(replace(scheme, layout=layout))
        done = Counter({d.operation: d.times for step in steps for d in step.done})
        return done["soak and clean a lug"], done["clean a hoop"]

    hoop = Fitting(name="Hoop 10", kind=Kind.HOOP, source="invented for the tests")
    hoops = (
        HoopPlan(head="batter", hoop=hoop), HoopPlan(head="resonant", hoop=hoop, new=True),
    )  # fmt: skip
    new = replace(scheme.layout, hoops=hoops)
    assert times(new) == (0, 1)
    long_lugs = [f for f in new.fittings if f.label.startswith("long lug")][:2]
    moved = tuple(replace(f, status="goes") for f in long_lugs)
    assert times(replace(new, fittings=(*new.fittings, *moved))) == (2, 1)
    lug = next(f for f in new.fittings if f.status == "goes")
    six = tuple(replace(lug, label=f"lug {n}", status="stays") for n in range(6))
    bought = tuple(replace(lug, label=f"lug {n}", status="new") for n in range(6, 12))
    assert times(replace(new, fittings=(*six, *bought))) == (6, 1)


def test_an_operation_that_no_step_knows_is_not_lost() -> None:
    scheme = full_scheme()
    line = WorkLine(operation="re-cover the damper", count=1, minutes=17.0)
    scheme = replace(scheme, work=(*scheme.work, line))
    last = steps_of(scheme)[-1]
    assert (last.heading, last.minutes) == ("Re-cover the damper", 17.0)


def test_a_wrapped_shell_is_drilled_after_the_wrap_has_cured() -> None:
    order = keys(scheme_with("new wrap"))
    assert order.index("plug") < order.index("edge") < order.index("wrap") < order.index("drill")
    wrap = next(s for s in steps_of(scheme_with("new wrap")) if s.key == "wrap")
    assert wrap.cure_hours == 48.0  # the house's own table of minutes
    assert order.index("strip") < order.index("wrap off") < order.index("plug")


@pytest.mark.parametrize("finish", ["clear lacquer", "paint"])
def test_a_lacquered_shell_is_drilled_before_the_finish(finish: str) -> None:
    order = keys(scheme_with(finish, "lacquer"))
    assert order.index("edge") < order.index("drill") < order.index("finish") < order.index("fit")
    assert "wrap" not in order


def test_a_finish_that_stays_is_drilled_through_tape() -> None:
    scheme = scheme_with("stays")
    assert not {"wrap", "finish", "wrap off"} & set(keys(scheme))
    drill = next(step for step in steps_of(scheme) if step.key == "drill")
    assert "tape" in drill.says
    assert drill.lines[:2] == (
        "Drill 6.5 dia: holes 4, 8, 12, 16, 20.",
        "Through the cured plugs, last: 6.5 dia: holes 2, 6, 10, 14, 18.",
    )


def test_a_shell_cut_down_is_cut_before_its_beds() -> None:
    order = keys(scheme_with("stays", extra=(("cut an end off", 1), ("cut a snare bed", 2))))
    assert order.index("plug") < order.index("cut") < order.index("bed") < order.index("drill")


def test_the_end_comes_off_before_the_ring_goes_in_and_the_edge_is_made() -> None:
    """Common practice, no source: a ring glued in first would be sawn off with the offcut."""
    extra = (("cut an end off", 1), ("glue in a ring", 1), ("make an edge", 1))
    steps = steps_of(scheme_with("stays", extra=extra))
    order = [step.key for step in steps]
    assert order.index("cut") < order.index("ring") < order.index("edge") < order.index("drill")
    assert order.count("edge") == 1
    edge = next(step for step in steps if step.key == "edge")
    assert edge.lines == ()  # what comes off is said at the cut, once


@pytest.mark.parametrize(
    ("ends", "heading"), [((0.5, 0.0), "True the edge"), ((0.5, 0.5), "True both edges")]
)
def test_one_edge_is_not_called_edges(ends: tuple[float, float], heading: str) -> None:
    scheme = scheme_with("stays", "lacquer")
    batter, resonant = (Removal(mean_mm=mm) for mm in ends)
    layout = replace(scheme.layout, truing=Truing(batter=batter, resonant=resonant))
    work = tuple(w for w in scheme.work if w.operation not in ("true an edge", "make an edge"))
    headings = [s.heading for s in steps_of(replace(scheme, layout=layout, work=work))]
    assert heading in headings
    assert len([h for h in headings if "edge" in h]) == 1


def test_a_fitting_that_moves_is_neither_gone_nor_new() -> None:
    scheme = scheme_with("stays")
    own = replace(scheme.layout.standing[0], label="butt", status="goes")
    there = replace(own, status="new", place=replace(own.place, along_deg=33.0))
    layout = replace(scheme.layout, fittings=(own, there))
    lines = {s.key: " ".join(s.lines) for s in steps_of(replace(scheme, layout=layout))}
    assert lines["strip"] == "Going back on elsewhere: butt."
    assert lines["fit"] == "The drum's own, in new holes: butt."


def test_grain_is_matched_only_where_it_will_be_seen() -> None:
    for finish, old, how in (
        ("stays", "lacquer", "match the grain"),
        ("stays", "bare", "match the grain"),
        ("clear lacquer", "wrap", "match the grain"),
        ("stays", "wrap", "tone or patch it to the wrap"),
        ("stays", "paint", "tone or patch it to the paint"),
    ):
        said = " ".join(x for s in steps_of(scheme_with(finish, old)) for x in s.lines)
        assert how in said
        assert ("match the grain" in said) is (how == "match the grain")
    painted = steps_of(scheme_with("paint", "paint"))
    assert not any("match the grain" in line for step in painted for line in step.lines)


def test_an_offcut_of_the_wrap_is_kept_only_where_there_is_one() -> None:
    for finish, old, there in (("paint", "lacquer", False), ("new wrap", "wrap", True)):
        said = " ".join(steps_of(scheme_with(finish, old))[-1].lines)
        assert ("offcut of the wrap" in said) is there


def test_what_a_scheme_does_not_need_is_not_on_the_sheet() -> None:
    scheme = full_scheme(lines=())
    holes = tuple(h for h in scheme.layout.holes if h.verdict is Verdict.KEEP)
    layout = replace(scheme.layout, holes=holes, truing=Truing())
    scheme = replace(scheme, layout=layout, work=())
    assert not {"plug", "drill", "edge", "glue", "ring", "bed", "cut"} & set(keys(scheme))


def test_tables_use_no_word_and_no_step_that_does_not_exist() -> None:
    known = set(asked_of(full_scheme()))
    steps = {row.values["key"] for row in load_table(PACKAGE, "order_of_work.toml")}
    for name in ("order_of_work.toml", "cautions.toml", "not_checked.toml"):
        for row in load_table(PACKAGE, name):
            assert set(row.values["when"]) <= known, row.values
            assert set(row.values.get("unless", ())) <= known, row.values
    for row in load_table(PACKAGE, "cautions.toml"):
        assert set(row.values["steps"]) <= steps | set(PAPERS), row.values


def test_every_caution_can_come_up() -> None:
    came = {
        caution.short
        for finish, old, extra in product(FINISHES, OLD, EXTRA)
        for key in (*PAPERS, *keys(scheme_with(finish, old, extra)))
        for caution in cautions_for(key, needs=needs_of(scheme_with(finish, old, extra)))
    }
    metal = needs_of(full_scheme(material=Material.METAL))
    came |= {caution.short for caution in cautions_for("template", needs=metal)}
    assert came == {row.values["short"] for row in load_table(PACKAGE, "cautions.toml")}


def test_old_wrap_is_treated_as_nitrate_where_it_comes_off_and_where_it_is_drilled() -> None:
    """US Bureau of Standards, Technologic Paper 98 (1917); HSE INDG469 (from memory)."""
    off, through = scheme_with("new wrap"), scheme_with("stays")
    taken = cautions_for("wrap off", needs=needs_of(off))
    assert any("cellulose nitrate" in c.says and "INDG469" in c.source for c in taken)
    drilled = cautions_for("drill", needs=needs_of(through))
    assert any("chips" in c.says for c in drilled)
    bare = cautions_for("drill", needs=needs_of(scheme_with("stays", "lacquer")))
    assert not any("nitrate" in c.says for c in bare)


@pytest.mark.parametrize("key", ["edge", "cut"])
def test_what_lies_at_the_rim_is_warned_of_before_an_edge_is_cut(key: str) -> None:
    """HSE INDG469; Control of Lead at Work Regulations 2002 (both from memory)."""

    def short(scheme: Scheme) -> set[str]:
        return {c.short for c in cautions_for(key, needs=needs_of(scheme))}

    always = {"hardwood dust", "cutter and saw"}
    assert short(scheme_with("stays", "wrap")) == always | {"dust of old wrap"}
    assert short(scheme_with("new wrap", "wrap")) == always  # the old one is off by then
    assert short(scheme_with("stays", "lacquer")) == always | {"lead at the rim"}
    assert short(scheme_with("stays", "bare")) == always
    assert short(full_scheme(material=Material.METAL)) == set()


def test_threads_are_never_forced_and_castings_never_put_in_acid() -> None:
    """Common practice, no source."""
    said = " ".join(c.says for c in cautions_for("threads", needs=frozenset({"always"})))
    assert "Nothing is forced" in said
    assert "No acid on zinc castings" in said


def test_dust_limits_name_their_country() -> None:
    """HSE EH40/2005 (3 mg/m3); Directive 2004/37/EC annex III (2 mg/m3): from memory."""
    dust = next(
        c for c in cautions_for("plug", needs=needs_of(full_scheme())) if c.short == "hardwood dust"
    )
    assert "3 mg in a cubic metre in Great Britain and 2 in the European Union" in dust.says
    assert "check what applies to you" in dust.says
    assert "EH40" in dust.source


def test_a_caution_stands_in_full_once_and_by_name_afterwards() -> None:
    scheme = full_scheme()
    rows, sources = step_rows(steps_of(scheme), needs=needs_of(scheme))
    full = [c["says"] for row in rows for c in row["cautions"]]
    assert len(full) == len(set(full))
    assert any("hardwood dust, as at step" in again for row in rows for again in row["again"])
    assert all(1 <= c["source"] <= len(sources) for row in rows for c in row["cautions"])


def test_nobody_is_told_to_plug_or_true_another_material() -> None:
    scheme = full_scheme(material=Material.METAL)
    for step in steps_of(scheme):
        if step.key in ("plug", "edge", "glue", "ring", "bed", "cut"):
            assert step.says == ""
    needs = needs_of(scheme)
    assert all(
        "dust" not in c.says for key in ("plug", "edge") for c in cautions_for(key, needs=needs)
    )


def test_what_nobody_checks_is_said_for_what_is_there() -> None:
    assert any(said.startswith("Flatness") for said in not_checked(full_scheme()))
    assert not any("Flatness" in s for s in not_checked(full_scheme(material=Material.ACRYLIC)))
    assert any("cut size" in said for said in not_checked(scheme_with("new wrap")))


def test_what_was_read_is_not_said_to_be_unchecked() -> None:
    scheme = full_scheme()
    step = tuple(360.0 * i / 8 for i in range(8))
    edge = RimReadings(
        along_deg=step, value_mm=(0.0,) * 8, instrument="feeler gauges", resolution_mm=0.05
    )
    across = RimReadings(
        along_deg=step[:4], value_mm=(303.0,) * 4, instrument="caliper", resolution_mm=0.1
    )
    both = {end: EndReadings(end=end, edge=edge, across=across) for end in ("batter", "resonant")}
    drum = replace(scheme.layout.drum, readings=Readings(**both))
    read = replace(scheme, layout=replace(scheme.layout, drum=drum))
    gone = set(not_checked(scheme)) - set(not_checked(read))
    assert {said.split(",")[0].split(" of")[0] for said in gone} == {"Roundness", "Flatness"}
