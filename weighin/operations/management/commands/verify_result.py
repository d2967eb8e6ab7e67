"""Hold a result that somebody has as a file against itself and what the site keeps."""

import sys
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils.translation import gettext

from weighin.operations.queries.verifying import NoResult, Verdict, verify
from weighin.operations.queries.verifying_proof import verify_proof_file


class Command(BaseCommand):
    help = (
        "Say whether a proof, or another JSON result, is whole, comes to what it says, and is what this site keeps: "
        "an official result, made from slips that nobody altered."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument(
            "file", type=Path, help=gettext("the proof of an event, or JSON from export_event or its public address")
        )

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            found = verify_proof_file(options["file"])
            if found is None:
                verdict, faults = verify(options["file"]), False
            else:
                verdict, faults = found.kept, bool(found.faults)
                self.stdout.write(found.digest_said)
                self.stdout.write(found.alone_said)
                self._listed(found.alone.differs)
        except NoResult as refused:
            raise CommandError(str(refused)) from None
        self._kept(verdict)
        if verdict.faults or faults:
            sys.exit(1)

    def _kept(self, verdict: Verdict) -> None:
        for head, faults in (
            (gettext("Not as it was written here, whatever the file says:"), verdict.broken),
            (gettext("Other in the file than what is kept here:"), verdict.differs),
        ):
            if faults:
                self.stdout.write(head)
            self._listed(faults)
        self.stdout.write(verdict.finding)
        for note in verdict.beside:
            self.stderr.write(note)

    def _listed(self, lines: tuple[str, ...]) -> None:
        for line in lines:
            self.stdout.write(f"  {line}")
