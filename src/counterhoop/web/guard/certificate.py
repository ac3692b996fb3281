"""The certificate that this program makes for itself, so that a phone's microphone may be used.

Nobody outside vouches for it: a browser warns, and what proves that there is no stranger between
the two is that both show the same fingerprint. It cannot vouch for anything else either (it is no
authority), so that a phone which is told to trust it trusts this one door and no other site.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING

from counterhoop.web.guard.door import LOOPBACK, OTHER_LOOPBACK
from counterhoop.web.guard.made_certificate import made_certificate, names_in
from counterhoop.web.guard.private_file import is_private, write_private

if TYPE_CHECKING:
    from cryptography import x509

NAME = "https.pem"
# A program that is left running must not outlive it.
RENEWED_BEFORE_END = timedelta(days=14)
PAIRS_A_LINE = 8


@dataclass(frozen=True, slots=True, kw_only=True)
class Certificate:
    """A certificate with its key, in one file.

    Attributes
    ----------
    file : pathlib.Path
        Key and certificate as PEM.
    fingerprint : str
        SHA-256 of the certificate in pairs of hexadecimal digits, as browsers show it.
    ends : datetime
        Until when it is good.
    is_new : bool
        Whether it was made just now, so that every phone will warn again.
    """

    file: Path
    fingerprint: str
    ends: datetime
    is_new: bool

    @property
    def fingerprint_lines(self) -> list[str]:
        """The fingerprint in lines short enough to compare by eye."""
        pairs = self.fingerprint.split(":")
        return [
            " ".join(pairs[start : start + PAIRS_A_LINE])
            for start in range(0, len(pairs), PAIRS_A_LINE)
        ]


def own_certificate(folder: Path, *, names: tuple[str, ...], now: datetime) -> Certificate:
    """Return the certificate of the data folder; make one when there is none that still serves.

    A new one is made when the old one nears its end, does not hold all names, cannot be read, or
    could be read by others on this machine.

    Parameters
    ----------
    folder : pathlib.Path
        The data folder.
    names : tuple of str
        Names and addresses besides loopback, each as ``host_name`` returns it.
    now : datetime
        The time of day, with its zone.

    Raises
    ------
    CannotDo
        When the folder does not take it.
    """
    file = folder / NAME
    wanted = {LOOPBACK, *OTHER_LOOPBACK, *names}
    kept = _kept(file, wanted=wanted, now=now)
    if kept is None:
        write_private(file, made_certificate(sorted(wanted), now=now))
    certificate = kept or _read(file)
    return Certificate(
        file=file,
        fingerprint=_fingerprint(certificate),
        ends=certificate.not_valid_after_utc,
        is_new=kept is None,
    )


def _read(file: Path) -> x509.Certificate:
    from cryptography import x509

    return x509.load_pem_x509_certificate(file.read_bytes())


def _kept(file: Path, *, wanted: set[str], now: datetime) -> x509.Certificate | None:
    from cryptography.hazmat.primitives.serialization import load_pem_private_key

    try:
        if not is_private(file):
            return None
        certificate = _read(file)
        key = load_pem_private_key(file.read_bytes(), password=None)
    except (OSError, ValueError, TypeError):
        return None
    begins, ends = certificate.not_valid_before_utc, certificate.not_valid_after_utc
    serves = (
        key.public_key() == certificate.public_key()
        and begins <= now < ends - RENEWED_BEFORE_END
        and wanted <= names_in(certificate)
    )
    return certificate if serves else None


def _fingerprint(certificate: x509.Certificate) -> str:
    from cryptography.hazmat.primitives.hashes import SHA256

    return certificate.fingerprint(SHA256()).hex(":").upper()
