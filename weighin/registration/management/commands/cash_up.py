"""The cash-up of an event."""

import json
from collections.abc import Iterator
from typing import Any

from django.core.management.base import BaseCommand, CommandParser
from django.utils.text import capfirst
from django.utils.translation import gettext

from weighin.clubs.domain.clock import shown_by
from weighin.registration.management.asking import event_of
from weighin.registration.models import Means, Payment
from weighin.registration.queries.cash_up import CashUp, as_json, cash_up_of
from weighin.ui.figures import money


class Command(BaseCommand):
    help = "Say what an event took in, owes and is owed, and whether it balances."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("slug", help=gettext("the event’s slug, as in its address"))
        parser.add_argument("--json", action="store_true", help=gettext("as data"))

    def handle(self, *args: Any, **options: Any) -> None:
        event = event_of(options["slug"])
        cash_up = cash_up_of(event)
        if options["json"]:
            self.stdout.write(json.dumps(as_json(cash_up), ensure_ascii=False, indent=2))
            return
        with shown_by(event.club, event.time_zone):
            self.stdout.writelines(f"{line}\n" for line in _lines(cash_up))


def _lines(cash_up: CashUp) -> Iterator[str]:
    cash = cash_up.till.cash
    for label, amount in (
        *((gettext("%(what)s expected") % {"what": _named(*what)}, amount) for what, amount in cash.expected.items()),
        *(
            (gettext("Received, %(means)s") % {"means": Means(means).label.lower()}, amount)
            for means, amount in sorted(cash.received.items())
        ),
        (gettext("Refunded"), cash.back),
        (gettext("Purse"), cash_up.purse),
        (gettext("Kept by the club"), cash_up.kept_by_club),
        (gettext("Paid out"), cash_up.paid_out),
        (gettext("Unclaimed"), cash_up.unclaimed),
        (gettext("Difference"), cash_up.difference),
    ):
        yield f"{capfirst(label)}: {money(amount)}"
    for owed in cash.owed:
        yield gettext("Owed by %(team)s for %(what)s: %(amount)s") % {
            "team": cash_up.till.entries[owed.entry].name,
            "what": _named(*owed.what),
            "amount": money(owed.amount),
        }


def _named(kind: str, pot: str) -> str:
    return pot or str(Payment.Kind(kind).label).lower()
