"""One server for many clubs, as its page of DEVELOPERS.md says: processes on PostgreSQL that know of each other, behind nginx."""

import contextlib
import http.client
import json
import os
import re
import shutil
import subprocess
import sys
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any

import pytest
from faults.lake import TOKENS, WEIGHED, public_event
from patience import SECONDS, until
from postgres import NoPostgres, postgres
from served import ROOT, Site, free_port
from stations.speaking import message

EXAMPLES = ROOT / "weighin" / "operations" / "examples"
NAME = "lake.example"
# Eight at once, each with a connection of its own, as threads of several processes have
BEGUN = f"""
import sys
sys.path.insert(0, {str(ROOT / "tests")!r})
from faults.writers import together
from weighin.accounts.models import User
from weighin.clubs.services.clubs import begin
print("wrong", together(lambda n: begin(f"owner{{n}}", "four words on paper", f"Owner {{n}}", f"Club {{n}}", "{{word}}")))
print("owners", User.objects.count())
"""
IMPORTED = f"""
import sys, tempfile
from pathlib import Path
sys.path.insert(0, {str(ROOT / "tests")!r})
import world
from django.core.files.base import ContentFile
from faults.writers import together
from second_reading.workbook import write
from weighin.clubs.models import Club
from weighin.events.models import Event
from weighin.operations.services.imports import Job
club = Club.objects.first()
with tempfile.TemporaryDirectory() as folder:
    file = Path(folder) / "event.xlsx"
    write(world.sheets("Pressed twice", club=club.name), file)
    key = Job.start(club, ContentFile(file.read_bytes(), "event.xlsx")).key
print("wrong", together(lambda n: Job(club, key).bring_in("test", False)))
print("events", Event.objects.filter(name="Pressed twice").count())
"""


@pytest.fixture(scope="module")
def both(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Site, Site]]:
    """Two processes of one site, on one data folder and one database of PostgreSQL."""
    data = tmp_path_factory.mktemp("data")
    try:
        database = postgres()
        url = database.__enter__()
    except NoPostgres as error:
        pytest.skip(f"PostgreSQL: {error}")
    with contextlib.ExitStack() as stack:
        stack.push(database)
        env = {"DATABASE_URL": url, "WEIGHIN_HOSTS": NAME, "WEIGHIN_PROXY": "127.0.0.1"}
        sites = Site(data, **env), Site(data, **env)
        done = sites[0].manage("migrate", "--verbosity", "0")
        assert done.returncode == 0, done.stderr
        with ThreadPoolExecutor() as pool:
            list(pool.map(Site.start, sites))
        for site in sites:
            stack.callback(site.stop)
        yield sites


def shell(site: Site, code: str) -> str:
    done = site.manage("shell", "--verbosity", "0", "-c", code)
    assert done.returncode == 0, done.stderr
    return done.stdout


def asked(port: int, method: str, path: str, body: str | None = None, **headers: str) -> tuple[int, Any, bytes]:
    with contextlib.closing(http.client.HTTPConnection("127.0.0.1", port, timeout=SECONDS)) as line:
        line.request(method, path, body, {"Host": NAME, **headers})
        answer = line.getresponse()
        return answer.status, answer.headers, answer.read()


def sent(site: Site, slug: str, token: str, *slips: dict[str, Any]) -> list[dict[str, Any]]:
    said = {"Content-Type": "application/json", "Authorization": f"Bearer {token}"}
    status, _, body = asked(site.port, "POST", f"/api/events/{slug}/slips", json.dumps({"slips": slips}), **said)
    assert status == 200, body
    found: list[dict[str, Any]] = json.loads(body)["slips"]
    return found


def test_only_one_owner_and_one_event_whoever_presses_first(both: tuple[Site, Site]) -> None:
    words = set(re.findall(r"\?word=(\S+)", both[0].said()))
    assert len(words) == 1, "all processes ask for the same word"
    assert "wrong []\nowners 1" in shell(both[0], BEGUN.replace("{word}", words.pop()))
    assert "wrong []\nevents 1" in shell(both[0], IMPORTED)


@pytest.fixture(scope="module")
def slug(both: tuple[Site, Site]) -> str:
    return public_event(both[0])


@pytest.fixture(scope="module")
def token(both: tuple[Site, Site], slug: str) -> str:
    return shell(both[0], TOKENS.format(slug=slug, count=1)).split("token ")[1].split()[0]


def test_slips_to_both_stand_in_one_ledger_and_pages_of_both_show_them(
    both: tuple[Site, Site], slug: str, token: str
) -> None:
    page = f"/results/{slug}/standings/"
    tags = [asked(site.port, "GET", page)[1]["ETag"] for site in both]
    assert tags[0] == tags[1]
    boats = range(WEIGHED + 1, WEIGHED + 41)
    slips = [message(boat=boat) for boat in boats]
    with ThreadPoolExecutor(8) as pool:
        # Every slip goes to both, as when a tablet is answered by nobody and sends again
        answers = list(pool.map(lambda n: sent(both[n % 2], slug, token, slips[n // 2])[0], range(2 * len(slips))))
    assert {one["state"] for one in answers} == {"kept", "already"}
    assert [first["slip"] for first in answers[::2]] == [second["slip"] for second in answers[1::2]]
    assert len({one["slip"] for one in answers}) == len(slips)
    for site in both:
        status, headers, body = asked(site.port, "GET", page, **{"If-None-Match": tags[0]})
        assert status == 200 and headers["ETag"] != tags[0] and f"Pair {boats[-1]}".encode() in body
    ledger = both[0].manage("check_ledger", slug)
    assert ledger.returncode == 0 and f"{WEIGHED + len(slips)} slips, nothing altered" in ledger.stdout


def test_wrong_tokens_count_whichever_process_hears_them(both: tuple[Site, Site], slug: str, token: str) -> None:
    path = f"/api/events/{slug}/station"
    wrong = {"Authorization": f"Bearer {'x' * 43}"}
    statuses = [asked(both[n % 2].port, "GET", path, **wrong)[0] for n in range(24)]
    assert statuses[:20] == [401] * 20 and statuses[20:] == [429] * 4
    for site in both:
        assert asked(site.port, "GET", path, Authorization=f"Bearer {token}")[0] == 200, "a right one is answered"


def test_a_withdrawn_token_is_dead_in_both(both: tuple[Site, Site], slug: str) -> None:
    made = both[0].manage("pair_station", slug, "Table 9").stdout.split()[-1]
    path = f"/api/events/{slug}/station"
    assert [asked(site.port, "GET", path, Authorization=f"Bearer {made}")[0] for site in both] == [200, 200]
    both[0].manage("pair_station", slug, "Table 9", "--withdraw")
    assert [asked(site.port, "GET", path, Authorization=f"Bearer {made}")[0] for site in both] == [401, 401]


@pytest.fixture(scope="module")
def nginx(both: tuple[Site, Site], tmp_path_factory: pytest.TempPathFactory) -> Iterator[int]:
    """The example's nginx before both, on plain http at a port of this machine."""
    if shutil.which("nginx") is None:
        pytest.skip("nginx is not installed here")
    folder, port = tmp_path_factory.mktemp("nginx"), free_port()
    text = (EXAMPLES / "many-clubs.nginx.conf").read_text()
    text = re.sub(r"server \{\n    listen 80;.*?\n\}\n", "", text, flags=re.DOTALL)
    text = re.sub(r"    (listen \[::\]|ssl_).*\n", "", text).replace("listen 443 ssl http2", f"listen 127.0.0.1:{port}")
    for site, example in zip(both, ("8001", "8002"), strict=True):
        text = text.replace(f"127.0.0.1:{example}", f"127.0.0.1:{site.port}")
    text = text.replace("/var/cache/nginx/weighin", f"{folder}/cache")
    kinds = ("client_body", "proxy", "fastcgi", "uwsgi", "scgi")
    places = "".join(f"{kind}_temp_path {folder}/{kind};\n" for kind in kinds)
    user = "user root;\n" if os.name == "posix" and os.geteuid() == 0 else ""  # who else may write in these folders?
    head = f"{user}daemon off;\npid {folder}/nginx.pid;\nevents {{ worker_connections 4096; }}\n"
    (folder / "nginx.conf").write_text(f"{head}http {{\n{places}{text}}}\n")
    words = ["nginx", "-p", str(folder), "-e", str(folder / "error.log"), "-c", str(folder / "nginx.conf")]
    tried = subprocess.run([*words, "-t"], capture_output=True, text=True, check=False)
    assert tried.returncode == 0, tried.stderr
    front = subprocess.Popen(words)
    try:
        until(lambda: front.poll() is not None or _listens(port))
        assert front.poll() is None, (folder / "error.log").read_text()
        yield port
    finally:
        front.terminate()
        front.wait()


def _listens(port: int) -> bool:
    try:
        return bool(asked(port, "GET", "/static/")[0])
    except OSError:
        return False


def test_nginx_keeps_pages_by_their_tags_and_no_longer_than_a_second(
    both: tuple[Site, Site], nginx: int, slug: str, token: str
) -> None:
    page = f"/results/{slug}/standings/"
    status, headers, body = asked(nginx, "GET", page)
    assert status == 200 and b"Pair" in body
    assert asked(nginx, "GET", page, **{"If-None-Match": headers["ETag"]})[0] == 304
    assert sent(both[1], slug, token, message(boat=WEIGHED + 100))[0]["state"] == "kept"
    until(lambda: asked(nginx, "GET", page, **{"If-None-Match": headers["ETag"]})[0] == 200)
    through = asked(nginx, "GET", f"/api/events/{slug}/station", Authorization=f"Bearer {token}")
    assert through[0] == 200, "a tablet goes through"


def test_a_process_that_ends_is_passed_over(both: tuple[Site, Site], nginx: int, slug: str) -> None:
    both[0].kill()
    try:
        assert {asked(nginx, "GET", f"/results/{slug}/rules/?{n}")[0] for n in range(10)} == {200}
    finally:
        both[0].start()


@pytest.mark.bench
def test_two_thousand_polls_a_second(nginx: int, slug: str) -> None:
    polling = ROOT / "tests" / "bench" / "wire" / "polling.py"
    words = [sys.executable, str(polling), str(nginx), f"/results/{slug}/crowd/", "8", "5"]
    done = subprocess.run(words, capture_output=True, text=True, check=False)
    assert done.returncode == 0 and not done.stderr, done.stderr
    found = json.loads(done.stdout)
    rate = len(found["took"]) / 5
    print(f"\nthrough nginx: {rate:.0f} polls a second, {found['statuses']}")
    assert rate >= 2000 and set(found["statuses"]) == {"200", "304"}


@pytest.mark.skipif("__import__('shutil').which('systemd-analyze') is None")
def test_the_unit_is_one(tmp_path: Path) -> None:
    text = (EXAMPLES / "weighin@.service").read_text()
    file = tmp_path / "weighin@.service"
    file.write_text(text.replace("/opt/weighin/.venv/bin/python", sys.executable).replace("/opt/weighin", str(ROOT)))
    done = subprocess.run(["systemd-analyze", "verify", str(file)], capture_output=True, text=True, check=False)
    assert done.returncode == 0 and "weighin@" not in done.stderr, done.stderr
