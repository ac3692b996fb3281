"""Open the workshop in a browser: the pages, on this machine or for phones on the network."""

from __future__ import annotations

import os
import re
import signal
import sys
import threading
from collections.abc import Callable
from pathlib import Path
from typing import Annotated

import typer

from counterhoop.cli.options import DataFolder, StoreAddress

PORT = 8377
LINK = re.compile(r"https?://\S+/enter\?token=\S+")


def serve(
    data: DataFolder = None,
    store: StoreAddress = "",
    port: Annotated[
        int, typer.Option("--port", metavar="N", min=0, max=65535, help="0 takes a free one.")
    ] = PORT,
    lan: Annotated[
        bool, typer.Option("--lan", help="Let phones on your network reach it, by a link each.")
    ] = False,
    name: Annotated[
        list[str] | None,
        typer.Option("--name", metavar="NAME", help="A further name of this machine; repeatable."),
    ] = None,
    https: Annotated[
        bool,
        typer.Option("--https", help="Seal what travels, with a certificate made here."),
    ] = False,
    browser: Annotated[
        bool, typer.Option("--open/--no-browser", help="Whether to open the pages at once.")
    ] = True,
    verbose: Annotated[
        bool, typer.Option("--verbose", help="Write a line for each request, and more of faults.")
    ] = False,
) -> None:
    """Open the workshop in your browser: a folder for each job, a sheet for each step.

    Everything stays on this machine, in your data folder. Only a browser that opens the printed
    link gets in. It runs until you stop it with Ctrl+C; what was saved is kept.
    """
    serve_from(
        data, store=store, port=port, lan=lan, names=tuple(name or ()), https=https,
        browser=browser, verbose=verbose,
    )  # fmt: skip


def serve_from(
    data: Path | None, *, store: str = "", port: int, lan: bool = False,
    names: tuple[str, ...] = (), https: bool = False, browser: bool, verbose: bool = False,
    lands: str = "/",
) -> None:  # fmt: skip
    """Serve a workshop until it is stopped; a browser that is let in comes to ``lands``."""
    from counterhoop.bench.workshop import open_workshop
    from counterhoop.web.app import UPLOADS, app_that_grows
    from counterhoop.web.guard.serve import serve_on

    with open_workshop(store=store, data=data) as workshop:
        # Told to end, the program ends as by Ctrl+C: the store and the workers are let go.
        signal.signal(signal.SIGTERM, lambda *_: sys.exit(0))
        serve_on(
            app_that_grows(workshop),
            "0.0.0.0" if lan else "127.0.0.1",
            port,
            names=names,
            https=https,
            data=workshop.store.address.folder,
            most_bytes_at=UPLOADS,
            lands=lands,
            verbose=verbose,
            say=opening_a_browser(typer.echo) if browser and has_screen() else typer.echo,
        )


def has_screen() -> bool:
    """Tell whether a browser can show itself; over a bare line it would take the window over."""
    if sys.platform in ("win32", "darwin"):
        return True
    return bool(os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY"))


def opening_a_browser(say: Callable[[str], None]) -> Callable[[str], None]:
    """Return a printer that also opens the first link which lets one in."""

    def said(words: str) -> None:
        import webbrowser

        say(words)
        link = LINK.search(words)
        if link:
            # Some browsers are waited for until they are closed.
            threading.Thread(target=webbrowser.open, args=(link[0],), daemon=True).start()

    return said
