"""What each browser chose for itself: the unit that it reads first, and day or night.

It lies in a cookie and not in the store: it is nobody's job, and a phone in the sun and a laptop
at night may differ.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any, Literal, get_args

from starlette.requests import Request
from starlette.responses import Response

from counterhoop.errors import BadInput

Units = Literal["mm", "in"]
Light = Literal["day", "night", "machine"]
COOKIE = "counterhoop-mine"
YEAR_S = 365 * 24 * 3600


@dataclass(frozen=True, slots=True, kw_only=True)
class Mine:
    """How one browser is shown the pages.

    Attributes
    ----------
    units : str
        Which unit comes first: "mm" or "in".
    light : str
        "day", "night", or "machine" for whatever the machine is set to.
    """

    units: Units = "mm"
    light: Light = "machine"

    def changed(self, *, units: str = "", light: str = "") -> Mine:
        """Return the choice with what is named changed.

        Raises
        ------
        BadInput
            For a unit or a light that there is none of.

        Examples
        --------
        >>> Mine().changed(units="in")
        Mine(units='in', light='machine')
        """
        return replace(
            self,
            units=_known(units or self.units, get_args(Units), where="units"),
            light=_known(light or self.light, get_args(Light), where="light"),
        )


def _known(written: str, known: tuple[Any, ...], *, where: str) -> Any:
    if written not in known:
        raise BadInput("no such choice", where=where, given=written, wanted=" or ".join(known))
    return written


def mine_of(request: Request) -> Mine:
    """Return what this browser chose; a cookie that says nonsense says nothing."""
    units, _, light = request.cookies.get(COOKIE, "").partition(".")
    try:
        return Mine().changed(units=units, light=light)
    except BadInput:
        return Mine()


def keep_mine(response: Response, mine: Mine, *, request: Request) -> None:
    """Send the choice along as a cookie."""
    response.set_cookie(
        COOKIE,
        f"{mine.units}.{mine.light}",
        max_age=YEAR_S,
        path="/",
        httponly=True,
        samesite="strict",
        secure=request.url.scheme == "https",
    )
