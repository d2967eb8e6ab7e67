"""Bring in what a copy has and the site lacks, such as the copy that a restore kept aside.

Every row comes through the door under the id that it has, so that what is here already stays as it is, and bringing the
same copy twice does nothing.
"""

import json
import sys
from collections import Counter
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path
from typing import Any

from django.utils.translation import gettext

from weighin.audit.services import log_history, writing
from weighin.care.services.notes import SENT_NOTE
from weighin.checkin.services.check_ins import CHECK_IN
from weighin.events.domain.table import Table
from weighin.events.models import Event
from weighin.events.queries.events import calendar_of, rules_of
from weighin.records.domain.messages import RULES, Sender
from weighin.records.parsing.json_body import read_body
from weighin.records.services.door import receive
from weighin.records.services.record_type import RecordType
from weighin.safekeeping.services.backups import BackupRefused, last_line, managed, tried_backup
from weighin.slips.services.slips import SLIP
from weighin.stations.domain.cans import CANS

# In the order in which they are read beside each other
KINDS: dict[str, RecordType[Any]] = {"check-ins": CHECK_IN, "care notes": SENT_NOTE, "slips": SLIP}
MAY_ALL = frozenset({*CANS, "correct", RULES})
TELL = "from weighin.safekeeping.services.bringing_back import tell; tell()"
HERE = "kept", "second"


@dataclass
class Brought:
    """What became of an event's rows: how many of each kind came in, and why others did not."""

    slug: str
    kept: Counter[str] = field(default_factory=Counter)
    refused: list[str] = field(default_factory=list)


def tell() -> None:
    """Print every row that a copy has, as stations send them; run on the copy, in a process of its own."""
    json.dump({event.slug: _rows_of(event) for event in Event.objects.order_by("pk")}, sys.stdout)


def _rows_of(event: Event) -> list[dict[str, Any]]:
    table = Table(calendar_of(event), rules_of(event), {})
    found = []
    for kind, record in KINDS.items():
        order = "position" if record.chain else "number"
        for row in record.rows().filter(event=event).order_by(order):
            item = {name: value for name, value in record.as_sent(row, table).items() if name != "slip"}
            item["replaces"] = str(row.replaces_id) if row.replaces_id else None
            found.append(
                {
                    "kind": kind,
                    "item": item,
                    "by": row.recorded_by,
                    "sent": row.sent_at.isoformat() if row.sent_at else None,
                }
            )
    return found


def bring_back(file: Path, by: str) -> list[Brought]:
    """Bring in what the copy in ``file`` has and the site lacks; what became of each event's rows.

    Raises BackupRefused, with nothing brought, for a file that a restore would refuse.
    """
    with tried_backup(file) as tried:
        told = managed(tried, "shell", "--no-imports", "-c", TELL)
    if told.returncode:
        raise BackupRefused(
            gettext("%(file)s cannot be read (%(line)s). Nothing was imported.")
            % {"file": file, "line": last_line(told.stderr)}
        )
    return [_bring(slug, rows, file, by) for slug, rows in json.loads(told.stdout).items()]


def _bring(slug: str, rows: list[dict[str, Any]], file: Path, by: str) -> Brought:
    brought = Brought(slug)
    event = Event.objects.filter(slug=slug).select_related("season").first()
    if event is None:
        if rows:
            brought.refused.append(gettext("this event is not here: add it first, then import the copy again"))
        return brought
    for kind, record in KINDS.items():
        theirs = [row for row in rows if row["kind"] == kind]
        here = {str(pk) for pk in record.rows().filter(event=event).values_list("pk", flat=True)}
        for row in theirs:
            if row["item"]["id"] in here:
                continue
            sent = datetime.fromisoformat(row["sent"]) if row["sent"] else None
            items, _ = read_body(json.dumps({"rows": [row["item"]]}).encode(), "rows")
            ((_, outcome),) = receive(record, event.pk, items, Sender(row["by"], MAY_ALL, sent))
            if outcome.state in HERE:
                brought.kept[kind] += 1
            elif outcome.state != "already":
                why = "; ".join(fault.message for fault in outcome.faults)
                brought.refused.append(
                    gettext("%(kind)s, boat %(boat)s, day %(day)s: %(why)s")
                    % {"kind": kind, "boat": row["item"].get("boat"), "day": row["item"].get("day"), "why": why}
                )
    if brought.kept:
        with writing():
            log_history(
                by,
                "site.brought_back",
                gettext("%(n)s rows were imported from the copy %(name)s.")
                % {"n": brought.kept.total(), "name": file.name},
                club_id=event.season.club_id,
                event_id=event.pk,
            )
    return brought
