"""Declare a side pot of an event, or change it."""

from typing import Any

from django.core.management.base import BaseCommand, CommandParser
from django.utils.translation import gettext

from weighin.registration.management.asking import BY, event_of, refused
from weighin.registration.models import Wins
from weighin.registration.services.side_pots import declare_side_pot, named_pot
from weighin.rules.faults import Faults

FIELDS = {"name": "NAME", "fee": "--fee", "wins": "--wins", "shares": "--shares", "reason": "--reason"}


class Command(BaseCommand):
    help = "Declare a side pot; of a name that is there already, change it. The last line is its name."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("slug", help=gettext("the event’s slug, as in its address"))
        parser.add_argument("name", help=gettext("the side pot’s name"))
        parser.add_argument("--fee", required=True, help=gettext("what a team pays to be in it"))
        parser.add_argument("--wins", required=True, help=", ".join(Wins.values))
        parser.add_argument(
            "--shares", default="", metavar="LIST", help=gettext("such as 60,40; 100 when none are given")
        )
        parser.add_argument(
            "--reason", default="", metavar="TEXT", help=gettext("why the fee changes once a team has paid")
        )

    def handle(self, *args: Any, **options: Any) -> None:
        event = event_of(options["slug"])
        said = {name: options[name] for name in FIELDS}
        old = named_pot(event, options["name"])
        try:
            pot = declare_side_pot(event, said | ({"name": old.name} if old else {}), BY, old)
        except Faults as faults:
            raise refused(faults, FIELDS) from None
        self.stdout.write(pot.name)
