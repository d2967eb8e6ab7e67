"""Write down that a prize was handed over."""

from typing import Any

from django.core.management.base import BaseCommand, CommandParser
from django.utils.translation import gettext

from weighin.registration.management.asking import BY, event_of, refused
from weighin.registration.models import Means, PayOut
from weighin.registration.services.pay_outs import pay_out
from weighin.rules.faults import Faults

FIELDS = {
    "entry": "BOAT",
    "kind": "KIND",
    "pot": "--pot",
    "means": "--means",
    "received_by": "--received-by",
    "reason": "--overrule",
}


class Command(BaseCommand):
    help = "Write down that a prize was paid out, all that is left of it. The last line is the amount."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("slug", help=gettext("the event’s slug, as in its address"))
        parser.add_argument("boat", help=gettext("the boat’s number"))
        parser.add_argument("kind", help=", ".join(PayOut.Kind.values))
        parser.add_argument("--pot", default="", metavar="NAME", help=gettext("the side pot’s name"))
        parser.add_argument("--means", required=True, help=", ".join(Means.values))
        parser.add_argument(
            "--overrule", default="", metavar="TEXT", help=gettext("why it is paid although a protest can change it")
        )
        parser.add_argument("--received-by", required=True, metavar="TEXT", help=gettext("who took the money"))

    def handle(self, *args: Any, **options: Any) -> None:
        event = event_of(options["slug"])
        said = {"entry": options["boat"], **{name: options[name] for name in ("kind", "pot", "means", "received_by")}}
        said["reason"] = options["overrule"]
        try:
            row = pay_out(event, said, BY)
        except Faults as faults:
            raise refused(faults, FIELDS) from None
        self.stdout.write(f"{row.amount:.2f}")
