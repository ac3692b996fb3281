"""The date of a job: the day to promise, what was promised, what is on its way to it."""

from __future__ import annotations

from fastapi import APIRouter

from counterhoop.web.guard.pen import PageRoute

pages = APIRouter(route_class=PageRoute)
