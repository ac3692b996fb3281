"""Where a store is: one file of this machine, or a database that several benches share."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from counterhoop.errors import BadInput

POSTGRESQL = "postgresql+psycopg"
DATABASE_NAME = "counterhoop.sqlite3"


@dataclass(frozen=True, slots=True, kw_only=True)
class Address:
    """Where the database and the files of a store lie.

    Attributes
    ----------
    database : str
        The address of the database, with its password if it has one: not for showing.
    folder : pathlib.Path
        Where photographs, sounds and copies from before a migration lie.
    """

    database: str
    folder: Path

    @property
    def in_a_file(self) -> bool:
        """Whether the database is a file of this machine."""
        return not self.database

    @property
    def file(self) -> Path:
        """The database file of a store that lies in one."""
        return self.folder / DATABASE_NAME

    @property
    def files(self) -> Path:
        """The folder of photographs and sounds."""
        return self.folder / "files"

    @property
    def words(self) -> str:
        """The address as it may be shown: without a password."""
        if self.in_a_file:
            return str(self.file)
        from sqlalchemy.engine import make_url

        return make_url(self.database).render_as_string(hide_password=True)


def address_of(store: str = "", *, data: Path | None = None) -> Address:
    """Return where a store is.

    Parameters
    ----------
    store : str
        ``postgresql+psycopg://...``, or nothing for a file in the data folder.
    data : pathlib.Path, optional
        The data folder; left out, the user's own.

    Raises
    ------
    BadInput
        For an address of another kind.

    Examples
    --------
    >>> address_of(data=Path("drums")).file.name
    'counterhoop.sqlite3'
    """
    if data is None:
        from platformdirs import user_data_path

        data = user_data_path("counterhoop", appauthor=False)
    database = _checked(store) if store else ""
    return Address(database=database, folder=data.absolute())


def _checked(store: str) -> str:
    from sqlalchemy.engine import make_url
    from sqlalchemy.exc import ArgumentError

    wanted = f'"{POSTGRESQL}://bench@machine/name", or nothing for a file on this machine'
    # The address may hold a password: it is not repeated in the message.
    try:
        url = make_url(store)
    except (ArgumentError, ValueError):
        raise BadInput("cannot be read as an address", where="store", wanted=wanted) from None
    if url.drivername != POSTGRESQL:
        raise BadInput(
            "not a database that Counterhoop knows",
            where="store",
            given=url.drivername,
            wanted=wanted,
        )
    return store
