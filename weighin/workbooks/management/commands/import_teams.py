"""Bring a list of teams into an event."""

import json
import sys
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils.translation import gettext, ngettext

from weighin.events.access import find
from weighin.events.models import Event
from weighin.roster.domain.closing import require_entries_open
from weighin.roster.domain.list_faults import NOT_A_TEXT
from weighin.roster.domain.team_list import FIELDS, MOST_BYTES, Matching, TeamList, as_json
from weighin.roster.parsing.team_lists.reading import read_list
from weighin.roster.queries import beside_of
from weighin.roster.services.team_lists import import_list
from weighin.rules.faults import Faults
from weighin.workbooks.parsing.team_lists import ListRefused, open_list

BY = "command line"


class Command(BaseCommand):
    help = "Bring a list of teams into an event from CSV or .xlsx, all or nothing; with --json what was read goes to the standard output."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("slug")
        parser.add_argument(
            "file", type=Path, help=gettext("the list: .xlsx, or text with commas, semicolons, tabs or bars")
        )
        parser.add_argument("--check", action="store_true", help=gettext("read everything, write nothing"))
        parser.add_argument("--json", action="store_true", help=gettext("what was read, skipped and wrong, as JSON"))
        parser.add_argument(
            "--sheet", default="", help=gettext("the sheet of a workbook; else the first with headings")
        )
        parser.add_argument(
            "--map",
            default="",
            metavar="FIELD=HEADING,...",
            help=gettext("which heading means which field, such as team=Crew"),
        )
        parser.add_argument(
            "--namesakes", action="store_true", help=gettext("anglers of one name in two teams are two people")
        )

    def handle(self, *args: Any, **options: Any) -> None:
        event = find(options["slug"])
        if event is None:
            raise CommandError(
                gettext("There is no event %(slug)s: look at the addresses of the event pages for its slug.")
                % {"slug": options["slug"]}
            )
        try:
            found = self._read(event, options)
        except ListRefused as refused:
            found = TeamList(faults=[refused.fault])
        except Faults as faults:
            raise CommandError(str(faults)) from None
        if options["json"]:
            self.stdout.write(json.dumps(as_json(found), indent=1, ensure_ascii=False))
        self._say(found, options["check"])
        if found.faults:
            sys.exit(1)

    def _read(self, event: Event, options: dict[str, Any]) -> TeamList:
        matching = Matching(_said(options["map"]))
        try:
            with options["file"].open("rb") as file:
                content = file.read(MOST_BYTES + 1)
        except OSError:
            raise ListRefused("unreadable", NOT_A_TEXT.says()) from None
        grid = open_list(content, options["file"].name, matching, options["sheet"])
        if options["check"]:
            require_entries_open(event)
            return read_list(grid, beside_of(event), matching, options["namesakes"])
        return import_list(event, grid, BY, matching, options["namesakes"])

    def _say(self, found: TeamList, check: bool) -> None:
        for one in [*found.warnings, *found.faults]:
            where = gettext("Row %(row)s, %(column)s") if one.column else gettext("Row %(row)s")
            place = where % {"row": one.row, "column": one.column} if one.row else one.column or ""
            self.stderr.write(f"{place}: {one.message}" if place else one.message)
        for skipped in found.skipped:
            self.stderr.write(
                gettext("Row %(row)s is left out: it %(why)s.") % {"row": skipped.row, "why": skipped.said.shown()}
            )
        if found.unknown:
            self.stderr.write(gettext("Columns left out: %(headings)s.") % {"headings": ", ".join(found.unknown)})
        teams = len(found.rows)
        if found.faults:
            said = gettext("Nothing was written.")
        elif check:
            said = ngettext("%(n)s team can be imported.", "%(n)s teams can be imported.", teams) % {"n": teams}
        else:
            said = ngettext("%(n)s team imported.", "%(n)s teams imported.", teams) % {"n": teams}
        self.stderr.write(said)


def _said(written: str) -> dict[str, str]:
    """Fields by heading, from ``field=Heading,...``. Raises CommandError."""
    found = {}
    for part in filter(str.strip, written.split(",")):
        field, equals, heading = part.partition("=")
        if field.strip() not in FIELDS or not equals or not heading.strip():
            raise CommandError(
                gettext("'%(part)s' names no field and heading: write such as team=Crew, with one of %(fields)s.")
                % {"part": part.strip(), "fields": ", ".join(FIELDS)}
            )
        found[heading.strip()] = field.strip()
    return found
