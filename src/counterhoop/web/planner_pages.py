"""Pages that need the planner, the drawings or the papers: a second and more to load."""

from __future__ import annotations

from counterhoop.web.pages import bench, fittings, papers, schemes, wrap

PAGES = (bench.pages, papers.pages, wrap.pages, schemes.pages, fittings.pages)
