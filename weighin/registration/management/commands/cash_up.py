"""The cash-up of an event."""

import json
from typing import Any

from django.core.management.base import BaseCommand, CommandParser
from django.utils.translation import gettext

from weighin.registration.management.asking import event_of
from weighin.registration.queries.cash_up import as_json, cash_up_of


class Command(BaseCommand):
    help = "Say what an event took in, owes and is owed, and whether it balances."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("slug", help=gettext("the event’s slug, as in its address"))
        parser.add_argument("--json", action="store_true", help=gettext("as data"))

    def handle(self, *args: Any, **options: Any) -> None:
        sheet = as_json(cash_up_of(event_of(options["slug"])))
        if options["json"]:
            self.stdout.write(json.dumps(sheet, ensure_ascii=False, indent=2))
            return
        sign = sheet["currency"]
        for label, amount in (
            (gettext("Expected of entry fees"), sheet["expected"]["entry_fee"]),
            (gettext("Expected of the big fish pot"), sheet["expected"]["big_fish_pot"]),
            *(
                (gettext("Expected of %(pot)s") % {"pot": name}, pot)
                for name, pot in sheet["expected"]["side_pots"].items()
            ),
            *((gettext("Received, %(means)s") % {"means": name}, amount) for name, amount in sheet["received"].items()),
            (gettext("Refunded"), sheet["back"]),
            (gettext("Purse"), sheet["purse"]),
            (gettext("Kept by the club"), sheet["kept_by_club"]),
            (gettext("Paid out"), sheet["paid_out"]),
            (gettext("Unclaimed"), sheet["unclaimed"]),
            (gettext("Difference"), sheet["difference"]),
        ):
            self.stdout.write(f"{label}: {sign}{amount}")
        for owed in sheet["owed"]:
            self.stdout.write(
                gettext("Owed by %(team)s for %(what)s: %(sign)s%(amount)s")
                % {"team": owed["team"], "what": owed["pot"] or owed["kind"], "sign": sign, "amount": owed["amount"]}
            )
