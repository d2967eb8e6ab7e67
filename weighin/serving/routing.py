"""Which lane a request goes in, by its address and by whether it shows who asks."""

import re
from collections.abc import Mapping

STATIONS, MEMBERS, READERS = "stations", "members", "readers"
# What a tablet, a phone at the ramp and a scale ask; tests hold it against the addresses of the site.
OF_A_STATION = re.compile(r"/api/events/[^/]+/(station|slips|checkins|care|ramp|scales|scales/now|readings)")
OF_A_TABLE = re.compile(r"/table/[^/]+/.*")
SAFE = ("GET", "HEAD")
SESSION = re.compile(r"(?:^|;\s*)sessionid=([^;]*)")
SIGNED = re.compile(r"(signed +[0-9a-f]+):", re.IGNORECASE)


def lane_of(method: str, path: str, headers: Mapping[str, str]) -> str:
    """The lane of a request. ``headers`` have names in capitals with underscores, as the parser of waitress writes them.

    Whoever shows neither a token nor a session is a reader, so that no crowd of strangers fills the stations' lane; who
    sends something is with the members, since a write may have to wait.
    """
    known = "AUTHORIZATION" in headers or SESSION.search(headers.get("COOKIE", "")) is not None
    if known and OF_A_STATION.fullmatch(path):
        return STATIONS
    if known or method not in SAFE or OF_A_TABLE.fullmatch(path):
        return MEMBERS
    return READERS


def shown_by(headers: Mapping[str, str]) -> str:
    """What says who asks, the same in each of its requests: the token, the name of one that signs, or the session."""
    said = headers.get("AUTHORIZATION")
    if said is not None:
        signed = SIGNED.match(said)
        return signed[1] if signed else said
    session = SESSION.search(headers.get("COOKIE", ""))
    return session[1] if session else ""


def network_of(address: str) -> str:
    """Whom an address belongs to: an IPv4 address itself, of an IPv6 address its first 64 bits, which one device may fill."""
    if ":" not in address or address.startswith("::ffff:"):
        return address
    parts = address.partition("::")[0].split(":")
    return ":".join(parts[:4])
