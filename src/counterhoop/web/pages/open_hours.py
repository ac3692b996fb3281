"""When the workshop is open, and what it has to glue and dry with."""

from __future__ import annotations

from fastapi import APIRouter

from counterhoop.web.guard.pen import PageRoute

pages = APIRouter(route_class=PageRoute)
