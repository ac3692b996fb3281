"""Strangers see nothing but the door."""

from __future__ import annotations

from starlette.types import ASGIApp, Receive, Scope, Send

from counterhoop.web.guard.answer import answer
from counterhoop.web.guard.public import is_public
from counterhoop.web.guard.safe_methods import is_safe
from counterhoop.web.guard.visitor import visitor_of


class Private:
    """Answer 401 to a stranger, whether there is such a page or not."""

    def __init__(self, app: ASGIApp, *, public: tuple[str, ...]) -> None:
        self.app = app
        self.public = public

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Refuse or pass one request on."""
        open_to_all = is_public(scope["path"], self.public) and is_safe(scope["method"])
        if open_to_all or visitor_of(scope) is not None:
            await self.app(scope, receive, send)
            return
        await answer(
            send,
            401,
            says="This browser has not been let in. Open the link that the program printed when it "
            "was started, or one that it makes for a phone.\n",
            headers=[(b"www-authenticate", b"Bearer")],
        )
