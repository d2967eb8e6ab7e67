"""The lake's own certificate: for which names, how long, whose keys, and what its authority may vouch for."""

import ssl
import stat
from contextlib import suppress
from datetime import UTC, datetime, timedelta
from pathlib import Path
from unittest.mock import patch

import pytest
from cryptography import x509
from cryptography.hazmat.primitives import serialization

from weighin.operations.services import certificates
from weighin.operations.services.certificates import LakeCertificate, lake_certificate

NAMES = ["192.168.8.10", "lake.example", "club-laptop.local"]
NOW = datetime(2026, 6, 20, 12, tzinfo=UTC)


def leaf(folder: Path) -> x509.Certificate:
    return x509.load_pem_x509_certificates((folder / "certificate.pem").read_bytes())[0]


def shaken_hands(made: LakeCertificate, authority: Path, name: str) -> None:
    """A browser's greeting to a server with this certificate, under ``name``. Raises ssl.SSLCertVerificationError."""
    serving, asking = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER), ssl.create_default_context(cafile=str(authority))
    serving.load_cert_chain(made.chain, made.key)
    up, down = ssl.MemoryBIO(), ssl.MemoryBIO()
    server = serving.wrap_bio(up, down, server_side=True)
    client = asking.wrap_bio(down, up, server_hostname=name)
    for side in (client, server, client):
        with suppress(ssl.SSLWantReadError):
            side.do_handshake()
    assert client.getpeercert()


@pytest.mark.parametrize("name", [*NAMES, "localhost", "127.0.0.1"])
def test_a_browser_that_trusts_the_authority_finds_it_good(tmp_path: Path, name: str) -> None:
    made = lake_certificate(tmp_path, NAMES)
    shaken_hands(made, made.authority, name)
    with pytest.raises(ssl.SSLCertVerificationError, match="certificate verify failed"):
        shaken_hands(made, lake_certificate(tmp_path / "other", NAMES).authority, name)


@pytest.mark.parametrize("name", ["bank.example", "8.8.8.8"])
def test_a_stolen_authority_is_good_for_no_other_site(tmp_path: Path, name: str) -> None:
    made = lake_certificate(tmp_path, NAMES)
    authority = x509.load_pem_x509_certificate(made.authority.read_bytes())
    key = serialization.load_pem_private_key((tmp_path / "authority-key.pem").read_bytes(), None)
    with patch.object(certificates, "_authority", lambda names, now: (authority, key)):
        forged = lake_certificate(tmp_path, [name])
    assert forged.fingerprint == made.fingerprint
    with pytest.raises(ssl.SSLCertVerificationError, match="permitted subtree violation"):
        shaken_hands(forged, made.authority, name)


def test_it_lasts_a_year_and_is_renewed_by_itself(tmp_path: Path) -> None:
    first = lake_certificate(tmp_path, NAMES, NOW)
    assert first.until - NOW == timedelta(days=365)
    text = first.chain.read_bytes()
    assert lake_certificate(tmp_path, NAMES, NOW + timedelta(days=300)).chain.read_bytes() == text
    later = lake_certificate(tmp_path, NAMES, NOW + timedelta(days=340))
    assert later.until - NOW == timedelta(days=705)
    assert later.fingerprint == first.fingerprint, "devices that trust the authority are not asked again"


def test_another_address_of_the_lake_needs_no_new_trust(tmp_path: Path) -> None:
    first = lake_certificate(tmp_path, NAMES, NOW)
    other = lake_certificate(tmp_path, [*NAMES, "10.20.30.40"], NOW)
    assert other.fingerprint == first.fingerprint
    held = leaf(tmp_path).extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    assert "10.20.30.40" in map(str, held.get_values_for_type(x509.IPAddress))


def test_the_authority_vouches_for_local_names_and_the_sites_alone(tmp_path: Path) -> None:
    made = lake_certificate(tmp_path, NAMES, NOW)
    bounds = x509.load_pem_x509_certificate(made.authority.read_bytes()).extensions
    constraint = bounds.get_extension_for_class(x509.NameConstraints)
    permitted = {str(one.value) for one in constraint.value.permitted_subtrees or ()}
    assert constraint.critical
    assert {one for one in permitted if "/" not in one} == {"localhost", "local", "lake.example", "club-laptop.local"}
    assert "0.0.0.0/0" not in permitted and "192.168.0.0/16" in permitted
    assert lake_certificate(tmp_path, ["other.example"], NOW).fingerprint != made.fingerprint


@pytest.mark.skipif("__import__('os').name != 'posix'")
def test_keys_are_their_owners_alone(tmp_path: Path) -> None:
    lake_certificate(tmp_path / "https", NAMES, NOW)
    assert stat.S_IMODE((tmp_path / "https").stat().st_mode) == 0o700
    assert {stat.S_IMODE(file.stat().st_mode) for file in (tmp_path / "https").iterdir()} == {0o600}


def test_a_key_that_is_another_ones_is_made_anew(tmp_path: Path) -> None:
    made = lake_certificate(tmp_path / "one", NAMES, NOW)
    other = lake_certificate(tmp_path / "two", NAMES, NOW)
    made.key.write_bytes(other.key.read_bytes())
    again = lake_certificate(tmp_path / "one", NAMES, NOW)
    assert again.key.read_bytes() != other.key.read_bytes()
