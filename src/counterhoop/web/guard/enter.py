"""The page behind a one-time link: one press lets this browser in.

Opening the link alone uses nothing up, for looking never writes: mail programs and cameras that
fetch a link to show what is behind it would else spend it. It also makes our own page the one that
leads on, so that a SameSite=Strict cookie is sent at once.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from html import escape
from urllib.parse import parse_qs

from starlette.types import ASGIApp, Receive, Scope, Send

from counterhoop.web.guard.answer import answer
from counterhoop.web.guard.cookie import cookie_line
from counterhoop.web.guard.door import LOOPBACK, Door
from counterhoop.web.guard.one_header import one_header
from counterhoop.web.guard.one_time_links import OneTimeLinks
from counterhoop.web.guard.pairing import Paired, let_in
from counterhoop.web.guard.safe_methods import is_safe
from counterhoop.web.guard.shown_name import shown_name
from counterhoop.web.guard.wait import place_of, tell_to_wait
from counterhoop.web.guard.wrong_tries import WrongTries

PATH = "/enter"
MOST_BYTES = 4000
PAGE = """<!doctype html>
<html lang="en-GB"><head><meta charset="utf-8"><title>Come in · Counterhoop</title>
<meta name="viewport" content="width=device-width, initial-scale=1">
<link rel="icon" href="/static/icon.svg"><link rel="stylesheet" href="/static/paper.css"></head>
<body><header class="cover"><h1>Come in</h1></header>
<div class="folder"><main class="sheets"><section class="sheet">
<p>This lets this browser see and change the jobs of this workshop, until it is struck off the list.
</p>
<form method="post" action="/enter">
<div class="field"><label for="token">Code from the link</label>
<input type="text" id="token" name="token" value="{token}" autocomplete="off" required></div>
<div class="field"><label for="name">What shall this phone or computer be called?</label>
<input type="text" id="name" name="name" value="{name}" maxlength="40" autocomplete="off" required>
</div>
<div class="presses"><button class="go">Let this browser in</button></div>
</form></section></main></div></body></html>
"""
NOT_GOOD = (
    "That code is not good: it was used already, is too old, or has a slip in it. "
    "Ask the program for a new link.\n"
)


def first(fields: dict[str, list[str]], name: str) -> str:
    """Return a field of a form or a query, or nothing."""
    return fields.get(name, [""])[0]


def usual_name(scope: Scope) -> str:
    """Return what a browser is called if nobody says otherwise: only this machine is a bench."""
    host = one_header(scope, b"host") or ""
    return "this bench" if host.startswith(f"{LOOPBACK}:") else "phone"


async def form_in(receive: Receive) -> dict[str, list[str]]:
    """Read a short form; what is over the cap is cut off and can then hold no good token."""
    body = b""
    more = True
    while more and len(body) <= MOST_BYTES:
        message = await receive()
        body += message.get("body", b"")
        more = message.get("more_body", False)
    return parse_qs(body[:MOST_BYTES].decode("utf-8", errors="replace"))


class Enter:
    """Answer the page of the one-time link; pass everything else on."""

    def __init__(
        self,
        app: ASGIApp,
        *,
        door: Door,
        paired: Paired,
        links: OneTimeLinks,
        tries: WrongTries,
        now: Callable[[], datetime],
        lands: str = "/",
    ) -> None:
        self.app = app
        self.door = door
        self.paired = paired
        self.links = links
        self.tries = tries
        self.now = now
        self.lands = lands

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request or pass it on."""
        if scope["path"] != PATH:
            await self.app(scope, receive, send)
        elif is_safe(scope["method"]):
            query = parse_qs(scope["query_string"].decode("latin-1")[:MOST_BYTES])
            page = PAGE.format(token=escape(first(query, "token")), name=usual_name(scope))
            await answer(send, 200, says=page, kind="text/html")
        elif scope["method"] == "POST":
            await self._let_in(scope, receive, send)
        else:
            await answer(send, 405, says="Use the form.\n", headers=[(b"allow", b"GET, POST")])

    async def _let_in(self, scope: Scope, receive: Receive, send: Send) -> None:
        form = await form_in(receive)
        place = place_of(scope)
        # From here to the note of a wrong try nothing is awaited: no second try slips in between.
        wait_s = self.tries.wait_s(place)
        if wait_s > 0:
            await tell_to_wait(send, wait_s=wait_s)
            return
        now = self.now()
        if not self.links.take(first(form, "token").strip(), now=now):
            self.tries.wrong(place)
            await answer(send, 403, says=NOT_GOOD)
            return
        self.tries.right(place)
        name = shown_name(first(form, "name"), otherwise=usual_name(scope))
        secret = let_in(self.paired, name=name, kind="browser", now=now)
        headers = [
            (b"location", self.lands.encode("ascii")),
            (b"set-cookie", cookie_line(self.door, secret=secret)),
        ]
        await answer(send, 303, says="Let in.\n", headers=headers)
