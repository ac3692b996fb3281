"""A PostgreSQL server of the tests' own: on a socket, in a folder that goes when they end."""

from __future__ import annotations

import os
import shutil
import subprocess
import tempfile
from pathlib import Path

HOW_TO_GET_IT = (
    "needs the programs of a PostgreSQL server; on Debian and Ubuntu: sudo apt install postgresql"
)
_PORT = 54329  # Names the socket file only: nothing listens on a network.


def programs() -> Path | None:
    """Return the folder of initdb and pg_ctl, the newest there is, or None."""
    found = sorted(
        Path("/usr/lib/postgresql").glob("*/bin/initdb"), key=lambda file: int(file.parts[-3])
    )
    if found:
        return found[-1].parent
    here = shutil.which("initdb")
    return Path(here).resolve().parent if here else None


class Cluster:
    """One server. It refuses to run as root, so as root it runs as the user postgres."""

    def __init__(self, bin_folder: Path) -> None:
        self.bin = bin_folder
        self.folder = Path(tempfile.mkdtemp(prefix="drums-"))
        self._as_user: list[str] = []
        self._made = 0
        if os.geteuid() == 0:
            self._as_user = ["runuser", "-u", "postgres", "--"]
            shutil.chown(self.folder, "postgres", "postgres")
        self._call(
            "initdb", "-D", self.data, "-A", "trust", "-U", "bench", "-E", "UTF8", "--no-sync"
        )
        self.start()

    @property
    def data(self) -> str:
        return str(self.folder / "data")

    def start(self) -> None:
        # Without fsync: these tests let programs fall over, not the power.
        options = f"-k {self.folder} -p {_PORT} -c listen_addresses='' -c fsync=off"
        log = str(self.folder / "log")
        self._call("pg_ctl", "-D", self.data, "-l", log, "-o", options, "-w", "start")

    def stop(self, *, mode: str = "immediate") -> None:
        """Stop the server; "immediate" is what it looks like when it falls over."""
        self._call("pg_ctl", "-D", self.data, "-m", mode, "-w", "stop")

    def new_database(self) -> str:
        """Make an empty database and return its address."""
        self._made += 1
        name = f"shelf{self._made}"
        host = ["-h", str(self.folder), "-p", str(_PORT), "-U", "bench"]
        self._call("createdb", *host, "-T", "template0", name)
        return f"postgresql+psycopg://bench@/{name}?host={self.folder}&port={_PORT}"

    def close(self) -> None:
        self.stop()
        shutil.rmtree(self.folder, ignore_errors=True)

    def _call(self, program: str, *words: str) -> None:
        done = subprocess.run(
            [*self._as_user, str(self.bin / program), *words],
            cwd=self.folder,
            stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE if program != "pg_ctl" else subprocess.DEVNULL,
            stderr=subprocess.STDOUT if program != "pg_ctl" else subprocess.DEVNULL,
            text=True,
            check=False,
        )
        assert done.returncode == 0, f"{program} failed: {done.stdout}"
