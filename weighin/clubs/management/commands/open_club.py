"""Open a club's page and calendar to the public, or close them again."""

from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from weighin.clubs.models import Club
from weighin.clubs.services.clubs import open_club


class Command(BaseCommand):
    help = "Open a club's page and its calendar to everyone: name, water, dates and times of every event."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("club", help="the club’s slug")
        parser.add_argument("--close", action="store_true", help="only members see them from now on")

    def handle(self, *args: Any, **options: Any) -> None:
        club = Club.objects.filter(slug=options["club"]).first()
        if club is None:
            raise CommandError(
                f"There is no club {options['club']}: look at the addresses of the club's pages for its slug."
            )
        is_open = not options["close"]
        changed = open_club(club, is_open, "command line")
        said = f"{club} is {'open to everyone' if is_open else 'for members only'}"
        self.stdout.write(f"{said}." if changed else f"{said} already.")
