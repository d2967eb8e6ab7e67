"""Write the teams of an event out."""

from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils.translation import gettext

from weighin.events.access import find
from weighin.reports.files.teams import FORMS, teams_file
from weighin.reports.management.giving import give


class Command(BaseCommand):
    help = "Write the teams of an event as CSV, or as XLSX with the sheet to sign in on; import_teams brings either in again."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("slug")
        parser.add_argument("--format", choices=FORMS, required=True)
        parser.add_argument(
            "--contacts",
            action="store_true",
            help=gettext("with phone numbers, emergency contacts and e-mail addresses"),
        )
        parser.add_argument("--out", type=Path, help=gettext("the file to write; without it the standard output"))

    def handle(self, *args: Any, **options: Any) -> None:
        event = find(options["slug"])
        if event is None:
            raise CommandError(
                gettext("There is no event %(slug)s: look at the addresses of the event pages for its slug.")
                % {"slug": options["slug"]}
            )
        content = teams_file(event, options["format"], options["contacts"])
        give(content, options["format"], options["out"], self.stdout, self.stderr)
