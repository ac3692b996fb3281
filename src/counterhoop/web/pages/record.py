"""The record that goes out of the house: its paper, its care sheet, its files."""

from __future__ import annotations

from fastapi import APIRouter

from counterhoop.web.guard.pen import PageRoute

pages = APIRouter(route_class=PageRoute)
