"""Give somebody a new password from the machine that the site runs on."""

import getpass
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from weighin.accounts.queries.people import person_named
from weighin.accounts.services.people import give_first_password, set_password
from weighin.rules.faults import Faults

BY = "command line"


class Command(BaseCommand):
    help = (
        "Give somebody who forgot the password a new one; the way for a person of two clubs, whose password no director "
        "can change. It is asked for, twice, and never given on the command line, where others could read it; --random "
        "makes one and prints it alone on the last line, once. It only opens the page on which that person chooses "
        "another one. Every device of theirs is signed out."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("username")
        parser.add_argument("--random", action="store_true", help="make the password and print it, once")

    def handle(self, *args: Any, **options: Any) -> None:
        person = person_named(options["username"])
        if person is None:
            raise CommandError(
                f"Nobody signs in as {options['username']}: look at the club's members page for the name."
            )
        if options["random"]:
            password = give_first_password(person, BY)
            self.stdout.write(f"{person.username} signs in once with this, and then chooses another password:")
            self.stdout.write(password)
            return
        password = getpass.getpass(f"New password of {person.username}: ")
        if getpass.getpass("Once more: ") != password:
            raise CommandError("The two differ: nothing was changed. Try again.")
        try:
            set_password(person, password, BY, first=True)
        except Faults as found:
            raise CommandError(" ".join(fault.message for fault in found.faults)) from None
        self.stdout.write(f"{person.username} has a new password, and is asked for another one at the next sign-in.")
