"""A page that shows one drum, and a server that moves its row: for the tests of the drawing."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from pathlib import Path

from fastapi import APIRouter
from jinja2 import ChoiceLoader, FileSystemLoader
from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse

from counterhoop.development.place import Place
from counterhoop.errors import BadInput, Finding, Grade
from counterhoop.scheme.plan import Scheme
from counterhoop.web.app import make_app
from counterhoop.web.guard.pen import GivenPen, PageRoute
from counterhoop.web.look.jinja import templates
from counterhoop.web.render import is_part, known_everywhere
from counterhoop.web.shell_moves import RowMove, read_move
from counterhoop.web.shell_view import found_view, scheme_view

SPECIMEN = Path(__file__).parents[1] / "specimen"
ROW = "both"
FOUND = (
    Finding(
        code="web-thin", grade=Grade.TAKE_CARE, where="holes 3 and 4", holes=(3, 4),
        says="Holes 3 and 4 leave little wood between them.",
    ),
    Finding(
        code="seam", grade=Grade.NOTE, where="the seam", along_deg=312.0, down_mm=90.0,
        says="The seam of the wrap lies here.",
    ),
    Finding(code="air", grade=Grade.NOTE, says="The air was dry on the day."),
)  # fmt: skip


@dataclass
class Bench:
    """What the server was asked and what it keeps; a test may make it refuse or answer late."""

    scheme: Scheme
    at: tuple[float, float] = (0.0, 0.0)
    kept: tuple[float, float] = (0.0, 0.0)
    revision: int = 1
    moves: list[RowMove] = field(default_factory=list)
    refuse: str = ""

    def moved(self) -> Scheme:
        """Shift the row's lugs and their new holes, as a planner would."""
        layout = self.scheme.layout
        deg = layout.flat.surface.along_deg(self.at[0])
        lugs = {f.label for f in layout.fittings if f.row == ROW}

        def there(place: Place) -> Place:
            return Place(place.along_deg + deg, place.down_mm + self.at[1])

        fittings = tuple(
            replace(f, place=there(f.place)) if f.label in lugs else f for f in layout.fittings
        )
        holes = tuple(
            replace(h, place=there(h.place)) if h.of in lugs and h.verdict.drills else h
            for h in layout.holes
        )
        return replace(self.scheme, layout=replace(layout, fittings=fittings, holes=holes))


def shell_app(bench: Bench, *, units: str = "mm"):
    """Return an app with one page of a scheme, one of a drum as found, and a row to move."""
    pages = APIRouter(route_class=PageRoute)
    ours = templates()
    own = ours.overlay(loader=ChoiceLoader([FileSystemLoader(SPECIMEN), ours.loader]))

    def shown(request: Request, *, live: bool = False, placing: bool = False) -> HTMLResponse:
        drum = bench.scheme.layout.drum
        view = (
            found_view(drum, ident="t1", units=units, findings=FOUND)
            if placing
            else scheme_view(
                bench.moved(), ident="t1", units=units, findings=FOUND,
                movable={ROW: bench.at}, live=live,
            )
        )  # fmt: skip
        data = {"view": view, "found": FOUND, "revision": bench.revision}
        data |= {"placing": placing, "answers": len(bench.moves)}
        text = own.get_template("shell.html").render(known_everywhere(request) | data)
        return HTMLResponse(text)

    @pages.get("/scheme")
    def scheme(request: Request):
        bench.at = bench.kept
        return shown(request)

    @pages.get("/survey")
    def survey(request: Request):
        return shown(request, placing=True)

    @pages.post("/move")
    async def move(request: Request, pen: GivenPen):
        asked = read_move(dict(await request.form()))
        bench.moves.append(asked)
        if bench.refuse:
            raise BadInput(bench.refuse)
        if asked.based_on != str(bench.revision):
            raise BadInput("another bench moved it")
        bench.at = (asked.right_mm, asked.down_mm)
        if asked.settled:
            bench.kept = bench.at
            bench.revision += 1
        if not is_part(request):
            return RedirectResponse("/scheme", status_code=303)
        return shown(request, live=not asked.settled)

    app = make_app(None)
    app.include_router(pages)
    return app
