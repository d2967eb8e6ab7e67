"""Write a season's mortality summary."""

from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandParser
from django.utils.translation import gettext

from weighin.reports.files.season import FORMS, season_file
from weighin.reports.management.giving import give
from weighin.reports.management.named import season_named


class Command(BaseCommand):
    help = "Write a season's mortality summary as JSON, XLSX (the rows behind each figure) or PDF."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("club", help=gettext("the club’s slug or name"))
        parser.add_argument("season", help=gettext("the season’s slug or name"))
        parser.add_argument("--format", choices=FORMS, required=True)
        parser.add_argument("--out", type=Path, help=gettext("the file to write; without it the standard output"))

    def handle(self, *args: Any, **options: Any) -> None:
        season = season_named(options["club"], options["season"])
        content, _ = season_file(season, options["format"])
        give(content, options["format"], options["out"], self.stdout, self.stdout)
