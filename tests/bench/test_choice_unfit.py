"""A row that was moved by hand and fits no longer is said, and keeps no other drum back."""

from __future__ import annotations

from dataclasses import replace

from counterhoop.bench.demo import open_demo
from counterhoop.bench.plan_job import plan_job
from counterhoop.shell.choice import Chosen, RowMoved


def test_a_row_that_fits_no_longer_is_a_finding():
    opened = open_demo()
    first = plan_job(opened)
    tom = first.drum("small tom")
    assert tom.chosen is not None
    far = RowMoved(row="batter", right_mm=5.0, down_mm=0.0)
    chosen = Chosen(scheme=tom.chosen.code, moved=(far,))
    drums = tuple(
        replace(one, chosen=chosen) if one.drum.key == "small tom" else one
        for one in opened.job.drums
    )
    plan = plan_job(replace(opened, job=replace(opened.job, drums=drums)))
    (said,) = [f for f in plan.drum("small tom").noticed if f.code == "choice-gone"]
    assert "moved by hand" in said.says
    assert plan.drum("small tom").chosen is not None
    assert [d.key for d in plan.drums] == [d.key for d in first.drums]
