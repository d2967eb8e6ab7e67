"""Write down money that a team paid, or got back."""

from typing import Any

from django.core.management.base import BaseCommand, CommandParser
from django.utils.translation import gettext

from weighin.registration.management.asking import BY, event_of, refused
from weighin.registration.models import Means, Payment
from weighin.registration.services.payments import take_payment
from weighin.rules.faults import Faults

FIELDS = {"entry": "BOAT", "kind": "KIND", "pot": "--pot", "amount": "AMOUNT", "means": "--means", "reason": "--reason"}


class Command(BaseCommand):
    help = "Write down a payment of a team; a negative amount is given back. The last line is the row's number."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("slug", help=gettext("the event’s slug, as in its address"))
        parser.add_argument("boat", help=gettext("the boat’s number"))
        parser.add_argument("kind", help=", ".join(Payment.Kind.values))
        parser.add_argument("amount", help=gettext("such as 60.00, or -60.00 for a refund"))
        parser.add_argument("--means", required=True, help=", ".join(Means.values))
        parser.add_argument("--pot", default="", metavar="NAME", help=gettext("the side pot’s name"))
        parser.add_argument(
            "--corrects", metavar="ROW", help=gettext("the number of the row that it takes the place of")
        )
        parser.add_argument("--reason", default="", metavar="TEXT", help=gettext("why the row is corrected"))

    def handle(self, *args: Any, **options: Any) -> None:
        event = event_of(options["slug"])
        said = {
            "entry": options["boat"],
            **{name: options[name] for name in ("kind", "amount", "means", "pot", "reason")},
        }
        try:
            row = take_payment(event, said, BY, corrects=options["corrects"], asked=False)
        except Faults as faults:
            raise refused(faults, FIELDS) from None
        self.stdout.write(str(row.number))
