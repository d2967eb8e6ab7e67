"""Prove that no weigh slip was altered, nor anything that the history binds."""

import sys
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils.translation import gettext

from weighin.audit.domain.reading_out import read_out
from weighin.events.models import Event
from weighin.operations.pages.aside import erased_said
from weighin.operations.queries.ledgers import ledger_of, other_histories, printed_fault


class Command(BaseCommand):
    help = "Walk the chains of slips and history of every event, or of one, and hold all that they bind against them."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("slug", nargs="?", help=gettext("one event; without it every event"))

        parser.add_argument(
            "--head", metavar="FIGURES", help=gettext("figures that were printed, sent or read out, with --count")
        )
        parser.add_argument("--count", type=int, metavar="N", help=gettext("how many slips or lines they were said of"))

    def handle(self, *args: Any, **options: Any) -> None:
        events = Event.everyone.order_by("slug")
        if options["slug"]:
            events = events.filter(slug=options["slug"])
            if not events:
                raise CommandError(
                    gettext("There is no event %(slug)s: look at the addresses of the event pages for its slug.")
                    % {"slug": options["slug"]}
                )
        printed = options["head"] is not None and options["count"] is not None
        if (options["head"] is None) != (options["count"] is None) or (printed and not options["slug"]):
            raise CommandError(gettext("--head and --count go together, with the slug of their event."))
        altered = False
        for event in events:
            ledger = ledger_of(event)
            faults = list(ledger.faults)
            if printed and (fault := printed_fault(ledger, options["count"], options["head"])):
                faults.append(fault)
            for fault in faults:
                self.stdout.write(f"{event.slug}: {fault}")
            altered = altered or bool(faults)
            if not faults:
                head = ledger.head[:12] or "empty"
                self.stdout.write(
                    gettext("%(slug)s: %(links)s slips, nothing altered, head %(head)s")
                    % {"slug": event.slug, "links": len(ledger.links), "head": head}
                )
            if erased := erased_said(event):
                self.stdout.write(f"{event.slug}: {erased}")
            if options["slug"]:
                for n, links, what in (
                    (len(ledger.links), ledger.links, gettext("slips")),
                    (len(ledger.history), ledger.history, gettext("lines of history")),
                ):
                    if links:
                        said = {"n": n, "what": what, "figures": read_out(links[max(links)])}
                        self.stdout.write(gettext("To read out or to print: %(n)s %(what)s, %(figures)s") % said)
                if printed and not faults:
                    self.stdout.write(gettext("What was printed of it stands here, unchanged."))
        if not options["slug"]:
            others = other_histories()
            for fault in others:
                self.stdout.write(fault)
            altered = altered or bool(others)
        if altered:
            self.stdout.write(
                gettext("The ledger does not hold: compare with a backup and the printed slips before publishing.")
            )
            sys.exit(1)
