"""The names under which this program may be asked for, and the one among them that it uses."""

from __future__ import annotations

import re
from dataclasses import dataclass
from ipaddress import IPv6Address, ip_address

from counterhoop.errors import BadInput

LOOPBACK = "127.0.0.1"
# Browsers fill in both of these for the same machine; cookies and origins differ, so one is enough.
OTHER_LOOPBACK = ("localhost", "[::1]")
USUAL_PORT = {"http": 80, "https": 443}
HOST_NAME = re.compile(
    r"(?=.{1,253}$)[a-z0-9]([a-z0-9-]*[a-z0-9])?(\.[a-z0-9]([a-z0-9-]*[a-z0-9])?)*"
)


def host_name(written: str) -> str:
    """Return a name that a person gave, as a browser puts it into the Host line.

    Raises
    ------
    BadInput
        When it is no plain host name or address: a pattern or a port would let strangers in.

    Examples
    --------
    >>> host_name("Bench.local"), host_name("fe80::1")
    ('bench.local', '[fe80::1]')
    """
    name = written.strip().lower().strip("[]")
    try:
        address = ip_address(name)
    except ValueError:
        if HOST_NAME.fullmatch(name) and not name.replace(".", "").isdigit():
            return name
        raise BadInput(
            "not the name of a machine",
            where="name",
            given=written,
            wanted='a plain name or address without a port, such as "bench.local"',
        ) from None
    return f"[{address}]" if isinstance(address, IPv6Address) else str(address)


@dataclass(frozen=True, slots=True, kw_only=True)
class Door:
    """Where this program listens and by which names it may be asked for.

    Attributes
    ----------
    port : int
        The port that the server really listens on.
    scheme : str
        "http" or "https".
    names : tuple of str
        Further names that the person gave, each as ``host_name`` returns it.
    on_network : bool
        Whether other devices can reach it at all.
    """

    port: int
    scheme: str = "http"
    names: tuple[str, ...] = ()
    on_network: bool = False

    def host(self, name: str) -> str:
        """Return the Host line that a browser sends for a name: the usual port is left out."""
        return name if self.port == USUAL_PORT[self.scheme] else f"{name}:{self.port}"

    @property
    def canonical(self) -> str:
        """The one loopback host that pages are served under."""
        return self.host(LOOPBACK)

    def knows(self, host: str) -> bool:
        """Tell whether pages are served under this Host line."""
        return host.lower() in {self.canonical, *(self.host(name) for name in self.names)}

    def redirects(self, host: str) -> bool:
        """Tell whether this Host line is another loopback name of the same door."""
        return not self.knows(host) and host.lower() in {self.host(n) for n in OTHER_LOOPBACK}

    def address(self, name: str = LOOPBACK) -> str:
        """Return the address to type, for one of the names."""
        return f"{self.scheme}://{self.host(name)}"
