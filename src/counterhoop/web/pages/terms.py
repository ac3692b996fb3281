"""How the workshop prices: tax, rounding, ceiling, deposit, letter head."""

from __future__ import annotations

from fastapi import APIRouter

from counterhoop.web.guard.pen import PageRoute

pages = APIRouter(route_class=PageRoute)
