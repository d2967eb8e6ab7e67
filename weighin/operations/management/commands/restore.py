"""Put a backup in the place of what the site keeps."""

from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from weighin.events.models import Event
from weighin.operations.queries.ledgers import ledger_of
from weighin.operations.services.backups import BackupRefused, restore


class Command(BaseCommand):
    help = "Put a backup in the place of everything the site keeps; what was there is kept aside. End the server first."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("file", type=Path, help="what 'backup' wrote")
        parser.add_argument(
            "--unproven",
            action="store_true",
            help="also take a file whose seal or ledgers do not hold, for want of a better one",
        )

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            before = restore(options["file"], options["unproven"])
        except BackupRefused as refused:
            raise CommandError(str(refused)) from None
        events = list(Event.objects.order_by("slug"))
        broken = [event.slug for event in events if ledger_of(event).faults]
        self.stdout.write(f"Restored: {len(events)} events. What was here before is kept at {before}")
        if broken:
            raise CommandError(f"The ledger of {', '.join(broken)} does not hold: 'check_ledger' says where.")
        self.stdout.write(
            "Every ledger holds. Start the server anew. What was recorded since the backup is in the copy kept aside."
        )
