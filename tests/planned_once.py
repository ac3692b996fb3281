"""What all tests of a process have planned once, and not once in each folder of tests."""

from __future__ import annotations

from functools import cache

from counterhoop.bench.demo import open_demo
from counterhoop.bench.long_work.at_once import WorksAtOnce
from counterhoop.bench.plan_job import JobPlan, plan_job

PLANNED = WorksAtOnce()
"""Remembers by what a plan rests on, not by the store or the test: the same drum is planned once.

Not for a test that wants the planner itself to be asked, or to go wrong.
"""


@cache
def planned_demo() -> JobPlan:
    """Return the plan of the worked job of seven drums."""
    return plan_job(open_demo())
