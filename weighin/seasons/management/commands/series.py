"""Make a series of a season, or write one anew."""

from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils.translation import gettext

from weighin.reports.management.named import season_named
from weighin.rules.faults import Faults
from weighin.rules.sheet.keys import SEASON_TIES
from weighin.seasons.services.series import keep_series, series_named

BY = "manage.py"
FIELDS = {"name": "NAME", "events": "EVENT", "count_best": "--count-best", "ties": "--ties"}


class Command(BaseCommand):
    help = "Make a series of a season from some of its events; of a name that is there already, write it anew. The last line is its name."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("club", help=gettext("the club’s slug or name"))
        parser.add_argument("season", help=gettext("the season’s slug or name"))
        parser.add_argument("name", help=gettext("the series' name"))
        parser.add_argument("events", nargs="+", metavar="EVENT", help=gettext("slugs of the events that count in it"))
        parser.add_argument(
            "--count-best", default="", metavar="N", help=gettext("how many events count; the season’s when left out")
        )
        parser.add_argument(
            "--ties",
            default="",
            metavar="LIST",
            help=gettext("what separates equal points, such as %(ties)s; the season’s when left out")
            % {"ties": ",".join(SEASON_TIES)},
        )

    def handle(self, *args: Any, **options: Any) -> None:
        season = season_named(options["club"], options["season"])
        said = {name: options[name] for name in FIELDS}
        try:
            kept = keep_series(
                season,
                said["name"],
                said["events"],
                said["count_best"],
                said["ties"],
                BY,
                series_named(season, said["name"]),
            )
        except Faults as faults:
            raise CommandError(
                "\n".join(f"{FIELDS.get(fault.field, fault.field)}: {fault.message}" for fault in faults.faults)
            ) from None
        self.stdout.write(kept.name)
