"""The production server, started as a person starts it."""

import contextlib
import re
import select
import socket
import sqlite3
import stat
import urllib.request
from collections.abc import Iterator

import pytest
import segno
from patience import SECONDS
from served import Site

from weighin.operations.queries.lan import code


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Site]:
    site = Site(tmp_path_factory.mktemp("data"), WEIGHIN_HOSTS="lake.example")
    assert site.manage("migrate", "--verbosity", "0").returncode == 0
    site.start()
    yield site
    assert site.stop() == 0


def test_it_refuses_a_database_that_is_not_set_up(tmp_path):
    done = Site(tmp_path).manage("serve")
    assert done.returncode == 1
    assert done.stderr == "CommandError: The database is not set up for this version: run 'manage.py migrate' first.\n"


def test_it_refuses_a_database_of_a_later_version(tmp_path):
    site = Site(tmp_path)
    assert site.manage("migrate", "--verbosity", "0").returncode == 0
    with sqlite3.connect(tmp_path / "weighin.sqlite3") as later:
        later.execute("INSERT INTO django_migrations (app, name, applied) VALUES ('slips', '9999_later', '2030-01-01')")
    later.close()
    done = site.manage("serve")
    assert done.returncode == 1 and "made by a later version of the site (slips.9999_later)" in done.stderr
    assert "A later version of the site" in site.manage("doctor").stdout


def test_a_busy_port_is_said_in_one_line(site):
    done = site.manage("serve", "--port", str(site.port))
    assert done.returncode == 1
    assert re.fullmatch(r"CommandError: Nothing can listen at 127\.0\.0\.1:\d+ \(.+\): .*--port\.\n", done.stderr)


@pytest.mark.parametrize("port", ["0", "65536"])
def test_no_such_port(site, port):
    assert "write a number from 1 to 65535" in site.manage("serve", "--port", port).stderr


@pytest.mark.parametrize("host", ["localhost", "127.0.0.1", "lake.example", "LAKE.example:8000"])
def test_it_answers_to_its_names(site, host):
    assert site.ask("/begin/", Host=host)[0] == 200


@pytest.mark.parametrize("host", ["elsewhere.example", "lake.example.elsewhere.example", "192.0.2.1"])
def test_any_other_name_is_refused(site, host):
    assert site.ask("/begin/", Host=host)[0] == 400


def test_what_a_client_says_of_a_proxy_is_not_believed(site):
    said = {"X-Forwarded-Host": "elsewhere.example", "X-Forwarded-Proto": "https", "X-Forwarded-For": "192.0.2.1"}
    status, headers, _ = site.ask("/clubs/", **said)
    assert status == 302
    assert headers["location"].startswith("/sign-in/")


def test_static_files_are_kept_for_good_under_their_fingerprints(site):
    page = site.ask("/begin/")[2]
    files = re.findall(r'(?:href|src)="(/static/[^"]+)"', page)
    assert len(files) >= 4
    for file in files:
        assert re.search(r"\.[0-9a-f]{8}\.(css|js|svg|png|webmanifest)$", file), file
        status, headers, _ = site.ask(file)
        assert status == 200
        assert "immutable" in headers["cache-control"]


def test_what_is_larger_than_any_workbook_is_not_taken_in(site):
    request = urllib.request.Request(f"{site.address}/sign-in/", data=bytes(12 * 1024 * 1024), method="POST")
    with pytest.raises(OSError) as refused:  # it may hang up before all of it is sent
        urllib.request.urlopen(request, timeout=SECONDS)
    assert getattr(refused.value, "code", 413) == 413


def test_pages_carry_a_strict_policy(site):
    policy = site.ask("/begin/")[1]["content-security-policy"]
    assert "default-src 'self'" in policy
    assert "unsafe" not in policy


def test_the_connection_keeps_what_it_acknowledges(site):
    code = (
        "from django.db import connection as c\n"
        "ask = lambda name: c.cursor().execute(f'PRAGMA {name}').fetchone()[0]\n"
        "print(ask('journal_mode'), ask('synchronous'), ask('foreign_keys'), ask('busy_timeout'))"
    )
    assert site.manage("shell", "--verbosity", "0", "-c", code).stdout.split() == ["wal", "2", "1", "10000"]


@pytest.mark.parametrize("host", ["0.0.0.0"])
def test_listening_everywhere_names_what_is_needed(tmp_path, host):
    site = Site(tmp_path)
    site.manage("migrate", "--verbosity", "0")
    site.start(host)
    status, _, page = site.ask("/begin/", Host="192.0.2.1")
    assert status == 400 and "serve --lan" in page and "WEIGHIN_HOSTS" in page
    assert site.stop() == 0
    assert "only by the names in WEIGHIN_HOSTS, or start with --lan" in site.said()


def test_an_empty_site_belongs_to_who_reads_the_servers_word(site):
    word = re.search(r"/begin/\?word=(\S+)", site.said())[1]
    assert re.fullmatch(r"[a-z]{4}-[a-z]{4}-[a-z]{4}", word)
    assert f'value="{word}"' in site.ask(f"/begin/?word={word}")[2]
    assert word not in site.ask("/begin/")[2]


def test_silent_connections_do_not_keep_a_tablet_out(site):
    with contextlib.ExitStack() as open_:
        silent = [open_.enter_context(socket.create_connection(("127.0.0.1", site.port))) for _ in range(250)]
        assert site.ask("/begin/")[0] == 200
        assert not select.select(silent, [], [], 0)[0], "answered while every one of them was still held"


@pytest.mark.skipif("__import__('os').name != 'posix'")
def test_what_the_site_keeps_is_its_owners_alone(tmp_path):
    data = tmp_path / "data"
    data.mkdir(mode=0o755)
    site = Site(data)
    assert site.manage("migrate", "--verbosity", "0").returncode == 0
    site.start()
    site.stop()
    ours = [file for file in data.rglob("*") if file.is_file() and data / "static" not in file.parents]
    open_to_others = [file.name for file in ours if file.stat().st_mode & 0o077]
    assert stat.S_IMODE(data.stat().st_mode) == 0o700
    assert set(open_to_others) <= {"served.txt"}


def test_phones_are_shown_the_way_to_this_machine(tmp_path):
    site = Site(tmp_path)
    site.manage("migrate", "--verbosity", "0")
    site.start("0.0.0.0", "--lan")
    found = re.findall(r"http://(\d+\.\d+\.\d+\.\d+):\d+/(?= or |\n)", site.said().partition("network open ")[2])
    for address in found:
        assert site.ask("/begin/", Host=f"{address}:{site.port}")[0] == 200
    assert site.ask("/begin/", Host="192.0.2.1")[0] == 400
    assert site.stop() == 0
    assert "0.0.0.0" not in site.said()
    assert found or "is in no network" in site.said()


def test_a_code_on_the_terminal_is_the_address():
    blocks = code("http://198.51.100.7:8000/").splitlines()
    ink = {" ": (0, 0), "\u2584": (0, 255), "\u2580": (255, 0), "\u2588": (255, 255)}
    rows = [[ink[sign][half] for sign in line] for line in blocks for half in (0, 1)]
    module = segno.make("http://198.51.100.7:8000/", error="m", micro=False)
    wanted = [[255 - 255 * bool(dark) for dark in row] for row in module.matrix]
    assert [row[2:-2] for row in rows[1 : 1 + len(wanted)]] == wanted


def test_what_is_no_request_is_answered_as_what_it_says_it_is(site):
    with socket.create_connection(("127.0.0.1", site.port), timeout=SECONDS) as line:
        line.sendall(b"GET / HTTP/1.1\r\nContent-Length: x\r\n\r\n")
        said = line.recv(4096).decode()
    assert said.startswith("HTTP/1.1 400 ")
    assert "X-Content-Type-Options: nosniff" in said
