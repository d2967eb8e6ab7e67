"""Hold a result that somebody has as a file against what the site keeps."""

import sys
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils.translation import gettext

from weighin.operations.queries.verifying import NoResult, verify


class Command(BaseCommand):
    help = "Say whether a JSON result is an official result kept here, made from slips that nobody altered."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument(
            "file", type=Path, help=gettext("JSON from export_event or from the public address of an event")
        )

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            verdict = verify(options["file"])
        except NoResult as refused:
            raise CommandError(str(refused)) from None
        for head, faults in (
            (gettext("Not as it was written here, whatever the file says:"), verdict.broken),
            (gettext("Other in the file than what is kept here:"), verdict.differs),
        ):
            if faults:
                self.stdout.write(head)
            for fault in faults:
                self.stdout.write(f"  {fault}")
        self.stdout.write(verdict.finding)
        for note in verdict.beside:
            self.stderr.write(note)
        if verdict.faults:
            sys.exit(1)
