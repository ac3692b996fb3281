"""What every answer says about itself: what it may load, who may frame it, who may keep it."""

from __future__ import annotations

from starlette.types import ASGIApp, Message, Receive, Scope, Send

from counterhoop.web.guard.door import LOOPBACK
from counterhoop.web.guard.one_header import one_header
from counterhoop.web.guard.public import is_public

# default-src does not cover the address of a form nor <base>: both are named.
POLICY = (
    b"default-src 'self'; frame-ancestors 'none'; form-action 'self'; base-uri 'none'; "
    b"object-src 'none'"
)
SETTLED = {
    b"x-content-type-options": b"nosniff",
    b"x-frame-options": b"DENY",
    # Other sites learn nothing. "no-referrer" would do the same, but with it a browser sends
    # "Origin: null" with our own forms, and on the local network the Origin is all there is.
    b"referrer-policy": b"same-origin",
    b"cross-origin-resource-policy": b"same-origin",
    b"permissions-policy": b"camera=(self), geolocation=(), microphone=(self)",
}
# Browsers that do not trust an origin, plain http on the network, complain of this one aloud.
TRUSTED_ONLY = {b"cross-origin-opener-policy": b"same-origin"}


def is_trusted(scope: Scope) -> bool:
    """Tell whether a browser takes this page's origin for one that nobody can listen in to."""
    host = one_header(scope, b"host") or ""
    return scope["scheme"] == "https" or host.partition(":")[0] == LOOPBACK


# A photograph of a folder may stay in its own browser, which asks again each time whether it may
# still be shown: one that was struck off is answered 401.
ASKED_AGAIN = (b"cache-control", b"private, no-cache")


class PageHeaders:
    """Set the headers above on every answer, and no-store on all that is private.

    A private answer may say "private, no-cache" instead, and nothing else.
    """

    def __init__(self, app: ASGIApp, *, public: tuple[str, ...]) -> None:
        self.app = app
        self.public = public

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass one request on and dress its answer."""
        settled = SETTLED | (TRUSTED_ONLY if is_trusted(scope) else {})
        if not is_public(scope["path"], self.public):
            settled[b"cache-control"] = b"no-store"

        async def dressed(message: Message) -> None:
            if message["type"] == "http.response.start":
                given = [(name.lower(), value) for name, value in message.get("headers", [])]
                ours = dict(settled)
                if b"cache-control" in ours and ASKED_AGAIN in given and message["status"] < 400:
                    ours |= dict([ASKED_AGAIN])
                own = [(name, value) for name, value in given if name not in ours]
                # A page's own policy stays beside ours: browsers hold to both.
                headers = [*own, (b"content-security-policy", POLICY), *ours.items()]
                message = {**message, "headers": headers}
            await send(message)

        await self.app(scope, receive, dressed)
