"""Give a person a role in a club from the command line, such as the first director of a club that was imported."""

from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from weighin.accounts.domain.roles import Role
from weighin.accounts.models import User
from weighin.audit.services import log_history, writing
from weighin.clubs.models import Club, Membership


class Command(BaseCommand):
    help = "Give somebody who can already sign in a role in a club; for a club that was imported and has no member yet."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("club", help="the club’s slug or name")
        parser.add_argument("username")
        parser.add_argument("role", choices=Role.values, nargs="?", default=Role.DIRECTOR.value)

    def handle(self, *args: Any, **options: Any) -> None:
        wanted = options["club"]
        club = Club.objects.filter(slug=wanted).first() or Club.objects.filter(name__iexact=wanted).first()
        if club is None:
            raise CommandError(f"There is no club {wanted}: look at the addresses of the club's pages for its slug.")
        user = User.objects.filter(username__iexact=options["username"]).first()
        if user is None:
            raise CommandError(f"Nobody signs in as {options['username']}: a director adds people on the members page.")
        role = Role(options["role"])
        with writing():
            Membership.objects.update_or_create(user=user, club=club, defaults={"role": role})
            said = f"{user.username} is {role.label.lower()} of {club}"
            log_history("command line", "member.added", said, club_id=club.pk, subject=user.username)
        self.stdout.write(f"{said}.")
