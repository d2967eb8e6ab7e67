"""Bring in what a copy has and the site lacks."""

from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils.translation import gettext

from weighin.safekeeping.services.backups import BackupRefused
from weighin.safekeeping.services.bringing_back import bring_back


class Command(BaseCommand):
    help = (
        "Bring in the slips, check-ins and care notes that a backup has and the site lacks, such as the copy that "
        "'restore' kept aside. Run again it does nothing; the server may run."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("file", type=Path, help=gettext("a backup, or what 'restore' kept aside"))

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            found = bring_back(options["file"], gettext("the server’s machine"))
        except BackupRefused as refused:
            raise CommandError(str(refused)) from None
        left = 0
        for event in found:
            if event.kept:
                said = ", ".join(f"{count} {kind}" for kind, count in event.kept.items())
                self.stdout.write(gettext("%(event)s: %(said)s came in") % {"event": event.slug, "said": said})
            for sentence in event.refused:
                left += 1
                self.stdout.write(gettext("%(event)s: %(said)s") % {"event": event.slug, "said": sentence})
        if not any(event.kept for event in found) and not left:
            self.stdout.write(gettext("The site lacks nothing of it."))
        if left:
            raise CommandError(gettext("%(n)s could not come in: see above.") % {"n": left})
