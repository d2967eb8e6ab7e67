"""The database locked, full, read-only, gone: a tablet hears it in one line and sends again, a person reads what to do,
the log has a line and no traceback, and nothing that was acknowledged is lost or doubled."""

import os
import re
import sqlite3
import sys
import time
import urllib.parse
import urllib.request
from collections.abc import Iterator
from contextlib import closing, suppress
from http.cookiejar import CookieJar
from pathlib import Path

import pytest
from faults.outages.under_load import Load, new_load, post, told_to_come_back
from patience import SECONDS, until
from stations.speaking import message

LONG = pytest.param(28.0, id="half a minute", marks=pytest.mark.bench)
PERSON = """
from weighin.accounts.models import User
User.objects.create_user("quill", password="a pass phrase for the lake")
"""


@pytest.fixture
def load(tmp_path: Path) -> Iterator[Load]:
    load = new_load(tmp_path)
    yield load
    if load.site.server is not None:
        load.site.kill()


def signing_in(load: Load) -> tuple[int, str, str]:
    """Sign in as a person: status, Retry-After, and the page."""
    jar = urllib.request.HTTPCookieProcessor(CookieJar())
    opener = urllib.request.build_opener(urllib.request.ProxyHandler({}), jar)
    page = opener.open(f"{load.site.address}/sign-in/", timeout=SECONDS).read().decode()
    token = re.search(r'name="csrfmiddlewaretoken" value="([^"]+)"', page)
    assert token is not None
    said = {"csrfmiddlewaretoken": token[1], "username": "quill", "password": "a pass phrase for the lake"}
    request = urllib.request.Request(f"{load.site.address}/sign-in/", urllib.parse.urlencode(said).encode())
    with suppress(urllib.error.HTTPError):
        opener.open(request, timeout=SECONDS)
        return 200, "", ""
    try:
        opener.open(request, timeout=SECONDS)
    except urllib.error.HTTPError as error:
        return error.code, error.headers.get("Retry-After", ""), error.read().decode()
    return 200, "", ""


def one_line_and_no_traceback(load: Load, faults: int) -> None:
    said = load.site.said()
    assert "Traceback" not in said, said[-3000:]
    lines = [line for line in said.splitlines() if "could not be answered" in line]
    assert 1 <= len(lines) <= max(2, faults), said[-3000:]


@pytest.mark.parametrize("seconds", [pytest.param(10.0, id="ten seconds"), LONG])
def test_another_program_holds_the_database(load: Load, seconds: float) -> None:
    with load.going(60):  # more than they send before the other has it
        load.await_more(4)
        with closing(sqlite3.connect(load.site.data / "weighin.sqlite3", isolation_level=None)) as other:
            other.execute("BEGIN IMMEDIATE")
            time.sleep(seconds)
            other.execute("ROLLBACK")
    told_to_come_back(load.refused)
    if seconds > 20:
        assert load.refused
        one_line_and_no_traceback(load, 5)
    load.tally(f"locked by another program for {seconds:.0f} s", 1)


@pytest.mark.skipif(sys.platform != "linux", reason="only Linux bounds the files of a process that runs")
def test_the_disk_is_full_and_has_room_again(load: Load) -> None:
    import resource

    assert load.site.manage("shell", "--no-imports", "-c", PERSON).returncode == 0
    assert load.site.server is not None
    pid, (_, most) = load.site.server.pid, resource.getrlimit(resource.RLIMIT_FSIZE)
    with load.going(12):
        for _ in range(2):
            load.await_more(8)
            before = len(load.refused)
            resource.prlimit(pid, resource.RLIMIT_FSIZE, (4096, most))
            until(lambda before=before: len(load.refused) >= before + 8)  # type: ignore[misc]
            status, retry, page = signing_in(load)
            assert status == 503 and int(retry) > 0 and "may not have been saved" in page
            resource.prlimit(pid, resource.RLIMIT_FSIZE, (most, most))
    told_to_come_back(load.refused)
    one_line_and_no_traceback(load, 4)
    load.tally("disk full", 2)


def test_the_database_may_only_be_read(load: Load) -> None:
    with load.going(4):
        load.await_more(4)
    assert load.site.stop() == 0
    # SQLite reads, and never writes, a file whose header names a later way of writing
    # (https://www.sqlite.org/fileformat.html, offset 18); rights alone hinder nobody who is root
    with (load.site.data / "weighin.sqlite3").open("r+b") as file:
        file.seek(18)
        file.write(b"\x03")
    load.site.start()
    answers = [post(load.site, load.slug, load.tokens[0], message(boat=300)) for _ in range(5)]
    told_to_come_back(answers)
    one_line_and_no_traceback(load, 1)
    assert "may only be read" in load.site.said()
    assert load.site.stop() == 0
    with (load.site.data / "weighin.sqlite3").open("r+b") as file:
        file.seek(18)
        file.write(b"\x02")
    load.site.start()
    with load.going(4):
        pass
    load.tally("read-only database", 1)


ANOTHER_THREAD = """
import os
import threading
from django.db import OperationalError, connection
from weighin.audit.database.in_use import begin_no_file

def opened():
    try:
        with connection.cursor() as cursor:
            cursor.execute("SELECT count(*) FROM events_event")
            print("opened")
    except OperationalError as fault:
        print(fault)

def another():
    thread = threading.Thread(target=opened)
    thread.start()
    thread.join()

begin_no_file()
name = str(connection.settings_dict["NAME"])
os.rename(name, name + ".away")
another()
print(os.path.exists(name))
os.rename(name + ".away", name)
another()
"""


def test_a_thread_that_opens_it_first_while_it_is_gone_begins_no_empty_one(load: Load) -> None:
    load.site.stop()
    said = load.site.manage("shell", "--verbosity", "0", "-c", ANOTHER_THREAD)
    assert said.stdout.splitlines() == ["unable to open database file", "False", "opened"], said.stderr


def test_the_file_is_gone_and_comes_back(load: Load) -> None:
    """A file that is moved away stays open in the server: what was written into it then would be lost with it."""
    file = load.site.data / "weighin.sqlite3"
    away = file.with_name("away.sqlite3")
    with load.going(10):
        load.await_more(8)
        os.rename(file, away)
        until(lambda: len(load.refused) >= 8)
        assert not file.exists()
        os.rename(away, file)
    told_to_come_back(load.refused)
    one_line_and_no_traceback(load, 2)
    load.tally("database file moved away", 1)
