"""The examples for nginx and Caddy, run by the real servers before the real site."""

import contextlib
import http.client
import json
import re
import shutil
import ssl
import subprocess
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from urllib.parse import urlencode

import pytest
from patience import SECONDS, until
from served import ROOT, Site, free_port

from weighin.operations.services.certificates import LakeCertificate, lake_certificate

EXAMPLES = ROOT / "weighin" / "operations" / "examples"
NAME = "lake.example"


def nginx(folder: Path, site: int, port: int, made: LakeCertificate) -> list[str]:
    """The example as it stands in nginx's folder of sites, with this machine's ports and certificate."""
    text = (EXAMPLES / "nginx.conf").read_text()
    text = re.sub(r"    listen \[::\].*\n", "", text).replace("listen 80;", f"listen 127.0.0.1:{free_port()};")
    text = text.replace("listen 443 ", f"listen 127.0.0.1:{port} ").replace("127.0.0.1:8000", f"127.0.0.1:{site}")
    text = re.sub(r"ssl_certificate \S+;", f"ssl_certificate {made.chain};", text)
    text = re.sub(r"ssl_certificate_key \S+;", f"ssl_certificate_key {made.key};", text)
    text = text.replace("/var/log/nginx/", f"{folder}/")
    kinds = ("client_body", "proxy", "fastcgi", "uwsgi", "scgi")
    places = "".join(f"{kind}_temp_path {folder}/{kind};\n" for kind in kinds)
    head = f"daemon off;\npid {folder}/nginx.pid;\nerror_log {folder}/error.log;\nevents {{}}\n"
    (folder / "nginx.conf").write_text(f"{head}http {{\naccess_log off;\n{places}{text}}}\n")
    return ["nginx", "-p", str(folder), "-e", str(folder / "error.log"), "-c", str(folder / "nginx.conf")]


def caddy(folder: Path, site: int, port: int, made: LakeCertificate) -> list[str]:
    """The example as it stands in Caddy's file, with this machine's ports and certificate."""
    text = (EXAMPLES / "Caddyfile").read_text().replace("127.0.0.1:8000", f"127.0.0.1:{site}")
    inside = f"https://{NAME}:{port} {{\n\tbind 127.0.0.1\n\ttls {made.chain} {made.key}\n"
    text = text.replace(f"\n{NAME} {{\n", f"\n{inside}")
    (folder / "Caddyfile").write_text(f"{{\n\tadmin off\n\tauto_https disable_redirects\n}}\n{text}")
    return ["caddy", "run", "--adapter", "caddyfile", "--config", str(folder / "Caddyfile")]


@dataclass
class Answer:
    status: int
    headers: Any
    text: str


class _Named(http.client.HTTPSConnection):
    """Goes to this machine, and wants the certificate of the lake's name."""

    def connect(self) -> None:
        http.client.HTTPConnection.connect(self)
        self.sock = self._context.wrap_socket(self.sock, server_hostname=NAME)  # type: ignore[attr-defined]


class Front:
    """A proxy before a site, asked as a browser asks it that knows the lake's authority; it keeps cookies."""

    def __init__(self, site: Site, port: int, made: LakeCertificate, folder: Path) -> None:
        self.folder = folder
        self.site, self.port, self.origin = site, port, f"https://{NAME}:{port}"
        self.trusting = ssl.create_default_context(cafile=str(made.authority))
        self.cookies: dict[str, str] = {}

    def ask(self, path: str, form: dict[str, str] | None = None, **headers: str) -> Answer:
        cookie = "; ".join(f"{name}={value}" for name, value in self.cookies.items())
        said = {"Host": f"{NAME}:{self.port}", "Cookie": cookie, **headers}
        body = None
        if form is not None:
            said |= {"Origin": self.origin, "Content-Type": "application/x-www-form-urlencoded"}
            page = self.ask(path).text
            token = re.search(r'name="csrfmiddlewaretoken" value="([^"]+)"', page)
            assert token is not None, page
            said["Cookie"] = "; ".join(f"{name}={value}" for name, value in self.cookies.items())
            body = urlencode({**form, "csrfmiddlewaretoken": token[1]})
        with contextlib.closing(_Named("127.0.0.1", self.port, timeout=SECONDS, context=self.trusting)) as line:
            line.request("GET" if form is None else "POST", path, body, said)
            answer = line.getresponse()
            found = Answer(answer.status, answer.headers, answer.read().decode())
        for one in found.headers.get_all("Set-Cookie", []):
            name, _, value = one.partition(";")[0].partition("=")
            self.cookies[name] = value
        return found

    def sign_in(self) -> Answer:
        """The answer to the director's log-in."""
        people = json.loads((ROOT / "demo" / "people.json").read_text(encoding="utf-8"))
        password = next(one["password"] for one in people if one["username"] == "director")
        self.cookies.clear()
        return self.ask("/sign-in/", {"username": "director", "password": password})


@pytest.fixture(scope="module", params=[nginx, caddy], ids=lambda one: one.__name__)
def front(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Front]:
    if shutil.which(request.param.__name__) is None:
        pytest.skip(f"{request.param.__name__} is not installed here")
    folder, port = tmp_path_factory.mktemp("front"), free_port()
    site = Site(tmp_path_factory.mktemp("data"), WEIGHIN_HOSTS=NAME, WEIGHIN_PROXY="127.0.0.1")
    for words in (("migrate", "--verbosity", "0"), ("load_demo",)):
        assert site.manage(*words).returncode == 0
    site.start()
    made = lake_certificate(folder / "https", [NAME])
    words = request.param(folder, site.port, port, made)
    env = {**site.env, "XDG_DATA_HOME": str(folder), "XDG_CONFIG_HOME": str(folder), "HOME": str(folder)}
    with (folder / "said.txt").open("w") as said:
        proxy = subprocess.Popen(words, stdout=said, stderr=said, env=env)
    try:
        found = Front(site, port, made, folder)
        until(lambda: proxy.poll() is not None or answers(found))
        assert proxy.poll() is None, (folder / "said.txt").read_text()
        yield found
    finally:
        proxy.terminate()
        proxy.wait()
        site.stop()


def answers(front: Front) -> bool:
    try:
        return bool(front.ask("/").status)
    except OSError:
        return False


def test_cookies_are_secure_and_browsers_told_to_come_by_https(front: Front) -> None:
    answer = front.sign_in()
    given = answer.headers.get_all("Set-Cookie", [])
    assert answer.status == 302 and any(one.startswith("sessionid=") for one in given)
    assert all("; Secure" in one for one in given)
    assert answer.headers["Strict-Transport-Security"] == "max-age=31536000"
    assert answer.headers["Cross-Origin-Opener-Policy"] == "same-origin"


def test_the_proxy_s_log_says_no_queries(front: Front) -> None:
    front.ask("/results/nowhere/standings/?q=Quince")
    written = "".join(file.read_text(errors="replace") for file in front.folder.iterdir() if file.is_file())
    assert "Quince" not in written


def test_codes_and_links_say_https(front: Front) -> None:
    front.sign_in()
    code = "from weighin.events.models import Event; print(Event.objects.get(name__contains='Turnover').slug)"
    slug = front.site.manage("shell", "--verbosity", "0", "-c", code).stdout.strip()
    made = front.ask(f"/events/{slug}/stations/", {"name": "Table 1", "can": "weigh"})
    assert f"{front.origin}/table/{slug}/#" in made.text


def test_what_a_browser_says_of_its_own_address_is_dropped(front: Front) -> None:
    said = {"Authorization": "Bearer " + "a" * 43}
    spoofed = [{"X-Forwarded-For": f"203.0.113.{n}", "Forwarded": f"for=203.0.113.{n}"} for n in range(25)]
    answered = [front.ask("/api/events/any/station", **said, **one).status for one in spoofed]
    assert 429 in answered, "every guess counts for the address that sent it"


def test_nobody_but_the_proxy_is_believed(front: Front) -> None:
    line = http.client.HTTPConnection("127.0.0.1", front.site.port, source_address=("127.0.0.2", 0))
    said = {"X-Forwarded-Proto": "https", "X-Forwarded-Host": "elsewhere.example", "X-Forwarded-For": "203.0.113.9"}
    with contextlib.closing(line):
        line.request("GET", "/sign-in/", headers={"Host": NAME, **said})
        answer = line.getresponse()
        assert answer.status == 200 and answer.read()
    assert "Secure" not in answer.getheader("Set-Cookie", "")


def test_static_files_come_through_with_every_policy(front: Front) -> None:
    front.cookies.clear()
    file = re.findall(r'href="(/static/[^"]+\.css)"', front.ask("/sign-in/").text)[0]
    answer = front.ask(file)
    assert answer.status == 200
    assert answer.headers["X-Content-Type-Options"] == "nosniff"
    assert "default-src 'self'" in answer.headers["Content-Security-Policy"]
    assert "camera=()" in answer.headers["Permissions-Policy"]
