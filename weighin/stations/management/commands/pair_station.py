"""Make a station's token, or take it back."""

from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from weighin.events.access import find
from weighin.rules.faults import Faults
from weighin.stations.domain.cans import CANS
from weighin.stations.services.stations import make_station, withdraw_station

BY = "command line"


class Command(BaseCommand):
    help = (
        "Pair a tablet, a second scale or a script with an event: its token is printed alone on the last line, once. "
        "Pairing again under the same name withdraws the token before it."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("slug", help="the event’s slug")
        parser.add_argument("name", help="what the station is called, such as 'Table 1'")
        parser.add_argument(
            "--can", default=",".join(CANS), help="what it may do, separated by commas (default: weigh,checkin,care)"
        )
        parser.add_argument("--withdraw", action="store_true", help="take the station's token back, at once")

    def handle(self, *args: Any, **options: Any) -> None:
        event = find(options["slug"])
        if event is None:
            raise CommandError(
                f"There is no event {options['slug']}: look at the addresses of the event pages for its slug."
            )
        try:
            if options["withdraw"]:
                withdraw_station(event, options["name"], BY)
                self.stdout.write(f"The token of station {options['name'].strip()} is dead from now on.")
                return
            can = [one.strip() for one in options["can"].split(",") if one.strip()]
            station, token = make_station(event, options["name"], can, BY)
        except Faults as found:
            raise CommandError("; ".join(fault.message for fault in found.faults)) from None
        self.stdout.write(f"Station {station.name} of {event.name} can: {station.can}. Its token, shown only here:")
        self.stdout.write(token)
