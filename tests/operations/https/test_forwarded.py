"""Which address, scheme and host a request has, by what proxies say and by who they are."""

from ipaddress import ip_network
from typing import Any

import pytest

from weighin.operations.middleware.forwarded import believing

OURS = (ip_network("127.0.0.1"), ip_network("10.0.0.0/24"), ip_network("fd00::/8"))


def heard(address: str, **said: str) -> dict[str, Any]:
    """What the application hears of a request from this address."""
    found: dict[str, Any] = {}

    def application(environ: dict[str, Any], start_response: Any) -> list[bytes]:
        found.update(environ)
        return []

    environ = {"REMOTE_ADDR": address, "HTTP_HOST": "lake.example", "wsgi.url_scheme": "http", **said}
    believing(application, OURS)(environ, None)
    return found


@pytest.mark.parametrize(
    ("address", "said", "client"),
    [
        ("127.0.0.1", "192.0.2.7", "192.0.2.7"),
        ("127.0.0.1", "203.0.113.9, 192.0.2.7", "192.0.2.7"),  # the first is what the browser said of itself
        ("127.0.0.1", "192.0.2.7, 10.0.0.9", "192.0.2.7"),  # two proxies of ours
        ("127.0.0.1", "192.0.2.7, 198.51.100.1, 10.0.0.9", "198.51.100.1"),
        ("127.0.0.1", "192.0.2.7:51234", "192.0.2.7"),
        ("127.0.0.1", "[2001:db8::7]:51234", "2001:db8::7"),
        ("127.0.0.1", "2001:db8::7", "2001:db8::7"),
        ("::ffff:127.0.0.1", "192.0.2.7", "192.0.2.7"),
        ("fd00::1", "192.0.2.7", "192.0.2.7"),
        ("127.0.0.1", "", "127.0.0.1"),
        ("127.0.0.1", "unknown", "127.0.0.1"),
        ("127.0.0.1", "192.0.2.7, nonsense", "127.0.0.1"),
        ("192.0.2.8", "203.0.113.9", "192.0.2.8"),
        ("10.0.1.1", "203.0.113.9", "10.0.1.1"),
    ],
)
def test_the_address_is_the_nearest_that_is_no_proxy_of_ours(address: str, said: str, client: str) -> None:
    assert heard(address, HTTP_X_FORWARDED_FOR=said)["REMOTE_ADDR"] == client


def test_a_proxy_of_ours_says_scheme_and_host() -> None:
    found = heard("10.0.0.9", HTTP_X_FORWARDED_PROTO="https", HTTP_X_FORWARDED_HOST="club.example")
    assert (found["wsgi.url_scheme"], found["HTTP_HOST"]) == ("https", "club.example")
    assert heard("10.0.0.9", HTTP_X_FORWARDED_PROTO="gopher")["wsgi.url_scheme"] == "http"


def test_all_others_are_what_they_are() -> None:
    said = {
        "HTTP_X_FORWARDED_PROTO": "https", "HTTP_X_FORWARDED_HOST": "club.example", "HTTP_X_FORWARDED_FOR": "10.0.0.9",
        "HTTP_FORWARDED": "for=10.0.0.9;proto=https", "HTTP_X_REAL_IP": "10.0.0.9", "HTTP_X_FORWARDED_PORT": "443",
    }  # fmt: skip
    found = heard("192.0.2.8", **said)
    assert found == {"REMOTE_ADDR": "192.0.2.8", "HTTP_HOST": "lake.example", "wsgi.url_scheme": "http"}
    assert not set(said) & set(heard("127.0.0.1", **said)), "nothing behind this reads them again"
