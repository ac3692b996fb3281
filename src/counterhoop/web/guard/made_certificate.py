"""A key and a certificate for the names under which this program is asked for."""

from __future__ import annotations

import ipaddress
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from cryptography import x509

CALLED = "Counterhoop on this machine"
# Browsers refuse longer ones: 398 days (CA/Browser Forum, Baseline Requirements, from memory).
GOOD_FOR = timedelta(days=397)
# A phone's clock may be behind.
BEFORE = timedelta(days=1)


def names_in(certificate: x509.Certificate) -> set[str]:
    """Return the names that a certificate holds, each as ``host_name`` returns it."""
    from cryptography import x509

    try:
        held = certificate.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    except x509.ExtensionNotFound:
        return set()
    addresses = {
        f"[{address}]" if address.version == 6 else str(address)
        for address in held.get_values_for_type(x509.IPAddress)
    }
    return addresses | set(held.get_values_for_type(x509.DNSName))


def _general_name(name: str) -> x509.GeneralName:
    from cryptography import x509

    try:
        return x509.IPAddress(ipaddress.ip_address(name.strip("[]")))
    except ValueError:
        return x509.DNSName(name)


def made_certificate(names: list[str], *, now: datetime) -> bytes:
    """Return a new key and its certificate as PEM, the certificate signed by that key itself."""
    from cryptography import x509
    from cryptography.hazmat.primitives import serialization
    from cryptography.hazmat.primitives.asymmetric import ec
    from cryptography.hazmat.primitives.hashes import SHA256
    from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

    key = ec.generate_private_key(ec.SECP256R1())
    called = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, CALLED)])
    begins = now.astimezone(UTC) - BEFORE
    only_signs = dict.fromkeys(
        (
            *("content_commitment", "key_encipherment", "data_encipherment", "key_agreement"),
            *("key_cert_sign", "crl_sign", "encipher_only", "decipher_only"),
        ),
        False,
    )
    certificate = (
        x509.CertificateBuilder()
        .subject_name(called)
        .issuer_name(called)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(begins)
        .not_valid_after(begins + GOOD_FOR)
        .add_extension(x509.SubjectAlternativeName(map(_general_name, names)), critical=False)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(x509.KeyUsage(digital_signature=True, **only_signs), critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .sign(key, SHA256())
    )
    return key.private_bytes(
        serialization.Encoding.PEM,
        serialization.PrivateFormat.PKCS8,
        serialization.NoEncryption(),
    ) + certificate.public_bytes(serialization.Encoding.PEM)
