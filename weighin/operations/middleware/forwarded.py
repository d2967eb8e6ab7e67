"""What a proxy says of where a request comes from: believed from the proxies of the settings, dropped from all others.

Wrapped round the whole application, so that throttles, logs, links and cookies know nothing of proxies: the address,
the scheme and the host of a request are the browser's.
"""

from collections.abc import Callable, Iterable
from ipaddress import IPv4Address, IPv4Network, IPv6Address, IPv6Network, ip_address
from typing import Any

Network = IPv4Network | IPv6Network
Application = Callable[[dict[str, Any], Any], Iterable[bytes]]
SAID = (
    "HTTP_FORWARDED",
    "HTTP_X_REAL_IP",
    "HTTP_X_FORWARDED_BY",
    "HTTP_X_FORWARDED_FOR",
    "HTTP_X_FORWARDED_HOST",
    "HTTP_X_FORWARDED_PORT",
    "HTTP_X_FORWARDED_PROTO",
)


def believing(application: Application, proxies: tuple[Network, ...]) -> Application:
    """The application behind these proxies; X-Forwarded-For, -Proto and -Host of anybody else never reach it."""

    def asked(environ: dict[str, Any], start_response: Any) -> Iterable[bytes]:
        said = {name: environ.pop(name, "") for name in SAID}
        sender = _address(environ.get("REMOTE_ADDR", "")) if proxies else None
        if sender is not None and _is_one_of(sender, proxies):
            environ["REMOTE_ADDR"] = str(_client(said["HTTP_X_FORWARDED_FOR"], sender, proxies))
            scheme, host = (_last(said[name]) for name in ("HTTP_X_FORWARDED_PROTO", "HTTP_X_FORWARDED_HOST"))
            if scheme in ("http", "https"):
                environ["wsgi.url_scheme"] = scheme
            if host:
                environ["HTTP_HOST"] = host
        return application(environ, start_response)

    return asked


def client_behind(proxies: tuple[Network, ...]) -> Callable[[str, str], str | None]:
    """Whose request it is that a proxy of ours sends, by its X-Forwarded-For; None where the sender is no such proxy."""

    def client(address: str, said: str) -> str | None:
        sender = _address(address) if proxies else None
        return str(_client(said, sender, proxies)) if sender is not None and _is_one_of(sender, proxies) else None

    return client


def _client(said: str, sender: IPv4Address | IPv6Address, proxies: tuple[Network, ...]) -> IPv4Address | IPv6Address:
    """The nearest address that is no proxy of ours: each proxy adds at the end who asked it, and only ours are believed."""
    nearest = sender
    for one in reversed(said.split(",")):
        address = _address(one.strip())
        if address is None:
            break
        nearest = address
        if not _is_one_of(address, proxies):
            break
    return nearest


def _is_one_of(address: IPv4Address | IPv6Address, proxies: tuple[Network, ...]) -> bool:
    return any(address in network for network in proxies)


def _address(text: str) -> IPv4Address | IPv6Address | None:
    """An address with or without a port; one of IPv4 that came over IPv6 as IPv4."""
    if text.startswith("["):
        text = text[1:].partition("]")[0]
    elif text.count(":") == 1:
        text = text.partition(":")[0]
    try:
        found = ip_address(text)
    except ValueError:
        return None
    return getattr(found, "ipv4_mapped", None) or found


def _last(said: str) -> str:
    return str(said).rpartition(",")[2].strip()
