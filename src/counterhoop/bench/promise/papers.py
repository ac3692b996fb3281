"""The weeks and a day's list as papers, set beside the pages."""

from __future__ import annotations

import datetime as dt

from counterhoop.bench.long_work.answers import Answer
from counterhoop.bench.long_work.asked import Asked
from counterhoop.bench.long_work.results import Paper
from counterhoop.bench.long_work.source import JobSource
from counterhoop.bench.long_work.weeks_tasks import make_day_list, make_weeks
from counterhoop.bench.price.terms import terms_of
from counterhoop.bench.promise.promises import clock_of
from counterhoop.bench.promise.shop_plan import ShopPlan
from counterhoop.bench.promise.todays_list import list_of_day
from counterhoop.bench.promise.weeks import weeks_of
from counterhoop.bench.workshop import Workshop
from counterhoop.errors import BadInput

OUR_NAME = "the workshop"
"""What a workshop is called whose terms do not name it yet."""
NONE = JobSource(tables_json=b"")


def shop_name(shop: Workshop) -> str:
    """Return the workshop's name, as its terms have it."""
    try:
        return terms_of(shop).shop or OUR_NAME
    except BadInput:
        # Its own sheet says what is wrong with the terms: here only the name is wanted.
        return OUR_NAME


def weeks_paper(shop: Workshop, plan: ShopPlan, *, paper: str) -> Answer[Paper]:
    """Set the weeks of a plan.

    Parameters
    ----------
    paper : str
        "Letter" sets them on Letter, anything else on A4.
    """
    # To the hour, as the plan is: asked for twice in one hour they are the same paper.
    now = clock_of(shop).replace(minute=0, second=0, microsecond=0)
    made = weeks_of(plan, now=now)
    return shop.works.ask(
        Asked(line="papers", task=make_weeks, source=NONE, arguments=(made, shop_name(shop), paper))
    )


def day_paper(shop: Workshop, plan: ShopPlan, *, day: dt.date, paper: str) -> Answer[Paper]:
    """Set the list of a day in a plan.

    Parameters
    ----------
    paper : str
        As for ``weeks_paper``.
    """
    today = list_of_day(plan, name=shop_name(shop), day=day)
    return shop.works.ask(
        Asked(line="papers", task=make_day_list, source=NONE, arguments=(today, paper))
    )
