"""Copy everything the site keeps into one file."""

from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils.translation import gettext

from weighin.safekeeping.services.backups import BackupRefused, back_up
from weighin.ui.nouns import counted


class Command(BaseCommand):
    help = "Copy the database, whole and at one moment, into a new file; the site may go on meanwhile. SQLite only."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("file", type=Path, help=gettext("a new file, best on another disk or stick"))

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            made = back_up(options["file"])
        except BackupRefused as refused:
            raise CommandError(str(refused)) from None
        held = ", ".join(counted(count, noun) for noun, count in made.rows.items())
        self.stdout.write(
            gettext("%(file)s: %(held)s; %(size)s bytes, SHA-256 %(digest)s")
            % {"file": made.file, "held": held, "size": f"{made.size:,}", "digest": made.digest}
        )
        self.stdout.write(
            gettext("It holds telephone numbers and the digests of passwords: keep it as carefully as the site.")
        )
