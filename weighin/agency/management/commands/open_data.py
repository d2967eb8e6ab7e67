"""Write a season's or an event's open data."""

from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils.translation import gettext

from weighin.agency.files.open_data import season_open_data
from weighin.reports.management.named import named, season_named


class Command(BaseCommand):
    help = (
        "Write a season, or one of its events, as open data: a ZIP of CSV files with their description (CSV on the Web). "
        "No names, boat numbers, times or weights are in it, and what fewer than five boats stand behind is left blank."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("club", help=gettext("the club’s slug or name"))
        parser.add_argument("season", help=gettext("the season’s slug or name"))
        parser.add_argument("--event", help=gettext("only this event, by its slug or name"))
        parser.add_argument("--out", type=Path, required=True, help=gettext("the .zip file to write"))

    def handle(self, *args: Any, **options: Any) -> None:
        season = season_named(options["club"], options["season"])
        only = (
            named(season.events.all(), gettext("event in %(season)s") % {"season": season}, options["event"]).pk
            if options["event"]
            else None
        )
        content = season_open_data(season, only)
        try:
            options["out"].write_bytes(content)
        except OSError as error:
            raise CommandError(
                gettext("%(file)s cannot be written (%(strerror)s): name another file.")
                % {"file": options["out"], "strerror": error.strerror}
            ) from None
        self.stdout.write(
            gettext("Wrote %(file)s (%(size)s bytes).") % {"file": options["out"], "size": f"{len(content):,}"}
        )
