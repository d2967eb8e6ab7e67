"""Publish an event's result, or open its provisional pages."""

from typing import Any
from zoneinfo import ZoneInfo

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils.translation import gettext

from weighin.events.access import find
from weighin.events.models import Event
from weighin.operations.domain.faults import NOT_ANSWERED
from weighin.operations.queries.open_questions import MONEY, PUBLISH, Question, open_questions
from weighin.operations.services.publishing import post, publish
from weighin.rules.faults import Faults
from weighin.standings.pages.state_words import state_said

BY = "command line"


class Command(BaseCommand):
    help = (
        "Publish the next official version of an event's result and open its public pages. What stands open is listed, "
        "by day; the last line is the version's number."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("slug", help=gettext("the event’s slug, as in its address"))
        parser.add_argument(
            "--reason", default="", help=gettext("why there is a new version; needed from version 2 on")
        )
        parser.add_argument(
            "--money-reason", default="", metavar="TEXT", help=gettext("why the money may differ, where it does")
        )
        parser.add_argument("--overrule", default="", metavar="TEXT", help=gettext("why the open questions may stand"))
        parser.add_argument(
            "--provisional",
            action="store_true",
            help=gettext(
                "post the provisional result: pages open, and the time for protests runs; without a slip only the former"
            ),
        )

    def handle(self, *args: Any, **options: Any) -> None:
        event = find(options["slug"])
        if event is None:
            raise CommandError(
                gettext("There is no event %(slug)s: the slug is the last part of its address.")
                % {"slug": options["slug"]}
            )
        if options["provisional"]:
            self._post(event)
            return
        questions = self._questions(event)
        try:
            why = {q.key: options["money_reason" if q.code == MONEY else "overrule"] for q in questions}
            result = publish(event, BY, options["reason"], why)
        except Faults as faults:
            said = "; ".join(dict.fromkeys(fault.message for fault in faults.faults))
            unanswered = {fault.field for fault in faults.faults if fault.said.code == NOT_ANSWERED.code}
            of_money = {question.key for question in questions if question.code == MONEY}
            ways = []
            if unanswered & of_money:
                ways.append(gettext("(--money-reason TEXT says why the money may differ)"))
            if unanswered - of_money:
                ways.append(gettext("(--overrule TEXT says why open questions may stand)"))
            raise CommandError(" ".join([said, *ways])) from None
        self.stdout.write(
            (
                gettext("%(name)s: version %(version)s is official%(stage)s.")
                if result.stage
                else gettext("%(name)s: version %(version)s is official.")
            )
            % {"name": event.name, "version": result.version, "stage": ", " + result.stage}
        )
        self.stdout.write(str(result.version))

    def _questions(self, event: Event) -> list[Question]:
        questions = open_questions(event, PUBLISH)
        for question in questions:
            self.stdout.write(
                gettext("Open: %(words)s %(settle)s.") % {"words": question.words, "settle": question.settle}
            )
        return questions

    def _post(self, event: Event) -> None:
        try:
            state = post(event, BY)
        except Faults as faults:
            raise CommandError("; ".join(fault.message for fault in faults.faults)) from None
        self.stdout.write(gettext("The provisional pages are open to everyone."))
        if state.state != "live":
            self._questions(event)
            self.stdout.write(state_said(state, ZoneInfo(event.time_zone)))
