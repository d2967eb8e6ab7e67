"""The production server with a certificate of its own, as a person starts it and a browser asks it."""

import contextlib
import http.client
import re
import socket
import ssl
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from hashlib import sha256
from pathlib import Path

import pytest
from patience import SECONDS
from served import Site

NAME = "lake.example"


class Encrypted(Site):
    """A site that serves https. Browsers here know its authority, and it is found by its own address."""

    def context(self) -> ssl.SSLContext:
        return ssl.create_default_context(cafile=str(self.data / "https" / "authority.pem"))

    def ask(self, path: str, **headers: str) -> tuple[int, dict[str, str], str]:
        line = http.client.HTTPSConnection("127.0.0.1", self.port, timeout=SECONDS, context=self.context())
        with contextlib.closing(line):
            line.request("GET", path, headers=headers)
            answer = line.getresponse()
            return answer.status, {name.lower(): value for name, value in answer.getheaders()}, answer.read().decode()

    def _answers(self) -> bool:
        return (self.data / "https" / "authority.pem").exists() and super()._answers()


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Encrypted]:
    site = Encrypted(tmp_path_factory.mktemp("data"), WEIGHIN_HOSTS=NAME)
    assert site.manage("migrate", "--verbosity", "0").returncode == 0
    site.start("127.0.0.1", "--https")
    yield site
    assert site.stop() == 0
    assert "Traceback" not in site.said()


def test_it_says_where_it_is_and_what_each_browser_asks(site: Encrypted) -> None:
    said = site.said()
    assert f"Serving https://127.0.0.1:{site.port}/" in said
    assert f"https://127.0.0.1:{site.port}/begin/?word=" in said
    for words in ("Chrome and Edge", "Safari", "Firefox", "Advanced", "visit this website", "/certificate/ says how"):
        assert words in said
    assert "http://" not in said


def test_its_fingerprint_is_the_authoritys(site: Encrypted) -> None:
    own, printed = re.findall(r"(?:[0-9A-F]{2}:){31}[0-9A-F]{2}", site.said())[:2]
    chain = (site.data / "https" / "certificate.pem").read_text()
    assert sha256(
        ssl.PEM_cert_to_DER_cert(chain.partition("-----END")[0] + "-----END CERTIFICATE-----\n")
    ).hexdigest().upper() == own.replace(":", "")
    page = site.ask("/certificate/")
    status, headers, text = site.ask("/certificate/authority.crt")
    assert printed in page[2] and own in page[2] and "Safari" in page[2]
    assert (status, headers["content-type"]) == (200, "application/x-x509-ca-cert")
    assert text == (site.data / "https" / "authority.pem").read_text()
    assert sha256(ssl.PEM_cert_to_DER_cert(text)).hexdigest().upper() == printed.replace(":", "")


def test_pages_know_that_they_are_encrypted(site: Encrypted) -> None:
    _, headers, _ = site.ask("/begin/")
    assert "; Secure" in headers["set-cookie"]
    assert headers["cross-origin-opener-policy"] == "same-origin"
    assert headers["x-content-type-options"] == "nosniff"
    assert "strict-transport-security" not in headers, "it would lock out who must go on past the certificate"


@pytest.mark.filterwarnings("ignore:ssl.TLSVersion")
def test_it_speaks_no_old_tls(site: Encrypted) -> None:
    old = site.context()
    old.minimum_version = old.maximum_version = ssl.TLSVersion.TLSv1_1
    with (
        socket.create_connection(("127.0.0.1", site.port)) as line,
        pytest.raises((ssl.SSLError, ConnectionError)),
        old.wrap_socket(line, server_hostname="127.0.0.1"),
    ):
        pass


def plain(site: Encrypted, text: str) -> str:
    with socket.create_connection(("127.0.0.1", site.port), timeout=SECONDS) as line:
        line.sendall(text.encode())
        said = b""
        while part := line.recv(4096):
            said += part
    return said.decode()


def test_plain_http_is_led_to_https(site: Encrypted) -> None:
    said = plain(site, f"GET /begin/?word=a HTTP/1.1\r\nAccept: */*\r\nHost: {NAME}:{site.port}\r\n\r\n")
    assert said.startswith("HTTP/1.1 307 ")
    assert f"Location: https://{NAME}:{site.port}/begin/?word=a\r\n" in said
    assert said.endswith(f"This site speaks https. Open https://{NAME}:{site.port}/begin/?word=a\n")


@pytest.mark.parametrize(
    "text",
    [
        "POST /sign-in/ HTTP/1.1\r\nHost: lake.example\r\nContent-Length: 0\r\n\r\n",
        "GET / HTTP/1.1\r\n\r\n",
        "GET / HTTP/1.1\r\nHost: a\r\n b: c d\r\n\r\n",
        "nonsense\r\n\r\n",
        "x" * 8192,
    ],
)
def test_anything_else_is_told_so(site: Encrypted, text: str) -> None:
    assert "https" in plain(site, text)


def test_large_answers_and_bodies_come_through_whole(site: Encrypted) -> None:
    with ThreadPoolExecutor(8) as together:
        found = list(together.map(lambda _: site.ask("/api/openapi.json")[2], range(40)))
    assert len(found[0]) > 40_000 and len(set(found)) == 1
    line = http.client.HTTPSConnection("127.0.0.1", site.port, timeout=SECONDS, context=site.context())
    with contextlib.closing(line):
        for size in (10, 40_000, 1_000_000):
            line.request("POST", "/api/events/x/slips", b"x" * size, {"Content-Type": "application/json"})
            answer = line.getresponse()
            assert answer.status in (400, 401, 403) and answer.read()


def test_slow_and_silent_lines_hold_nobody_up(site: Encrypted) -> None:
    with contextlib.ExitStack() as open_:
        lines = [open_.enter_context(socket.create_connection(("127.0.0.1", site.port))) for _ in range(200)]
        for number, line in enumerate(lines):
            line.sendall([b"", b"\x16", b"\x16\x03\x01\x02\x00\x01", b"GET / HT"][number % 4])
        for _ in range(5):
            assert site.ask("/begin/")[0] == 200


def test_it_comes_again_with_the_same_authority(site: Encrypted) -> None:
    before = (site.data / "https" / "authority.pem").read_bytes()
    assert site.stop() == 0
    site.start("127.0.0.1", "--https")
    assert (site.data / "https" / "authority.pem").read_bytes() == before
    assert site.ask("/begin/")[0] == 200


def test_a_broken_certificate_is_said_in_one_line(tmp_path: Path) -> None:
    site = Site(tmp_path)
    assert site.manage("migrate", "--verbosity", "0").returncode == 0
    (tmp_path / "https").mkdir()
    for name in ("authority.pem", "authority-key.pem"):
        (tmp_path / "https" / name).write_text("nothing")
    done = site.manage("serve", "--https", "--port", str(site.port))
    assert done.returncode == 1
    assert "cannot be read or made" in done.stderr and done.stderr.count("\n") == 1


def test_without_https_there_is_no_certificate_to_trust(client: "object", db: None) -> None:
    assert client.get("/certificate/").status_code == 404  # type: ignore[attr-defined]
    assert client.get("/certificate/authority.crt").status_code == 404  # type: ignore[attr-defined]
