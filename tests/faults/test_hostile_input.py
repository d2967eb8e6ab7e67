"""Input made to cost the server much: each is refused in words, within a bound of processor time, and nothing is kept.

The bound is a multiple of the interpreter's own work in the same run: about a second where that takes five milliseconds.
"""

import json
import uuid
from pathlib import Path
from time import process_time
from typing import Any

import pytest
import world
from bench.floor import floor
from django.core.files.uploadedfile import SimpleUploadedFile
from django.core.management import CommandError, call_command
from faults.bombs import BOMBS, book
from stations.speaking import Speaker, message

from weighin.audit.models import HistoryEntry
from weighin.clubs.models import Club
from weighin.events.models import Event
from weighin.operations.services import imports
from weighin.slips.models import WeighSlip
from weighin.workbooks.parsing import book as reading
from weighin.workbooks.parsing.reading import read_workbook

MOST_FLOORS = 200

pytestmark = pytest.mark.django_db


class Spent:
    """The processor time of a block, held against the floor of this run."""

    def __enter__(self) -> "Spent":
        self.most = MOST_FLOORS * max(floor(), 5) / 1000
        self.start = process_time()
        return self

    def __exit__(self, *failed: object) -> None:
        spent = process_time() - self.start
        assert failed[0] or spent < self.most, f"{spent:.2f} s of processor time, {self.most:.2f} s are the most"


@pytest.mark.parametrize("name", BOMBS)
def test_a_workbook_made_to_cost_much_is_refused(name: str, tmp_path: Path) -> None:
    file = tmp_path / "bomb.xlsx"
    file.write_bytes(BOMBS[name]())
    assert file.stat().st_size < 300_000
    with Spent(), pytest.raises(CommandError, match=r"bomb\.xlsx") as refused:
        call_command("import_event", file, check=True)
    assert len(str(refused.value)) < 250 and "\n" not in str(refused.value)
    assert not Club.objects.exists() and not Event.objects.exists()


def test_what_the_counts_let_through_ends_by_the_clock(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    file = tmp_path / "slow.xlsx"
    file.write_bytes(book("<row><c><v>1</v></c></row>" * 2000))
    monkeypatch.setattr(reading, "MOST_SECONDS", 0)
    with pytest.raises(CommandError, match="more cells than an event needs"):
        call_command("import_event", file, check=True)


def test_a_preview_that_is_asked_for_again_is_read_once(monkeypatch: pytest.MonkeyPatch) -> None:
    club = world.club()
    director = world.member(club)
    file = SimpleUploadedFile("event.xlsx", book())
    page = director.post(f"/clubs/{club.slug}/import/", {"workbook": file}).headers["Location"]
    calls: list[Path] = []

    def counted(path: Path, name: str) -> Any:
        calls.append(path)
        return read_workbook(path, name)

    monkeypatch.setattr(imports, "read_workbook", counted)
    assert [director.get(page).status_code for _ in range(3)] == [200] * 3
    assert len(calls) == 1


def _deep(depth: int) -> bytes:
    return b'{"slips": ' + b"[" * depth + b"]" * depth + b"}"


def _slip(**values: Any) -> bytes:
    return json.dumps({"slips": [message(**values)]}).encode()


def _with(member: bytes) -> bytes:
    return b'{"slips": [{"id": "%s", %s}]}' % (str(uuid.uuid4()).encode(), member)


BODIES = {
    "a field doubled": _with(b'"boat": 1, "boat": 2'),
    "one field doubled 12,000 times": _with(b", ".join([b'"note": 1'] * 12_000)),
    "a field more than may be": _with(b", ".join(b'"f%d": 1' % number for number in range(101))),
    "14,000 fields": _with(b", ".join(b'"f%05d": 1' % number for number in range(14_000))),
    "14,000 fields beside the slips": b'{"slips": [{}], ' + b", ".join(b'"f%05d": 1' % n for n in range(14_000)) + b"}",
    "nested 100,000 deep": _deep(100_000),
    "nested 900 deep": _deep(900),
    "a body cut off": _slip()[:-5],
    "bytes that are no UTF-8": _slip().replace(b"R. Quill", b"R. \xff\xfe\xed\xa0\x80"),
    "UTF-16": _slip().decode().encode("utf-16"),
    "more than 256 KiB": _slip(note="a" * 300_000),
    "51 slips": json.dumps({"slips": [message() for _ in range(51)]}).encode(),
    "NaN": _with(b'"fish": NaN'),
    "a bomb of brackets and names": b'{"slips": [' + b'{"a":[' * 20_000,
}

VALUES: dict[str, dict[str, Any]] = {
    "a NUL in the name": {"official": "R.\x00 Quill"},
    "a lone half of a sign": {"official": "\ud800"},
    "a number of 4,001 figures": {"fish": 10**4000},
    "an exponent": {"gross": "1e999999999"},
    "a weight of 100,000 figures": {"gross": "9" * 100_000},
    "a boat of 100,000 figures": {"boat": "9" * 100_000},
    "a text of 200,000 signs": {"note": "a" * 200_000},
    "marks upon marks": {"official": "a" + "\u0301" * 50_000},
    "a list of 20,000 weights": {"largest_weights": ["1.00"] * 20_000},
    "a list where a text belongs": {"official": [[["R. Quill"]]]},
    "a year of 10 figures": {"weighed": "2026000000-06-20T15:10:00-05:00"},
}


@pytest.fixture
def table() -> Speaker:
    return Speaker(world.event())


def _kept() -> tuple[int, int]:
    return WeighSlip.objects.count(), HistoryEntry.objects.count()


@pytest.mark.parametrize("name", BODIES)
def test_a_hostile_body_is_refused_whole(name: str, table: Speaker) -> None:
    before = _kept()
    assert len(BODIES[name]) < 400_000
    with Spent():
        answer = table.post("slips", BODIES[name])
    assert answer.status_code == 400 and answer.json()["error"].endswith("."), answer.content[:300]
    assert len(answer.content) < 1000 and _kept() == before


@pytest.mark.parametrize("name", VALUES)
def test_a_hostile_value_is_refused_at_its_field(name: str, table: Speaker) -> None:
    before = _kept()
    with Spent():
        answer = table.post("slips", _slip(**VALUES[name]))
    if answer.status_code == 200:
        (one,) = answer.json()["slips"]
        assert one["state"] == "refused" and {fault["field"] for fault in one["faults"]} == set(VALUES[name])
        assert all(len(fault["message"]) < 1000 for fault in one["faults"])
    else:
        assert answer.status_code == 400 and answer.json()["error"]
    assert _kept() == before


LINKS = [
    "/table/{slug}/?token=" + "a" * 5000,
    "/results/{slug}/%00/",
    "/results/%ff%fe/",
    "/events/{slug}/slips/99999999999999999999999/",
    "/events/{slug}/slips/-1/",
    "/api/events/{slug}%00",
    "/api/events/{slug}/station",
    "/results/{slug}/?page=" + "9" * 5000,
    "/results/?q=%00&q=%ff" + "%cc%81" * 3000,
]


@pytest.mark.parametrize("link", LINKS)
@pytest.mark.parametrize("token", ["", "Bearer " + "a" * 43, "Bearer \xff\x01", "Basic " + "A" * 5000])
def test_a_foreign_token_or_a_broken_link_opens_nothing(link: str, token: str, table: Speaker) -> None:
    headers = {"Authorization": token} if token else {}
    before = _kept()
    with Spent():
        answer = table.client.get(link.format(slug=table.event.slug), headers=headers, follow=True)
    assert answer.status_code in {200, 400, 401, 403, 404}, (answer.status_code, link)
    assert table.token.encode() not in answer.content and _kept() == before


BOUNDARY = "multipart/form-data; boundary=cut"
FORMS: dict[str, tuple[bytes, str]] = {
    "10,000 fields": (b"&".join(b"f%d=1" % n for n in range(10_000)), "application/x-www-form-urlencoded"),
    "one field 10,000 times": (b"&".join([b"username=a"] * 10_000), "application/x-www-form-urlencoded"),
    "a NUL": (b"username=a%00b&password=c%00d", "application/x-www-form-urlencoded"),
    "no UTF-8": (b"username=%ff%fe&password=%ed%a0%80", "application/x-www-form-urlencoded"),
    "a name of a megabyte": (b"username=" + b"a" * 1_000_000 + b"&password=b", "application/x-www-form-urlencoded"),
    "a password of a megabyte": (b"username=a&password=" + b"b" * 1_000_000, "application/x-www-form-urlencoded"),
    "three megabytes": (b"username=" + b"a" * 3_000_000, "application/x-www-form-urlencoded"),
    "a multipart cut off": (b'--cut\r\nContent-Disposition: form-data; name="username"\r\n\r\na', BOUNDARY),
    "a multipart without boundary": (b"--cut\r\n", "multipart/form-data"),
    "a multipart of nothing but heads": (b"--cut\r\n" + b"A: b\r\n" * 100_000, BOUNDARY),
    "10,000 parts": (b"".join([b'--cut\r\nContent-Disposition: form-data; name="f"\r\n\r\na\r\n'] * 10_000), BOUNDARY),
    "another charset": (b"username=a", "application/x-www-form-urlencoded; charset=no-such-charset"),
}


@pytest.mark.parametrize("name", FORMS)
@pytest.mark.parametrize("signed_in", [False, True], ids=["stranger", "director"])
def test_a_hostile_form_is_answered_in_words(name: str, signed_in: bool, table: Speaker) -> None:
    body, kind = FORMS[name]
    director = world.member(table.event.season.club)
    client = director if signed_in else world.Client()
    page = f"/events/{table.event.slug}/slips/new/" if signed_in else "/sign-in/"
    before = _kept()
    with Spent():
        answer = client.generic("POST", page, body, content_type=kind)
    assert answer.status_code in {200, 400, 403, 413}, answer.status_code
    assert b"Traceback" not in answer.content and _kept() == before
