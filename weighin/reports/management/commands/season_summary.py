"""Write a season's mortality summary."""

import sys
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.db.models import Q, QuerySet

from weighin.clubs.models import Club, Season
from weighin.reports.season_files import FORMS, season_file


class Command(BaseCommand):
    help = "Write a season's mortality summary as JSON, XLSX (the rows behind each figure) or PDF."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("club", help="the club's slug or name")
        parser.add_argument("season", help="the season's slug or name")
        parser.add_argument("--format", choices=FORMS, required=True)
        parser.add_argument("--out", type=Path, help="the file to write; without it the standard output")

    def handle(self, *args: Any, **options: Any) -> None:
        club = _found(Club.objects.all(), "club", options["club"])
        season = _found(Season.objects.filter(club=club), f"season of {club}", options["season"])
        season.club = club
        content, _ = season_file(season, options["format"])
        if options["out"] is None:
            if options["format"] == "json":
                self.stdout.write(content.decode(), ending="")
            else:
                sys.stdout.buffer.write(content)
            return
        try:
            options["out"].write_bytes(content)
        except OSError as error:
            raise CommandError(f"{options['out']} cannot be written ({error.strerror}): name another file.") from None
        self.stdout.write(f"Wrote {options['out']} ({len(content):,} bytes).")


def _found(among: QuerySet[Any], what: str, words: str) -> Any:
    """The one of this slug, else of this name in any case. Raises CommandError with those there are."""
    found = among.filter(slug=words).first() or among.filter(name=words).first()
    found = found or among.filter(Q(name__iexact=words) | Q(slug__iexact=words)).first()
    if found is None:
        there = ", ".join(f"{row.slug} ({row.name})" for row in among[:20]) or "none yet"
        raise CommandError(f"There is no {what} called {words}. Known are: {there}.")
    return found
