"""Put a backup in the place of what the site keeps."""

from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils.translation import gettext

from weighin.events.models import Event
from weighin.operations.queries.ledgers import ledger_of
from weighin.safekeeping.services.backups import BackupRefused, restore
from weighin.safekeeping.services.drills import drill
from weighin.ui.nouns import counted


class Command(BaseCommand):
    help = "Put a backup in the place of everything the site keeps; what was there is kept aside. End the server first."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument(
            "file", type=Path, nargs="?", help=gettext("what 'backup' or the server wrote; of a drill the newest")
        )
        parser.add_argument(
            "--drill",
            action="store_true",
            help=gettext("only try it in a scratch place, beside a running site, and keep the date"),
        )
        parser.add_argument(
            "--unproven",
            action="store_true",
            help=gettext("also take a file whose seal or ledgers do not hold, for want of a better one"),
        )

    def handle(self, *args: Any, **options: Any) -> None:
        if options["drill"]:
            self._drill(options["file"])
            return
        if options["file"] is None:
            raise CommandError(gettext("Name the backup to restore, or try the newest with --drill."))
        try:
            before = restore(options["file"], options["unproven"])
        except BackupRefused as refused:
            raise CommandError(str(refused)) from None
        events = list(Event.everyone.order_by("slug"))
        broken = [event.slug for event in events if ledger_of(event).faults]
        self.stdout.write(
            gettext("Restored: %(events)s. What was here before is kept at %(before)s")
            % {"events": counted(len(events), "event"), "before": before}
        )
        if broken:
            raise CommandError(
                gettext("The ledger of %(broken)s does not hold: 'check_ledger' says where.")
                % {"broken": ", ".join(broken)}
            )
        self.stdout.write(
            gettext(
                "Every ledger holds. Start the server anew. What was recorded since the backup is in the copy kept aside: 'bring_back' brings it in."
            )
        )

    def _drill(self, file: Path | None) -> None:
        try:
            tried, rows = drill(file)
        except BackupRefused as refused:
            raise CommandError(str(refused)) from None
        held = ", ".join(counted(count, noun) for noun, count in rows.items())
        self.stdout.write(
            gettext("%(file)s restores whole: %(held)s, and every ledger holds. The site was not touched.")
            % {"file": tried, "held": held}
        )
