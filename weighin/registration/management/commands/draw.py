"""Draw boat numbers, the launch order, flights or lots; void a draw; list them."""

import json
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils.translation import gettext

from weighin.events.access import find
from weighin.events.models import Event
from weighin.registration.domain.drawing import PURPOSES
from weighin.registration.models import Draw
from weighin.registration.pages.draw_words import lines_of
from weighin.registration.queries.draws import as_json, draws_of
from weighin.registration.services.draws import draw, draw_anew, void_draw
from weighin.rules.faults import Faults

BY = "command line"


class Command(BaseCommand):
    help = (
        "Draw boat numbers, the launch order, flights or lots by a seed, in an order that anyone can work out again; "
        "void a draw with a reason (with --seed too, draw anew); list the draws."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("slug", help=gettext("the event’s slug, as in its address"))
        parser.add_argument("purpose", nargs="?", choices=PURPOSES, help=gettext("what is drawn"))
        parser.add_argument("--seed", metavar="TEXT", help=gettext("the seed that everybody heard"))
        parser.add_argument(
            "--first-paid",
            action="store_true",
            help=gettext("no draw: give boat numbers or launch places in the order of payment"),
        )
        parser.add_argument("--void", metavar="REASON", help=gettext("void the draw that stands, and why"))
        parser.add_argument("--list", action="store_true", help=gettext("every draw of the event, voided ones too"))
        parser.add_argument("--json", action="store_true", help=gettext("as JSON on the standard output"))

    def handle(self, *args: Any, **options: Any) -> None:
        event = find(options["slug"])
        if event is None:
            raise CommandError(
                gettext("There is no event %(slug)s: the slug is the last part of its address.")
                % {"slug": options["slug"]}
            )
        if options["list"]:
            rows = [one for one in draws_of(event) if options["purpose"] in (None, one.purpose)]
            self._say([as_json(one) for one in rows], rows, options["json"])
            return
        if options["purpose"] is None:
            raise CommandError(
                gettext("Say what is drawn: boats, launch, flights or lots; or --list for the draws there are.")
            )
        if options["void"] is None and options["seed"] is None and not options["first_paid"]:
            raise CommandError(
                gettext("Say --seed TEXT to draw, --first-paid for the order of payment, or --void REASON.")
            )
        try:
            done = _done(event, options)
        except Faults as faults:
            raise CommandError("; ".join(dict.fromkeys(fault.message for fault in faults.faults))) from None
        kept = draws_of(event).get(pk=done.pk)
        self._say(as_json(kept), [kept], options["json"])

    def _say(self, document: Any, rows: list[Draw], as_document: bool) -> None:
        if as_document:
            self.stdout.write(json.dumps(document, ensure_ascii=False, indent=1))
            return
        for row in rows:
            for line in lines_of(row):
                self.stderr.write(line)
        if not rows:
            self.stderr.write(gettext("Nothing is drawn yet."))


def _done(event: Event, options: dict[str, Any]) -> Draw:
    purpose, seed, void = options["purpose"], options["seed"], options["void"]
    way = Draw.Way.PAYMENT if options["first_paid"] else Draw.Way.SEED
    if void is None:
        return draw(event, purpose, BY, seed or "", way)
    if seed is None and not options["first_paid"]:
        return void_draw(event, purpose, BY, void)
    return draw_anew(event, purpose, BY, void, seed or "", way)
