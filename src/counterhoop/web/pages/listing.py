"""A drum offered for sale: its listing from the record, and what to ask before it is posted."""

from __future__ import annotations

from fastapi import APIRouter

from counterhoop.web.guard.pen import PageRoute

pages = APIRouter(route_class=PageRoute)
