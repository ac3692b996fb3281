"""Pages that join an app when one of them is first asked for, so that it starts without them."""

from __future__ import annotations

import gc
import threading
from collections.abc import Callable, Iterable

from fastapi import APIRouter, FastAPI
from starlette.concurrency import run_in_threadpool
from starlette.types import Receive, Scope, Send


class JoinedLater:
    """Answers where no page is found so far: lets the others join and has the app look again.

    Parameters
    ----------
    app : FastAPI
        What they join. They stand behind its own pages, as if they had been there from the start.
    load : callable
        Loads the others; called once, beside what is being answered meanwhile.
    """

    def __init__(self, app: FastAPI, *, load: Callable[[], Iterable[APIRouter]]) -> None:
        self._app = app
        self._load = load
        self._not_found = app.router.default
        self._joined = False
        self._lock = threading.Lock()
        app.router.default = self

    def join(self) -> None:
        """Let them join, unless they have."""
        with self._lock:
            if not self._joined:
                for pages in self._load():
                    self._app.include_router(pages)
                self._app.router.default = self._not_found
                self._joined = True
                # What was loaded lives as long as the program. Looked through with every hunt for
                # rubbish it would make one request in a hundred wait for a quarter of a second.
                gc.collect()
                gc.freeze()

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer."""
        await run_in_threadpool(self.join)
        await self._app.router(scope, receive, send)
