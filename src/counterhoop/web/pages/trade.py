"""Own sales, what a drum is worth, which way of selling it pays."""

from __future__ import annotations

from fastapi import APIRouter

from counterhoop.web.guard.pen import PageRoute

pages = APIRouter(route_class=PageRoute)
