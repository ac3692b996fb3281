"""All pages that there are, held to the rules by their shape; truth: rules 2 and 3."""

from __future__ import annotations

import pytest
from fastapi import APIRouter

from counterhoop.web.app import PAGES as AT_ONCE
from counterhoop.web.app import make_app, other_pages
from counterhoop.web.guard.body_cap import UPLOAD_BYTES, BodyCap
from counterhoop.web.guard.pen import GivenPen, PageRoute, depends_on, take_pen
from counterhoop.web.guard.public import PUBLIC, is_public
from counterhoop.web.guard.routes_check import check_routes
from counterhoop.web.guard.safe_methods import SAFE

PAGES = (*AT_ONCE, *other_pages())


def without_a_pen(routers):
    """Return every page that may change something and was given no pen."""
    return [
        f"{sorted(route.methods)[0]} {route.path}"
        for router in routers
        for route in router.routes
        if set(route.methods) - SAFE and take_pen not in depends_on(route.dependant)
    ]


def test_no_page_looks_and_writes_and_none_lies_past_the_rule():
    check_routes(make_app(None))


def test_every_page_that_writes_holds_the_pen():
    assert without_a_pen(PAGES) == []


def test_a_page_without_the_pen_would_be_found():
    planted = APIRouter(route_class=PageRoute)

    @planted.post("/held")
    def held(pen: GivenPen):
        return pen

    @planted.delete("/loose")
    def loose():
        return None

    assert without_a_pen([*PAGES, planted]) == ["DELETE /loose"]


def test_strangers_reach_no_page():
    paths = [route.path for router in PAGES for route in router.routes]
    assert len(paths) > 3
    assert not [path for path in paths if is_public(path, PUBLIC) or path == "/enter"]


@pytest.mark.parametrize(
    ("path", "most"),
    [
        ("/jobs/7/photographs", UPLOAD_BYTES),
        ("/jobs/7/photographs/", UPLOAD_BYTES),
        ("/jobs/7/photographs/new", 5),
        ("/jobs/7", 7),
        ("/jobs/7/drums/2/photographs", 7),
        ("/jobs", 1),
        ("/jobs/7/photographs2", 7),
        ("/", 1),
    ],
)
def test_the_longest_beginning_decides_how_long_a_body_may_be(path, most):
    """By hand from what ``begins_with`` says."""
    at = {"/jobs/*/photographs": UPLOAD_BYTES, "/jobs/*/photographs/new": 5, "/jobs/*": 7}
    assert BodyCap(None, most_bytes=1, at=at).cap(path) == most
