"""Change an event's rules: freely before its first slip, with a reason and a look at whom it moves after it."""

import json
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils.translation import gettext

from weighin.advice.queries.replay import Result
from weighin.advice.queries.rule_change import Preview
from weighin.advice.services.rule_change import change_rules_after_slips, look_at_change
from weighin.events.access import find
from weighin.events.models import Event
from weighin.events.queries.events import first_slip
from weighin.events.services.rule_sheet import change_rules
from weighin.rules.faults import Faults
from weighin.rules.values import plain

BY = "command line"


class Command(BaseCommand):
    help = "Change an event's rules; after its first slip JSON says whom that moves, and --check only looks."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("slug", help=gettext("the event’s slug, as in its address"))
        parser.add_argument("rules", nargs="+", metavar="KEY=VALUE", help=gettext("as an event workbook writes them"))
        parser.add_argument("--reason", default="", metavar="TEXT", help=gettext("needed after the first slip"))
        parser.add_argument(
            "--whole-event", action="store_true", help=gettext("score all slips again, instead of from the next day on")
        )
        parser.add_argument("--check", action="store_true", help=gettext("change nothing"))

    def handle(self, *args: Any, **options: Any) -> None:
        event = find(options["slug"])
        if event is None:
            raise CommandError(
                gettext("There is no event %(slug)s: the slug is the last part of its address.")
                % {"slug": options["slug"]}
            )
        said = {key: value for key, _, value in (rule.partition("=") for rule in options["rules"])}
        try:
            self._change(event, said, options)
        except Faults as faults:
            raise CommandError(str(faults)) from None

    def _change(self, event: Event, said: dict[str, str], options: dict[str, Any]) -> None:
        if first_slip(event) is None and not options["check"]:
            change_rules(event, {**said, "fee_reason": options["reason"]}, BY)
            return
        if options["check"]:
            found = look_at_change(event, said)[1]
        else:
            found = change_rules_after_slips(event, said, BY, options["reason"], options["whole_event"])
        self.stdout.write(json.dumps(_shown(found)))


def _shown(found: Preview) -> dict[str, Any]:
    return {
        "changed": found.changed,
        "refused": found.replay.refused or None,
        "from_day": None if found.not_by_day or found.through is None else found.through + 1,
        "whole_event_because": found.not_by_day.message if found.not_by_day else None,
        "moved": [
            {"boat": row.boat, "team": row.team, "before": _result(row.before), "after": _result(row.after)}
            for row in found.replay.moved
        ],
    }


def _result(result: Result) -> dict[str, Any]:
    return {
        "place": result.place,
        "total": f"{result.total:f}",
        "prize": f"{result.prize:.2f}",
        "points": plain(result.points),
    }
