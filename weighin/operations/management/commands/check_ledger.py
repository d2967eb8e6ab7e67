"""Prove that no weigh slip was altered."""

import sys
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils.translation import gettext

from weighin.events.models import Event
from weighin.operations.queries.ledgers import ledger_of


class Command(BaseCommand):
    help = "Walk the hash chain of every event's slips, or of one event's, and of the official results made from them."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("slug", nargs="?", help=gettext("one event; without it every event"))

    def handle(self, *args: Any, **options: Any) -> None:
        events = Event.objects.order_by("slug")
        if options["slug"]:
            events = events.filter(slug=options["slug"])
            if not events:
                raise CommandError(
                    gettext("There is no event %(slug)s: look at the addresses of the event pages for its slug.")
                    % {"slug": options["slug"]}
                )
        altered = False
        for event in events:
            ledger = ledger_of(event)
            for fault in ledger.faults:
                self.stdout.write(f"{event.slug}: {fault}")
            altered = altered or bool(ledger.faults)
            if not ledger.faults:
                head = ledger.head[:12] or "empty"
                self.stdout.write(
                    gettext("%(slug)s: %(links)s slips, nothing altered, head %(head)s")
                    % {"slug": event.slug, "links": len(ledger.links), "head": head}
                )
        if altered:
            self.stdout.write(
                gettext("The ledger does not hold: compare with a backup and the printed slips before publishing.")
            )
            sys.exit(1)
