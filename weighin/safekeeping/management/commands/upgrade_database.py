"""Bring a database that an earlier version of the site made into the layout of this one."""

from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from weighin.safekeeping.services.rows_carried import UpgradeRefused
from weighin.safekeeping.services.upgrading import upgrade


class Command(BaseCommand):
    help = (
        "Bring a database that an earlier version of the site made into the layout of this one, with every row and "
        "with what was there kept aside. All or nothing; run again it does nothing. End the server first."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--unproven", action="store_true", help="also take a database whose ledgers do not hold")

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            upgrade(self.stdout.write, options["unproven"])
        except UpgradeRefused as refused:
            raise CommandError(str(refused)) from None
