"""Bring everything the site keeps into another database."""

from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils.translation import gettext

from weighin.safekeeping.services.moving import MoveRefused, move


class Command(BaseCommand):
    help = (
        "Copy every row into an empty database, SQLite or PostgreSQL, and hold tables, ledgers and triggers there against "
        "those here. What is here stays as it is. End the server first."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("url", help=gettext("where to, as DATABASE_URL is written"))

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            move(options["url"], self.stdout.write)
        except MoveRefused as refused:
            raise CommandError(str(refused)) from None
        self.stdout.write(
            gettext(
                "Moved. Set DATABASE_URL to that address and start the server anew; tablets send again what they have."
            )
        )
