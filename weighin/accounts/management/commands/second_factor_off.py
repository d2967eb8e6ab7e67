"""Take somebody's second factor away from the machine that the site runs on: the way back for a lost telephone."""

from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from weighin.accounts.queries.people import person_named
from weighin.accounts.services.second_factors import take_off

BY = "command line"


class Command(BaseCommand):
    help = (
        "Take the second factor of somebody away who has neither the telephone nor a recovery code; the password alone "
        "opens then. Be sure who asks: see the person, or call them back."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("username")

    def handle(self, *args: Any, **options: Any) -> None:
        person = person_named(options["username"])
        if person is None:
            raise CommandError(
                f"Nobody signs in as {options['username']}: look at the club's members page for the name."
            )
        if not take_off(person, BY):
            raise CommandError(f"{person.username} has no second factor: nothing was changed.")
        self.stdout.write(f"{person.username} signs in with the password alone. Have it set up again on the new phone.")
