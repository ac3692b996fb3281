"""Open the door: take the port, put the guard before the app, print the link, serve."""

from __future__ import annotations

import contextlib
import logging
import socket
from collections.abc import Callable
from typing import TYPE_CHECKING

from fastapi import FastAPI

from counterhoop.errors import BadInput, CannotDo
from counterhoop.web.guard.door import Door, host_name
from counterhoop.web.guard.link_words import is_loopback, lan_address, lan_words, opening_words
from counterhoop.web.guard.routes_check import check_routes
from counterhoop.web.guard.stack import Guard, Settings

if TYPE_CHECKING:
    import uvicorn

MOST_CONNECTIONS = 100
ANYWHERE = {"0.0.0.0", "::"}


def take_port(host: str, port: int) -> socket.socket:
    """Return a listening socket.

    Raises
    ------
    CannotDo
        When the port is taken or the address is not one of this machine.
    """
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    try:
        return socket.create_server((host.strip("[]"), port), family=family)
    except OSError as fault:
        raise CannotDo(
            f"Cannot listen at {host}, port {port}: {fault.strerror}. "
            "Stop the program that uses it, or choose another port with --port."
        ) from None


def names_for(host: str, names: tuple[str, ...]) -> tuple[str, ...]:
    """Return the names to answer to besides loopback, for the address that we listen at."""
    given = tuple(host_name(name) for name in names)
    if is_loopback(host):
        return given
    found = lan_address() if host in ANYWHERE else host
    own = (host_name(found),) if found else ()
    if not own + given:
        raise BadInput(
            "no network was found on this machine",
            where="host",
            given=host,
            wanted="the address of this machine on the network, or a name for it",
        )
    return tuple(dict.fromkeys(own + given))


def guarded_server(app: FastAPI, *, settings: Settings) -> uvicorn.Server:
    """Return a server with the guard before the app; ``run(sockets=[...])`` starts it."""
    import uvicorn

    from counterhoop.web.guard.headers_in_time import HeadersInTime

    check_routes(app)
    # Its own lines hold whole addresses; whatever else listens to logs must not get them either.
    logging.getLogger("uvicorn.access").disabled = True
    return uvicorn.Server(
        uvicorn.Config(
            Guard(app, settings=settings),
            http=HeadersInTime,
            ws="none",
            log_config=None,
            access_log=False,
            # Nobody stands before us: what a header claims about the sender is not believed.
            proxy_headers=False,
            server_header=False,
            limit_concurrency=MOST_CONNECTIONS,
            timeout_graceful_shutdown=3,
        )
    )


def set_up_log(*, verbose: bool) -> None:
    """Send the log to standard error: faults always, a line for each request when asked to."""
    logging.basicConfig(level=logging.WARNING, format="%(asctime)s %(levelname)s %(message)s")
    logging.getLogger("counterhoop.web").setLevel(logging.INFO if verbose else logging.WARNING)


def serve_on(
    app: FastAPI,
    host: str = "127.0.0.1",
    port: int = 8377,
    *,
    names: tuple[str, ...] = (),
    verbose: bool = False,
    settings: Callable[[Door], Settings] | None = None,
    say: Callable[[str], None] = print,
) -> None:
    """Serve an app until it is stopped, and say first how to get in.

    Parameters
    ----------
    app : FastAPI
        The pages, all of them ``PageRoute``.
    host : str
        Where to listen. Anything but loopback is a decision: what it means is said first.
    port : int
        0 takes a free one.
    names : tuple of str
        Further names of this machine that may be asked for.
    verbose : bool
        Whether the log says more.
    settings : callable or None
        Makes the guard's settings from the door, when others than the usual are wanted.
    say : callable
        Prints.

    Raises
    ------
    BadInput, CannotDo
        For a name or an address that cannot be used.
    """
    known = names_for(host, names)
    listening = take_port(host, port)
    door = Door(port=listening.getsockname()[1], names=known)
    chosen = settings(door) if settings else Settings(door=door, verbose=verbose)
    set_up_log(verbose=chosen.verbose)
    server = guarded_server(app, settings=chosen)
    token = chosen.links.make(now=chosen.now())
    if is_loopback(host):
        say(opening_words(door, token=token))
    else:
        say(lan_words(door, token=token, phone_token=chosen.links.make(now=chosen.now())))
    # The server hands Ctrl+C on after it has stopped in good order; that is no fault.
    with listening, contextlib.suppress(KeyboardInterrupt):
        server.run(sockets=[listening])
