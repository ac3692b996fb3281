"""The certificate that the program makes; truth: OpenSSL's own checks through Python's ``ssl``."""

from __future__ import annotations

import hashlib
import os
import socket
import ssl
import threading
from datetime import UTC, datetime, timedelta

import pytest
from cryptography import x509
from cryptography.hazmat.primitives import serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.hashes import SHA256
from cryptography.x509.oid import NameOID

from counterhoop.web.guard.certificate import own_certificate
from counterhoop.web.guard.door import Door
from counterhoop.web.guard.link_words import lan_words, opening_words

NOW = datetime.now(UTC)
NAMES = ("192.0.2.7", "[2001:db8::7]", "bench.local")


def made(folder, *, names=NAMES, now=NOW):
    return own_certificate(folder, names=names, now=now)


def certificate_in(pem):
    start = pem.index(b"-----BEGIN CERTIFICATE")
    return pem[start:].decode()


def shaken(server_file, trusted_file, name):
    """Shake hands with a server that shows a file, as a client that trusts another."""
    server = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    server.load_cert_chain(server_file)
    client = ssl.create_default_context(cafile=trusted_file)
    ours, theirs = socket.socketpair()

    def answer():
        try:
            server.wrap_socket(theirs, server_side=True).close()
        except OSError:
            theirs.close()

    answering = threading.Thread(target=answer)
    answering.start()
    try:
        client.wrap_socket(ours, server_hostname=name).close()
    finally:
        ours.close()
        answering.join()


@pytest.mark.parametrize(
    "name", ["127.0.0.1", "localhost", "::1", "192.0.2.7", "2001:db8::7", "bench.local"]
)
def test_it_proves_each_name_that_we_answer_to(tmp_path, name):
    kept = made(tmp_path)
    shaken(kept.file, kept.file, name)


@pytest.mark.parametrize("name", ["evil.example", "192.0.2.8", "x.bench.local", "local"])
def test_it_proves_no_other_name(tmp_path, name):
    kept = made(tmp_path)
    with pytest.raises(ssl.SSLCertVerificationError):
        shaken(kept.file, kept.file, name)


def test_it_vouches_for_no_other_site_even_on_a_phone_that_was_told_to_trust_it(tmp_path):
    """Somebody who got hold of the key signs a certificate for another site with it."""
    kept = made(tmp_path)
    pem = kept.file.read_bytes()
    own = x509.load_pem_x509_certificate(pem)
    key = ec.generate_private_key(ec.SECP256R1())
    forged = (
        x509.CertificateBuilder()
        .subject_name(x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, "evil.example")]))
        .issuer_name(own.subject)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(NOW - timedelta(hours=1))
        .not_valid_after(NOW + timedelta(days=9))
        .add_extension(x509.SubjectAlternativeName([x509.DNSName("evil.example")]), critical=False)
        .sign(serialization.load_pem_private_key(pem, password=None), SHA256())
    )
    file = tmp_path / "forged.pem"
    file.write_bytes(
        key.private_bytes(
            serialization.Encoding.PEM,
            serialization.PrivateFormat.PKCS8,
            serialization.NoEncryption(),
        )
        + forged.public_bytes(serialization.Encoding.PEM)
    )
    with pytest.raises(ssl.SSLCertVerificationError):
        shaken(file, kept.file, "evil.example")


def test_the_fingerprint_is_that_of_the_certificate_itself(tmp_path):
    kept = made(tmp_path)
    shown = hashlib.sha256(ssl.PEM_cert_to_DER_cert(certificate_in(kept.file.read_bytes())))
    assert kept.fingerprint.replace(":", "").lower() == shown.hexdigest()
    assert " ".join(kept.fingerprint_lines).replace(" ", ":") == kept.fingerprint
    assert [len(line) for line in kept.fingerprint_lines] == [23] * 4


def test_it_is_kept_between_two_starts_and_read_by_its_owner_only(tmp_path):
    first = made(tmp_path)
    again = made(tmp_path, now=NOW + timedelta(days=300))
    assert (first.is_new, again.is_new) == (True, False)
    assert again.fingerprint == first.fingerprint
    assert os.stat(first.file).st_mode & 0o777 == 0o600
    assert [file.name for file in tmp_path.iterdir()] == ["https.pem"]


def test_fewer_names_need_no_new_one_but_a_further_name_does(tmp_path):
    first = made(tmp_path)
    assert made(tmp_path, names=()).fingerprint == first.fingerprint
    other = made(tmp_path, names=("192.0.2.9",))
    assert other.is_new
    shaken(other.file, other.file, "192.0.2.9")


@pytest.mark.parametrize(("days", "anew"), [(380, False), (383, True), (500, True), (-2, True)])
def test_it_is_made_anew_near_its_end_and_when_the_clock_was_wrong(tmp_path, days, anew):
    """By hand: good for 397 days from the day before, renewed 14 days before the end."""
    first = made(tmp_path)
    now = NOW + timedelta(days=days)
    later = made(tmp_path, now=now)
    assert later.is_new is anew
    assert (later.fingerprint != first.fingerprint) is anew
    assert later.ends > now


def open_to_others(file):
    file.chmod(0o640)


def damaged(file):
    file.write_bytes(file.read_bytes().replace(b"CERTIFICATE", b"CERTIFIED"))


def without_its_key(file):
    file.write_bytes(certificate_in(file.read_bytes()).encode())


def with_another_key(file):
    key = ec.generate_private_key(ec.SECP256R1()).private_bytes(
        serialization.Encoding.PEM,
        serialization.PrivateFormat.PKCS8,
        serialization.NoEncryption(),
    )
    file.write_bytes(key + certificate_in(file.read_bytes()).encode())


def emptied(file):
    file.write_bytes(b"")


@pytest.mark.parametrize(
    "harm", [open_to_others, damaged, without_its_key, with_another_key, emptied]
)
def test_one_that_cannot_be_trusted_any_more_is_not_used_again(tmp_path, harm):
    first = made(tmp_path)
    harm(first.file)
    later = made(tmp_path)
    assert later.is_new
    assert later.fingerprint != first.fingerprint
    assert os.stat(later.file).st_mode & 0o777 == 0o600
    shaken(later.file, later.file, "127.0.0.1")


def test_what_the_phone_will_say_is_said_before_with_what_to_compare(tmp_path):
    kept = made(tmp_path)
    door = Door(port=8377, scheme="https", names=("192.0.2.7",), on_network=True)
    for words in (
        opening_words(door, token="one", certificate=kept),
        lan_words(door, token="one", phone_token="two", certificate=kept),
    ):
        assert "will warn once" in words
        assert all(line in words for line in kept.fingerprint_lines)
        assert "It is new" in words
    assert "It is new" not in opening_words(door, token="one", certificate=made(tmp_path))
