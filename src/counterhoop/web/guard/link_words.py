"""What is printed when the program is ready, and the square for a phone's camera."""

from __future__ import annotations

import io
import ipaddress
import socket

from counterhoop.web.guard.certificate import Certificate
from counterhoop.web.guard.door import LOOPBACK, Door
from counterhoop.web.guard.enter import PATH

# An address kept for documentation (RFC 5737): nothing is sent to it, it only picks a way out.
ELSEWHERE = ("192.0.2.1", 9)
WHITE_ON_BLACK, PLAIN = "\x1b[97;40m", "\x1b[0m"
LAN_MEANS = """\
Other devices on this network can now reach this program, and so can whoever else is on it.
Only a device that opens a one-time link gets in; you see them on a list and can strike them off.
What it sends travels {how}.
Do this on your own network only, and stop it when you are done.
"""
WARNING_MEANS = """\
The browser will warn once that it does not know who vouches for this address: nobody does, for the
program made its certificate itself. Look at the certificate behind the warning before you go on.
Its SHA-256 fingerprint must be this one, pair by pair; if it differs, somebody stands between:
"""
MADE_ANEW = "It is new, so that phones that were let in before will warn once more.\n"


def is_loopback(host: str) -> bool:
    """Tell whether only this machine can reach an address.

    Examples
    --------
    >>> is_loopback("127.0.0.1"), is_loopback("localhost"), is_loopback("0.0.0.0")
    (True, True, False)
    """
    try:
        return ipaddress.ip_address(host.strip("[]")).is_loopback
    except ValueError:
        return host.lower() == "localhost"


def lan_address() -> str | None:
    """Return this machine's own address on the network it would use, or nothing without one."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(ELSEWHERE)
        except OSError:
            return None
        return str(probe.getsockname()[0])


def link(door: Door, *, token: str, name: str = LOOPBACK) -> str:
    """Return a one-time link."""
    return f"{door.address(name)}{PATH}?token={token}"


def square(link: str) -> str:
    """Return a link as a QR code made of half blocks, two rows of it in each line.

    White on black is asked for in each line: on a light screen the code would else be inverted,
    and not every camera reads that.
    """
    import segno

    drawn = io.StringIO()
    segno.make_qr(link, error="m").terminal(out=drawn, compact=True)
    return "".join(f"{WHITE_ON_BLACK}{line}{PLAIN}\n" for line in drawn.getvalue().splitlines())


def square_drawn(link: str) -> str:
    """Return a link as a QR code in SVG, black on white by day and by night."""
    import segno

    title = "The link as a code for a camera"
    drawn: str = segno.make_qr(link, error="m").svg_inline(
        scale=6, border=4, dark="#000", light="#fff", title=title, svgclass=None, lineclass=None
    )
    return drawn


def seal_words(certificate: Certificate) -> str:
    """Return what a browser will say of our own certificate, why, and what to compare."""
    lines = "".join(f"  {line}\n" for line in certificate.fingerprint_lines)
    ends = f"It is good until {certificate.ends:%Y-%m-%d}.\n"
    return WARNING_MEANS + lines + ends + (MADE_ANEW if certificate.is_new else "")


def opening_words(door: Door, *, token: str, certificate: Certificate | None = None) -> str:
    """Return what is said to somebody who started the program for this machine only."""
    return (
        f"Counterhoop is at {door.address()}/ on this machine only; stop it with Ctrl+C.\n"
        f"Open this link once, within a quarter of an hour:\n  {link(door, token=token)}\n"
        + (seal_words(certificate) if certificate else "")
    )


def lan_words(
    door: Door, *, token: str, phone_token: str, certificate: Certificate | None = None
) -> str:
    """Return what is said to somebody who lets the network in, with the square for a phone."""
    sealed = door.scheme == "https"
    how = "sealed" if sealed else "unsealed, so that others on it could read it"
    phone = link(door, token=phone_token, name=door.names[0])
    return (
        LAN_MEANS.format(how=how)
        + opening_words(door, token=token, certificate=certificate).replace(
            " on this machine only", ""
        )
        + f"For a phone, another link for once:\n  {phone}\n{square(phone)}\n"
    )
