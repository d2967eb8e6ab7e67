"""Workbooks on their way in through the web: kept for a day, read for a preview, brought in by a thread that tells how far it is.

A job is a folder in the data folder: the workbook, and a small status file that any process can read.
"""

import json
import shutil
import threading
import time
import uuid
from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.files.uploadedfile import UploadedFile
from django.db import connections

from weighin.clubs.models import Club
from weighin.operations.workbook.book import BookRefused
from weighin.operations.workbook.keeping import existing_event, keep_event, may_replace
from weighin.operations.workbook.plan import Plan
from weighin.operations.workbook.reading import read_workbook
from weighin.operations.workbook.rows import Report
from weighin.rules.faults import Faults

KEPT_SECONDS = 24 * 60 * 60
# The keys of the workbooks that a thread of this process is bringing in.
_going: set[str] = set()
_going_changes = threading.Lock()


CUT_OFF = "The server was ended while this was coming in. Look whether the event is here; if it is not, nothing of it was written: bring it in again."


class NoSuchJob(LookupError):
    """The workbook was taken away: it is kept for a day."""


class Job:
    """One workbook of one club."""

    def __init__(self, club: Club, key: str):
        if len(key) != 32 or any(sign not in "0123456789abcdef" for sign in key):
            raise NoSuchJob
        self.club = club
        self.key = key
        self.folder = _folder() / f"{club.pk}-{key}"
        if not self.folder.is_dir():
            raise NoSuchJob

    @classmethod
    def start(cls, club: Club, file: "UploadedFile[bytes]") -> "Job":
        """Keep an uploaded workbook. Workbooks older than a day are taken away."""
        _sweep()
        key = uuid.uuid4().hex
        folder = _folder() / f"{club.pk}-{key}"
        folder.mkdir(parents=True)
        with (folder / "event.xlsx").open("wb") as kept:
            for chunk in file.chunks():
                kept.write(chunk)
        job = cls(club, key)
        job.write_status(state="waiting", name=(file.name or "workbook")[:120])
        return job

    @property
    def status(self) -> dict[str, Any]:
        """``state`` (waiting, going, done, refused), ``name``, ``done``, ``of``, ``word``, ``slug``, ``message``."""
        try:
            found: dict[str, Any] = json.loads((self.folder / "status.json").read_text())
        except (OSError, ValueError):
            return {"state": "waiting", "name": "workbook"}
        if found["state"] == "going" and self.key not in _going:
            return {**found, "state": "refused", "message": CUT_OFF}
        return found

    def write_status(self, **values: Any) -> None:
        status = {**self.status, **values}
        fresh = self.folder / f"status-{threading.get_ident()}.json"
        fresh.write_text(json.dumps(status))
        fresh.replace(self.folder / "status.json")

    def read(self) -> tuple[Plan | None, Report]:
        """Read the workbook for the preview. What is no workbook at all is a fault too."""
        try:
            return read_workbook(self.folder / "event.xlsx")
        except BookRefused as refused:
            report = Report()
            name = self.status.get("name", "The workbook")
            report.fault(name, str(refused).replace("event.xlsx", name))
            return None, report

    def run(self, by: str, replace: bool) -> None:
        """Bring the workbook in, in a thread of its own; the status file tells how far it is."""
        with _going_changes:
            if self.key in _going or self.status["state"] == "done":
                return
            _going.add(self.key)
        self.write_status(state="going", done=0, of=0, word="reading", message="")
        threading.Thread(target=self._alone, args=(by, replace), name=f"import-{self.key}", daemon=True).start()

    def _alone(self, by: str, replace: bool) -> None:
        """Bring the workbook in on a thread of its own, and give back the database connection that the thread had."""
        try:
            self._bring_in(by, replace)
        finally:
            connections.close_all()

    def _bring_in(self, by: str, replace: bool) -> None:
        def tell(word: str, done: int, of: int) -> None:
            self.write_status(word=word, done=done, of=of)

        try:
            plan, report = read_workbook(self.folder / "event.xlsx", tell)
            if plan is None:
                self.write_status(state="refused", message=f"{len(report.faults)} faults: look at the list again.")
                return
            event = keep_event(plan, by, club=self.club, replace=replace, progress=tell)
            self.write_status(state="done", slug=event.slug)
        except Faults as faults:
            self.write_status(state="refused", message=" ".join(fault.message for fault in faults.faults))
        except BookRefused as refused:
            self.write_status(state="refused", message=str(refused))
        except Exception:
            self.write_status(
                state="refused",
                message="Something broke on our side; nothing was written. Try again, or ask who runs the site to look at the log.",
            )
            raise
        finally:
            _going.discard(self.key)


def preview(club: Club, plan: Plan) -> dict[str, Any]:
    """What stands in a workbook without faults, and what keeps it from being brought in."""
    old = existing_event(plan)
    hindrance = ""
    replaced = {slip.replaces for slip in plan.slips if slip.replaces is not None}
    if plan.event.club.casefold() != club.name.casefold():
        hindrance = f"This workbook is of {plan.event.club}. Bring it in from that club's page, or correct the club on its Event sheet."
    elif old is not None and not may_replace(old):
        hindrance = f"{old.name} is here already and has slips, or other things from its day. Those are never replaced: correct them one by one."
    return {
        "plan": plan,
        "old": old,
        "hindrance": hindrance,
        "fish": sum(slip.fish for slip in plan.slips if not slip.void and slip.number not in replaced),
    }


def _folder() -> Path:
    return Path(settings.DATA) / "imports"


def _sweep() -> None:
    folder = _folder()
    folder.mkdir(parents=True, exist_ok=True)
    for old in folder.iterdir():
        if old.is_dir() and time.time() - old.stat().st_mtime > KEPT_SECONDS:
            shutil.rmtree(old, ignore_errors=True)
