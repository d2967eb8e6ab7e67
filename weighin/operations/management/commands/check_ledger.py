"""Prove that no weigh slip was altered."""

import sys
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from weighin.events.models import Event
from weighin.scale.ledger import breaks
from weighin.scale.models import WeighSlip
from weighin.standings.models import OfficialResult


class Command(BaseCommand):
    help = "Walk the hash chain of every event's slips, or of one event's, and of the official results made from them."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("slug", nargs="?", help="one event; without it every event")

    def handle(self, *args: Any, **options: Any) -> None:
        events = Event.objects.order_by("slug")
        if options["slug"]:
            events = events.filter(slug=options["slug"])
            if not events:
                raise CommandError(
                    f"There is no event {options['slug']}: look at the addresses of the event pages for its slug."
                )
        altered = False
        for event in events:
            found = list(WeighSlip.objects.filter(event=event).select_related("entry").order_by("position"))
            faults = breaks(found)
            links = {slip.position: slip.link for slip in found}
            for result in OfficialResult.objects.filter(event=event):
                if result.ledger_length and links.get(result.ledger_length) != result.ledger_head:
                    faults.append(
                        f"official result {result.version} was made from other slips than the ledger now holds"
                    )
            for fault in faults:
                self.stdout.write(f"{event.slug}: {fault}")
            altered = altered or bool(faults)
            if not faults:
                head = found[-1].link[:12] if found else "empty"
                self.stdout.write(f"{event.slug}: {len(found)} slips, nothing altered, head {head}")
        if altered:
            self.stdout.write(
                "The ledger does not hold: compare with a backup and the printed slips before publishing."
            )
            sys.exit(1)
