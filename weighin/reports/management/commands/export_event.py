"""Write an event out."""

import sys
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from weighin.events.access import find
from weighin.reports.event_files import TYPES, event_file
from weighin.scale.queries import waiting_of


class Command(BaseCommand):
    help = "Write an event as JSON, CSV (standings), XLSX (the workbook it can be brought in from) or PDF (standings)."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("slug")
        parser.add_argument("--format", choices=sorted(TYPES), required=True)
        parser.add_argument("--out", type=Path, help="the file to write; without it the standard output")

    def handle(self, *args: Any, **options: Any) -> None:
        event = find(options["slug"])
        if event is None:
            raise CommandError(
                f"There is no event {options['slug']}: look at the addresses of the event pages for its slug."
            )
        for boat, day in waiting_of(event) if options["format"] == "xlsx" else ():
            self.stderr.write(
                f"Boat {boat} has two slips on day {day} that wait to be settled: settle them before this workbook is "
                "brought in again, or the second is a fault there."
            )
        content = event_file(event, options["format"])
        if options["out"] is None:
            if options["format"] in ("json", "csv"):
                self.stdout.write(content.decode(), ending="")
            else:
                sys.stdout.buffer.write(content)
            return
        try:
            options["out"].write_bytes(content)
        except OSError as error:
            raise CommandError(f"{options['out']} cannot be written ({error.strerror}): name another file.") from None
        self.stdout.write(f"Wrote {options['out']} ({len(content):,} bytes).")
