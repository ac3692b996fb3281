"""The program itself, served as a person starts it, and a visitor who was let in."""

from __future__ import annotations

import http.client
import os
import re
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from urllib.parse import urlencode

LINK = re.compile(r"http://127\.0\.0\.1:(\d+)/enter\?token=(\S+)")
BEGIN = "from counterhoop.cli import main; main()"


def warm_environment() -> dict[str, str]:
    """Return an environment in which Python keeps what it compiled, as an installed program has it.

    Some machines for tests forbid it; each start would then compile every library anew.
    """
    kept = {**os.environ, "PYTHONPYCACHEPREFIX": str(Path(tempfile.gettempdir()) / "compiled")}
    kept.pop("PYTHONDONTWRITEBYTECODE", None)
    return kept


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What came back, and how long it took to come whole."""

    status: int
    headers: dict[str, str]
    body: bytes
    seconds: float


class Visitor:
    """One browser's line to the server, kept open."""

    def __init__(self, port: int, *, cookie: str = "") -> None:
        self._port = port
        self._line = http.client.HTTPConnection("127.0.0.1", port, timeout=120)
        self.cookie = cookie

    def get(self, path: str) -> Answer:
        """Ask for a page."""
        return self._ask("GET", path, headers={})

    def post(self, path: str, **fields: str) -> Answer:
        """Send a form."""
        return self._ask(
            "POST", path, body=urlencode(fields),
            headers={
                "Content-Type": "application/x-www-form-urlencoded",
                "Origin": f"http://127.0.0.1:{self._port}",
            },
        )  # fmt: skip

    def _ask(self, method: str, path: str, *, headers: dict[str, str], body: str = "") -> Answer:
        if self.cookie:
            headers["Cookie"] = self.cookie
        began = time.perf_counter()
        self._line.request(method, path, body or None, headers)
        answer = self._line.getresponse()
        content = answer.read()
        seconds = time.perf_counter() - began
        got = {name.casefold(): value for name, value in answer.getheaders()}
        return Answer(status=answer.status, headers=got, body=content, seconds=seconds)


@dataclass(frozen=True, slots=True, kw_only=True)
class Served:
    """A server that runs, and the cookie of a browser that was let in."""

    process: subprocess.Popen[str]
    port: int
    cookie: str

    def visitor(self) -> Visitor:
        """Return a further browser tab of the one that was let in."""
        return Visitor(self.port, cookie=self.cookie)


@contextmanager
def served(data: Path) -> Iterator[Served]:
    """Serve a data folder until the block is left."""
    words = [sys.executable, "-c", BEGIN, "serve", "--no-browser", "--port", "0"]
    process = subprocess.Popen(
        [*words, "--data", str(data)], stdout=subprocess.PIPE, text=True, env=warm_environment()
    )
    try:
        assert process.stdout is not None
        found = next(filter(None, map(LINK.search, process.stdout)), None)
        assert found, "the program did not say where it is"
        port = int(found[1])
        entered = Visitor(port).post("/enter", token=found[2], name="window bench")
        assert entered.status == 303, entered
        cookie = entered.headers["set-cookie"].partition(";")[0]
        yield Served(process=process, port=port, cookie=cookie)
    finally:
        process.terminate()
        process.wait(timeout=60)
