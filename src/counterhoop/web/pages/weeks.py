"""The weeks: what is worked on when, what dries meanwhile, what would wait for one more."""

from __future__ import annotations

from fastapi import APIRouter

from counterhoop.web.guard.pen import PageRoute

pages = APIRouter(route_class=PageRoute)
