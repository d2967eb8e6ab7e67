"""Write a protest down, or what was ruled on one; list them."""

from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils.translation import gettext

from weighin.events.access import find
from weighin.events.models import Event
from weighin.rules.faults import Faults
from weighin.standings.models import Protest, Ruling
from weighin.standings.queries.protests import Case, cases_of
from weighin.standings.services.protests import hand_in, rule_on

BY = "command line"
OF_A_PROTEST = ("who", "matter", "could", "boat", "slip", "handed_in")
OF_A_RULING = ("outcome", "words", "ruled_by", "ruled_at")


class Command(BaseCommand):
    help = "Write a protest down, or with --rule what was ruled on one. The last line is the protest's number."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("slug", help=gettext("the event’s slug, as in its address"))
        parser.add_argument("--list", action="store_true", help=gettext("list every protest and its ruling"))
        parser.add_argument("--who", metavar="TEXT", help=gettext("which team or person protests; never public"))
        parser.add_argument("--matter", metavar="TEXT", help=gettext("what it says; never public"))
        parser.add_argument("--could", help=", ".join(Protest.Could.values))
        parser.add_argument("--boat", metavar="BOAT", help=gettext("the boat it is about; left out: the whole result"))
        parser.add_argument("--slip", metavar="NUMBER", help=gettext("the slip it is about"))
        parser.add_argument("--handed-in", metavar="TIME", help=gettext("when it was filed; left out: now"))
        parser.add_argument("--rule", type=int, metavar="NUMBER", help=gettext("the protest that was ruled on"))
        parser.add_argument("--outcome", help=", ".join(Ruling.Outcome.values))
        parser.add_argument("--words", metavar="TEXT", help=gettext("what was ruled, and why; never public"))
        parser.add_argument("--ruled-by", metavar="TEXT", help=gettext("who ruled"))
        parser.add_argument("--ruled-at", metavar="TIME", help=gettext("when; left out: now"))

    def handle(self, *args: Any, **options: Any) -> None:
        event = find(options["slug"])
        if event is None:
            raise CommandError(
                gettext("There is no event %(slug)s: the slug is the last part of its address.")
                % {"slug": options["slug"]}
            )
        if options["list"]:
            for case in cases_of(event):
                self.stdout.write(_said(case))
            return
        try:
            self.stdout.write(str(self._written(event, options).case))
        except Faults as faults:
            names = {name: f"--{name.replace('_', '-')}" for name in (*OF_A_PROTEST, *OF_A_RULING)}
            said = [f"{names[f.field]}: {f.message}" if f.field in names else f.message for f in faults.faults]
            raise CommandError("; ".join(said)) from None

    def _written(self, event: Event, options: dict[str, Any]) -> Protest | Ruling:
        if options["rule"] is None:
            return hand_in(event, {name: options[name] or "" for name in OF_A_PROTEST}, BY)
        said = {name: options[name] or "" for name in OF_A_RULING}
        return rule_on(event, options["rule"], said, BY)


def _said(case: Case) -> str:
    about = (
        gettext("about boat %(boat)s") % {"boat": case.protest.entry.boat}
        if case.protest.entry
        else gettext("about the whole result")
    )
    came = case.ruling.get_outcome_display() if case.ruling else gettext("open")
    return gettext("Protest %(number)s, %(about)s: %(came)s") % {
        "number": case.number,
        "about": about,
        "came": str(came).lower(),
    }
