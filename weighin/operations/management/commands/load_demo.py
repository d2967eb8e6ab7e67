"""Load the demo: invented clubs, their people and a season of events."""

from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils.translation import gettext

from weighin.accounts.models import User
from weighin.audit.services import log_history, writing
from weighin.clubs.models import Club, Membership
from weighin.clubs.services.clubs import open_club
from weighin.events.models import Event
from weighin.operations.queries.demo_people import demo_people
from weighin.operations.services.demo_day_records import load_shore
from weighin.standings.services import publish_result
from weighin.workbooks.parsing.reading import read_workbook
from weighin.workbooks.services import existing_event, keep_event

FOLDER = Path(settings.BASE) / "demo"
BY = "demo"


class Command(BaseCommand):
    help = "Load the demo's clubs, people and events; does nothing that is done already. All of it is invented."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument(
            "--log-ins", action="store_true", help=gettext("only print the demo’s user names and passwords")
        )

    def handle(self, *args: Any, **options: Any) -> None:
        people = demo_people()
        if not options["log_ins"]:
            self._refuse_among_others(people)
            brought = [self._bring_in(file) for file in sorted(FOLDER.glob("*.xlsx"))]
            new = [event for event in brought if event is not None]
            load_shore(FOLDER / "shore.json", {event.name: event for event in new}, BY)
            self._publish(new)
            for person in people:
                self._add(person)
            return
        width = max(len(person["username"]) for person in people)
        for person in people:
            role = person["role"].replace("_", " ")
            self.stdout.write(
                f"  {person['username']:<{width}}  {person['password']}  "
                + gettext("%(role)s of %(club)s") % {"role": role, "club": person["club"]}
            )

    def _refuse_among_others(self, people: list[dict[str, str]]) -> None:
        """The demo's passwords are printed in its files: it does not go where real people keep their events."""
        theirs = User.objects.exclude(username__in=[person["username"] for person in people])
        if theirs.exists():
            raise CommandError(
                gettext(
                    "This site has people of its own, and the demo’s passwords are known to everyone: load the demo into another folder (WEIGHIN_DATA)."
                )
            )

    def _bring_in(self, file: Path) -> Event | None:
        """The event of a workbook, brought in now; None when it is here already."""
        plan, report = read_workbook(file)
        if plan is None:
            place, message = report.faults[0]
            raise CommandError(f"{file.name}, {place}: {message}")
        if existing_event(plan) is not None:
            return None
        self.stdout.write(
            gettext("Importing %(event)s (%(club)s) ...") % {"event": plan.event.event, "club": plan.event.club}
        )
        return keep_event(plan, BY)

    def _publish(self, events: list[Event]) -> None:
        """Publish each result but the newest of every club, which waits for its director; a club with a season is opened."""
        newest: dict[int, Event] = {}
        for event in events:
            club = event.season.club_id
            newest[club] = max(newest.get(club, event), event, key=lambda e: (e.date, e.pk))
        several = {club for club in newest if sum(e.season.club_id == club for e in events) > 1}
        for event in events:
            if event != newest[event.season.club_id] or event.season.club_id not in several:
                publish_result(event, BY)
        for club in several:
            open_club(newest[club].season.club, True, BY)

    def _add(self, person: dict[str, str]) -> None:
        if User.objects.filter(username=person["username"]).exists():
            return
        club = Club.objects.filter(name=person["club"]).first()
        if club is None:
            raise CommandError(
                gettext("people.json names the club %(person)s, which no workbook has.") % {"person": person["club"]}
            )
        with writing():
            first, _, last = person["name"].partition(" ")
            user = User.objects.create_user(
                person["username"], password=person["password"], first_name=first, last_name=last
            )
            Membership.objects.create(user=user, club=club, role=person["role"])
            log_history(
                BY,
                "member.added",
                gettext("%(user)s joins %(club)s as %(role)s")
                % {"user": user, "club": club, "role": person["role"].replace("_", " ")},
                club_id=club.pk,
            )
