"""Write an event out."""

from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils.translation import gettext

from weighin.events.access import find
from weighin.reports.files.event import TYPES, event_file
from weighin.reports.management.giving import give
from weighin.reports.management.named import site_named
from weighin.roster.queries import waiting_teams
from weighin.slips.queries.slips import waiting_of


class Command(BaseCommand):
    help = "Write an event as JSON, CSV (standings), XLSX (the workbook it can be brought in from) or PDF (standings)."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("slug")
        parser.add_argument("--format", choices=sorted(TYPES), required=True)
        parser.add_argument("--out", type=Path, help=gettext("the file to write; without it the standard output"))

        parser.add_argument(
            "--address",
            default="",
            help=gettext("the site’s address, such as https://lake.example: a PDF’s code opens it"),
        )

    def handle(self, *args: Any, **options: Any) -> None:
        event = find(options["slug"])
        if event is None:
            raise CommandError(
                gettext("There is no event %(slug)s: look at the addresses of the event pages for its slug.")
                % {"slug": options["slug"]}
            )
        for boat, day in waiting_of(event) if options["format"] == "xlsx" else ():
            self.stderr.write(
                gettext(
                    "Boat %(boat)s has two slips on day %(day)s that wait to be settled: settle them before this workbook is brought "
                    "in again, or the second is a fault there."
                )
                % {"boat": boat, "day": day}
            )
        for team in waiting_teams(event):
            self.stderr.write(gettext("%(team)s has no boat number yet and is left out.") % {"team": team.name})
        content = event_file(event, options["format"], site_named(options["address"]))
        give(content, options["format"], options["out"], self.stdout, self.stdout)
