"""The cash-up of an event."""

import json
from typing import Any

from django.core.management.base import BaseCommand, CommandParser
from django.utils.translation import gettext

from weighin.clubs.domain.clock import shown_by
from weighin.registration.management.asking import event_of
from weighin.registration.pages.money import expected_lines, owed_rows, purse_lines, received_lines
from weighin.registration.queries.cash_up import as_json, cash_up_of
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
        till = cash_up.till
        with shown_by(event.club, event.time_zone):
            for head, lines in (
                (gettext("Expected"), expected_lines(till)),
                (gettext("Received"), [*received_lines(till), (gettext("Refunded"), till.cash.back)]),
                (gettext("Owed"), [(f"{row.called}, {row.what}", row.amount) for row in owed_rows(till)]),
                (gettext("Where it goes"), [*purse_lines(cash_up), (gettext("Difference"), cash_up.difference)]),
            ):
                self.stdout.write(head)
                self.stdout.writelines(f"  {what}: {money(amount)}\n" for what, amount in lines)
