"""The lake's own certificate: an authority of this site, and a certificate by it for the names and addresses it is reached at.

The authority's key could vouch for any site to a device that trusts it. So its certificate is bound to addresses of local
networks, names in .local and the names of this site (RFC 5280, 4.2.1.10): a browser takes it for nothing else.
"""

import os
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from ipaddress import ip_address, ip_network
from pathlib import Path

from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

from weighin import environment

AUTHORITY_DAYS = 3650
DAYS = 365  # Apple's devices take no more than 825 days, from no authority
RENEWED_BEFORE = timedelta(days=30)
CLOCK_MAY_BE_BEHIND = timedelta(days=1)
AT_HOME = ("localhost", "local")
LOCAL = (
    "10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16", "169.254.0.0/16", "127.0.0.0/8", "::1/128", "fc00::/7", "fe80::/10",
)  # fmt: skip


@dataclass(frozen=True)
class LakeCertificate:
    """Where the certificate, its key and the authority's certificate lie, and what a person compares."""

    chain: Path
    key: Path
    authority: Path
    fingerprint: str  # SHA-256 of the authority's certificate, in pairs: a device shows it when it is to trust it
    own_fingerprint: str  # of the certificate itself: a browser shows it when it asks
    until: datetime


def lake_certificate(folder: Path, names: Iterable[str], now: datetime | None = None) -> LakeCertificate:
    """The certificate for these names and addresses, made anew when it is missing, ends within a month or lacks one.

    The authority lasts ten years, so that a device that trusts it is asked once; it is made anew when a name is none that
    it may vouch for. Keys are their owner's alone. Raises OSError when the folder cannot be written, and ValueError when
    what lies there is no certificate.
    """
    now = now or datetime.now(UTC)
    folder.mkdir(environment.FOLDER_OF_OWNER, parents=True, exist_ok=True)
    asked = list(dict.fromkeys([name.strip("[]").lower() for name in names] + ["localhost", "127.0.0.1"]))
    found = _kept(folder / "authority.pem", folder / "authority-key.pem")
    if found is None or _ends(found[0], now) or not all(_may_vouch(found[0], name) for name in asked):
        found = _authority(asked, now)
        _write(folder / "authority-key.pem", _key_text(found[1]))
        _write(folder / "authority.pem", _text(found[0]))
    authority, authority_key = found
    held = _kept(folder / "certificate.pem", folder / "key.pem")
    if held is None or _ends(held[0], now) or not set(asked) <= _names(held[0]) or not _is_by(held[0], authority):
        held = _certificate(asked, authority, authority_key, now)
        _write(folder / "key.pem", _key_text(held[1]))
        _write(folder / "certificate.pem", _text(held[0]) + _text(authority))
    return LakeCertificate(
        folder / "certificate.pem",
        folder / "key.pem",
        folder / "authority.pem",
        _fingerprint(authority),
        _fingerprint(held[0]),
        held[0].not_valid_after_utc,
    )


def _authority(names: list[str], now: datetime) -> tuple[x509.Certificate, ec.EllipticCurvePrivateKey]:
    key = ec.generate_private_key(ec.SECP256R1())
    figures = x509.SubjectKeyIdentifier.from_public_key(key.public_key()).digest.hex()[:8]
    name = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, f"weighin at the lake {figures}")])
    local: list[x509.GeneralName] = [x509.IPAddress(ip_network(network)) for network in LOCAL]
    local += [x509.IPAddress(ip_network(one)) for one in names if _is_address(one) and not _is_local(one)]
    local += [x509.DNSName(one) for one in dict.fromkeys([*AT_HOME, *names]) if not _is_address(one)]
    signing = x509.KeyUsage(False, False, False, False, False, True, True, False, False)
    made = (
        _begun(name, name, key.public_key(), now, AUTHORITY_DAYS)
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .add_extension(signing, critical=True)
        .add_extension(x509.NameConstraints(local, None), critical=True)
        .sign(key, hashes.SHA256())
    )
    return made, key


def _certificate(
    names: list[str], authority: x509.Certificate, authority_key: ec.EllipticCurvePrivateKey, now: datetime
) -> tuple[x509.Certificate, ec.EllipticCurvePrivateKey]:
    key = ec.generate_private_key(ec.SECP256R1())
    name = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, "weighin")])
    by = x509.AuthorityKeyIdentifier.from_issuer_public_key(authority_key.public_key())
    made = (
        _begun(name, authority.subject, key.public_key(), now, DAYS)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(x509.SubjectAlternativeName([_general(one) for one in names]), critical=False)
        .add_extension(x509.KeyUsage(True, False, False, False, False, False, False, False, False), critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .add_extension(by, critical=False)
        .sign(authority_key, hashes.SHA256())
    )
    return made, key


def _begun(
    name: x509.Name, by: x509.Name, key: ec.EllipticCurvePublicKey, now: datetime, days: int
) -> x509.CertificateBuilder:
    return (
        x509.CertificateBuilder()
        .subject_name(name)
        .issuer_name(by)
        .public_key(key)
        .serial_number(x509.random_serial_number())
        .not_valid_before(now - CLOCK_MAY_BE_BEHIND)
        .not_valid_after(now + timedelta(days=days))
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key), critical=False)
    )


def _kept(certificate: Path, key: Path) -> tuple[x509.Certificate, ec.EllipticCurvePrivateKey] | None:
    """A certificate and its key as they lie there; None when one is missing or they do not belong together."""
    if not certificate.exists() or not key.exists():
        return None
    found = x509.load_pem_x509_certificate(certificate.read_bytes())
    private = serialization.load_pem_private_key(key.read_bytes(), None)
    if not isinstance(private, ec.EllipticCurvePrivateKey) or private.public_key() != found.public_key():
        return None
    return found, private


def _ends(certificate: x509.Certificate, now: datetime) -> bool:
    return certificate.not_valid_after_utc - RENEWED_BEFORE < now or certificate.not_valid_before_utc > now


def _is_by(certificate: x509.Certificate, authority: x509.Certificate) -> bool:
    try:
        certificate.verify_directly_issued_by(authority)
    except Exception:  # of several kinds; whichever it is, another one is made
        return False
    return True


def _may_vouch(authority: x509.Certificate, name: str) -> bool:
    bounds = authority.extensions.get_extension_for_class(x509.NameConstraints).value.permitted_subtrees or ()
    if _is_address(name):
        networks = [one.value for one in bounds if isinstance(one, x509.IPAddress)]
        return any(ip_address(name) in network for network in networks)  # type: ignore[operator]
    allowed = [one.value for one in bounds if isinstance(one, x509.DNSName)]
    return any(name == one or name.endswith(f".{one}") for one in allowed)


def _names(certificate: x509.Certificate) -> set[str]:
    held = certificate.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    return {*held.get_values_for_type(x509.DNSName), *map(str, held.get_values_for_type(x509.IPAddress))}


def _general(name: str) -> x509.GeneralName:
    return x509.IPAddress(ip_address(name)) if _is_address(name) else x509.DNSName(name)


def _is_address(name: str) -> bool:
    try:
        ip_address(name)
    except ValueError:
        return False
    return True


def _is_local(name: str) -> bool:
    return any(ip_address(name) in ip_network(network) for network in LOCAL)


def _fingerprint(certificate: x509.Certificate) -> str:
    figures = certificate.fingerprint(hashes.SHA256()).hex().upper()
    return ":".join(figures[at : at + 2] for at in range(0, len(figures), 2))


def _text(certificate: x509.Certificate) -> bytes:
    return certificate.public_bytes(serialization.Encoding.PEM)


def _key_text(key: ec.EllipticCurvePrivateKey) -> bytes:
    return key.private_bytes(
        serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption()
    )


def _write(file: Path, text: bytes) -> None:
    """Write beside its place, its owner's alone, then move it there whole."""
    new = file.with_name(f"{file.name}-{os.getpid()}")
    new.unlink(missing_ok=True)
    with os.fdopen(os.open(new, os.O_WRONLY | os.O_CREAT | os.O_EXCL, environment.OWNER_ONLY), "wb") as written:
        written.write(text)
    os.replace(new, file)
