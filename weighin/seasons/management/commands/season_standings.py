"""Write a season's standings."""

from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandParser
from django.utils.translation import gettext

from weighin.reports.management.giving import give
from weighin.reports.management.named import named, season_named
from weighin.seasons.files.standings import FORMS, standings_file
from weighin.seasons.queries.standings import season_standings


class Command(BaseCommand):
    help = "Write a season's standings of teams, anglers and classes as JSON, CSV, XLSX or PDF."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("club", help=gettext("the club’s slug or name"))
        parser.add_argument("season", help=gettext("the season’s slug or name"))
        parser.add_argument(
            "--series", default="", metavar="NAME", help=gettext("of one series; of the season when left out")
        )
        parser.add_argument("--format", choices=FORMS, required=True)
        parser.add_argument("--out", type=Path, help=gettext("the file to write; without it the standard output"))

    def handle(self, *args: Any, **options: Any) -> None:
        season = season_named(options["club"], options["season"])
        series = named(season.series.all(), gettext("series"), options["series"]) if options["series"] else None
        content = standings_file(season_standings(season, series), options["format"])
        give(content, options["format"], options["out"], self.stdout, self.stderr)
