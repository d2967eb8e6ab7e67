"""Workbooks on their way in through the web: kept for a day, read for a preview, then brought in by the request that asks.

A job is a folder in the data folder: the workbook, and a small file with its name and the event it became. Once the event
is in, the workbook, with the names in it, is taken away; every job is after a day, and the oldest when all of them take
more than ``MOST_KEPT`` bytes. The largest workbook that is taken (20,000 rows) comes in within about 7 s, so nothing goes on behind the page.
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
from django.utils.translation import gettext

from weighin.audit.database.turns import turn
from weighin.clubs.models import Club
from weighin.ui.forms.service import sentence
from weighin.workbooks.domain.plan import Plan
from weighin.workbooks.parsing.book import BookRefused
from weighin.workbooks.parsing.reading import read_workbook
from weighin.workbooks.parsing.rows import Report
from weighin.workbooks.services import existing_event, keep_event, stays

KEPT_SECONDS = 24 * 60 * 60
BOOK = "event.xlsx"
MOST_KEPT = 100 * 1024 * 1024
# What was read last, by its job: a preview that is asked for again and again costs one reading, and one at a time.
_reading = threading.Lock()
_read_last: dict[str, tuple[Plan | None, Report]] = {}


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
        """Keep an uploaded workbook."""
        sweep(file.size or 0)
        key = uuid.uuid4().hex
        folder = _folder() / f"{club.pk}-{key}"
        folder.mkdir(parents=True)
        with (folder / BOOK).open("wb") as kept:
            for chunk in file.chunks():
                kept.write(chunk)
        job = cls(club, key)
        job._write(name=(file.name or "workbook")[:120], slug="")
        return job

    @property
    def name(self) -> str:
        """What the uploaded file was called."""
        return self._read()["name"]

    @property
    def slug(self) -> str:
        """The event that the workbook became; empty until it came in."""
        return self._read()["slug"]

    def _read(self) -> dict[str, str]:
        try:
            found: dict[str, str] = json.loads((self.folder / "job.json").read_text())
        except (OSError, ValueError):
            return {"name": "workbook", "slug": ""}
        return found

    def _write(self, name: str, slug: str) -> None:
        (self.folder / "job.json").write_text(json.dumps({"name": name, "slug": slug}))

    def read(self) -> tuple[Plan | None, Report]:
        """Read the workbook for the preview. What is no workbook at all is a fault too."""
        with _reading:
            if self.key not in _read_last:
                _read_last.clear()
                try:
                    _read_last[self.key] = read_workbook(self.folder / BOOK, self.name)
                except BookRefused as refused:
                    report = Report()
                    report.fault(self.name, refused.said)
                    _read_last[self.key] = None, report
            return _read_last[self.key]

    def bring_in(self, by: str, replace: bool) -> None:
        """Bring the workbook in, all of it or, when it has faults, nothing. Raises Faults when the event may not come in."""
        with turn("import"):  # of a button pressed twice the second press waits for the first, and finds it done
            plan = None if self.slug else self.read()[0]
            if plan is not None:
                self._write(self.name, keep_event(plan, by, club=self.club, replace=replace).slug)
                (self.folder / BOOK).unlink(missing_ok=True)
                with _reading:
                    _read_last.pop(self.key, None)


def preview(club: Club, plan: Plan) -> dict[str, Any]:
    """What stands in a workbook without faults, and what keeps it from being brought in."""
    old = existing_event(plan)
    hindrance = ""
    replaced = {slip.replaces for slip in plan.slips if slip.replaces is not None}
    if plan.event.club.casefold() != club.name.casefold():
        hindrance = gettext(
            "This workbook is of %(club)s. Import it from that club’s page, or correct the club on its Event sheet."
        ) % {"club": plan.event.club}
    elif old is not None and (why := stays(old)) is not None:
        hindrance = sentence(why.shown())
    return {
        "plan": plan,
        "old": old,
        "hindrance": hindrance,
        "fish": sum(slip.fish for slip in plan.slips if not slip.void and slip.number not in replaced),
    }


def _folder() -> Path:
    return Path(settings.DATA) / "imports"


def sweep(more: int = 0) -> None:
    """Take away jobs that are older than a day, and the oldest ones until ``more`` bytes find room."""
    folder = _folder()
    folder.mkdir(parents=True, exist_ok=True)
    left = 0
    for job in sorted((job for job in folder.iterdir() if job.is_dir()), key=_age):
        size = sum(file.stat().st_size for file in job.iterdir())
        if _age(job) > KEPT_SECONDS or left + size + more > MOST_KEPT:
            shutil.rmtree(job, ignore_errors=True)
        else:
            left += size


def _age(folder: Path) -> float:
    return time.time() - folder.stat().st_mtime
