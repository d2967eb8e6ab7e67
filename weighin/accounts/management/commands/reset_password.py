"""Give somebody a new password from the machine that the site runs on."""

import getpass
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from weighin.accounts.queries import person_named
from weighin.accounts.services.people import set_password
from weighin.rules.faults import Faults

BY = "command line"


class Command(BaseCommand):
    help = (
        "Give somebody who forgot the password a new one; the way for a person of two clubs, whose password no director "
        "can change. It is asked for, twice, and never given on the command line, where others could read it. Every "
        "device of that person is signed out."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("username")

    def handle(self, *args: Any, **options: Any) -> None:
        person = person_named(options["username"])
        if person is None:
            raise CommandError(
                f"Nobody signs in as {options['username']}: look at the club's members page for the name."
            )
        password = getpass.getpass(f"New password of {person.username}: ")
        if getpass.getpass("Once more: ") != password:
            raise CommandError("The two differ: nothing was changed. Try again.")
        try:
            set_password(person, password, BY)
        except Faults as found:
            raise CommandError(" ".join(fault.message for fault in found.faults)) from None
        self.stdout.write(f"{person.username} has a new password. Ask them to change it after signing in.")
