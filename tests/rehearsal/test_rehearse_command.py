"""``manage.py rehearse``: the contract's JSON, sentences where it cannot be, and a real server on this machine."""

import io
import json
from pathlib import Path
from typing import Any

import pytest
import world
from django.core.management import CommandError, call_command
from rehearsal.sent import in_process
from served import Site

from weighin.events.models import Event
from weighin.rehearsal.management.commands import rehearse

__all__ = ["in_process"]


def called(*words: str, **more: Any) -> tuple[str, str]:
    """What the command writes: to the standard output, and to the standard error."""
    out, err = io.StringIO(), io.StringIO()
    call_command("rehearse", *words, stdout=out, stderr=err, **more)
    return out.getvalue(), err.getvalue()


@pytest.fixture
def event(db: None) -> Event:
    return world.event("Dawn pairs", 6)


@pytest.mark.usefixtures("in_process")
def test_the_report_is_json_alone_and_goes_to_a_file_too(event: Event, tmp_path: Path) -> None:
    file = tmp_path / "report.json"
    out, err = called(event.slug, "--speed", "1000000", "--seed", "3", "--boats", "5", "--report", str(file))
    report = json.loads(out)
    assert report == json.loads(file.read_text()) and report["boats"] == 5 and report["faults"] == []
    assert "REHEARSAL Dawn pairs: 5 boats come in, seed 3" in err and "--wipe" in err
    with pytest.raises(CommandError, match="is being rehearsed already"):
        called(event.slug)
    out, err = called(event.slug, "--wipe")
    assert (out, err) == ("", "The rehearsal of Dawn pairs is wiped.\n")
    with pytest.raises(CommandError, match="has no rehearsal"):
        called(event.slug, "--wipe")


@pytest.mark.usefixtures("in_process")
def test_what_cannot_be_is_said(event: Event, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with pytest.raises(CommandError, match="There is no event nowhere"):
        called("nowhere")
    with pytest.raises(CommandError, match="write a speed from 1"):
        called(event.slug, "--speed", "0")
    with pytest.raises(CommandError, match="The report cannot be written"):
        called(event.slug, "--speed", "1000000", "--report", str(tmp_path / "no" / "such.json"))
    called(event.slug, "--wipe")
    monkeypatch.setattr(rehearse, "run_rehearsal", lambda made: None)
    with pytest.raises(CommandError, match="was wiped while its boats came in"):
        called(event.slug)
    called(event.slug, "--wipe")
    monkeypatch.setattr(rehearse, "run_rehearsal", lambda made: {"faults": ["one was lost"]})
    with pytest.raises(CommandError, match="Something was lost"):
        called(event.slug)


@pytest.mark.django_db(transaction=True)
def test_through_a_server_of_its_own() -> None:
    event = world.event("Dawn pairs", 6)
    report = json.loads(called(event.slug, "--speed", "1000000")[0])
    assert report["faults"] == [] and (report["boats"], report["slips"]) == (6, 7)
    called(event.slug, "--wipe")
    assert Event.everyone.get() == event


def test_in_a_process_of_its_own_beside_a_server(tmp_path: Path) -> None:
    site = Site(tmp_path)
    site.manage("migrate")
    book = tmp_path / "event.xlsx"
    world.write(world.sheets("Dawn pairs", 6), book)
    slug = site.manage("import_event", str(book)).stdout.split()[-1]
    site.start()
    try:
        reports = []
        for _ in range(2):
            done = site.manage("rehearse", slug, "--speed", "1000000", "--seed", "5")
            assert done.returncode == 0, done.stderr
            reports.append(json.loads(done.stdout))
            assert site.ask(f"/results/rehearsal-{slug}/")[0] == 404
            copy = tmp_path / f"copy-{len(reports)}.sqlite3"
            assert site.manage("backup", str(copy)).returncode == 0
            assert site.manage("check_ledger").returncode == 0
            assert site.manage("rehearse", slug, "--wipe").returncode == 0
        assert reports[0] == reports[1] and reports[0]["faults"] == []
        assert site.manage("rehearse", slug, "--wipe").returncode == 1
    finally:
        site.stop()
    done = site.manage("restore", str(tmp_path / "copy-2.sqlite3"))
    assert done.returncode == 0, done.stderr
    assert site.manage("rehearse", slug, "--wipe").returncode == 0
    assert site.manage("check_ledger").returncode == 0
