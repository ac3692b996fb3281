"""Open the door: take the port, put the guard before the app, print the link, serve."""

from __future__ import annotations

import contextlib
import logging
import socket
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING

from fastapi import FastAPI

from counterhoop.errors import BadInput, CannotDo
from counterhoop.web.guard.certificate import Certificate, own_certificate
from counterhoop.web.guard.door import Door, host_name
from counterhoop.web.guard.link_words import is_loopback, lan_address, lan_words, opening_words
from counterhoop.web.guard.paired_in_file import PairedInFile
from counterhoop.web.guard.pairing import Paired, PairedInMemory
from counterhoop.web.guard.routes_check import check_routes
from counterhoop.web.guard.stack import Guard, Settings, utc_now

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
        listening = socket.create_server((host.strip("[]"), port), family=family)
    except OSError as fault:
        raise CannotDo(
            f"Cannot listen at {host}, port {port}: {fault.strerror}. "
            "Stop the program that uses it, or choose another port with --port."
        ) from None
    # What is accepted here inherits this. Else the body of an answer waits until the browser has
    # acknowledged its head, which it puts off by 40 ms.
    listening.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
    return listening


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


def certificate_for(names: tuple[str, ...], *, data: Path | None) -> Certificate:
    """Return the certificate of the data folder, for these names besides loopback."""
    if data is None:
        raise BadInput(
            "a certificate needs a place where it is kept", where="https", wanted="a data folder"
        )
    return own_certificate(data, names=names, now=utc_now())


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
            ssl_certfile=settings.certificate.file if settings.certificate else None,
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
    https: bool = False,
    data: Path | None = None,
    most_bytes_at: Mapping[str, int] | None = None,
    lands: str = "/",
    verbose: bool = False,
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
    https : bool
        Whether to seal what travels, with a certificate made here; ``data`` is needed then.
    data : pathlib.Path or None
        The data folder, where the certificate and the list of who is let in are kept. Without one
        the list is gone when the program ends.
    most_bytes_at : mapping of str to int or None
        Pages that take more than the usual body, as ``Settings`` has them.
    lands : str
        The page that a browser comes to when it has been let in.
    verbose : bool
        Whether the log says more.
    say : callable
        Prints.

    Raises
    ------
    BadInput, CannotDo
        For a name or an address that cannot be used.
    """
    known = names_for(host, names)
    certificate = certificate_for(known, data=data) if https else None
    paired: Paired = PairedInFile(data) if data else PairedInMemory()
    listening = take_port(host, port)
    door = Door(
        port=listening.getsockname()[1],
        scheme="https" if certificate else "http",
        names=known,
        on_network=not is_loopback(host),
    )
    chosen = Settings(
        door=door,
        certificate=certificate,
        paired=paired,
        most_bytes_at=most_bytes_at or {},
        lands=lands,
        verbose=verbose,
    )
    set_up_log(verbose=verbose)
    server = guarded_server(app, settings=chosen)
    token = chosen.links.make(now=chosen.now())
    if door.on_network:
        phone_token = chosen.links.make(now=chosen.now())
        say(lan_words(door, token=token, phone_token=phone_token, certificate=certificate))
    else:
        say(opening_words(door, token=token, certificate=certificate))
    # The server hands Ctrl+C on after it has stopped in good order; that is no fault.
    with listening, contextlib.suppress(KeyboardInterrupt):
        server.run(sockets=[listening])
