"""Bring an event in from its workbook."""

import sys
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils.translation import gettext, ngettext

from weighin.audit.services import writing
from weighin.events.models import Event
from weighin.operations.queries.open_questions import PUBLISH, open_questions
from weighin.operations.services.publishing import post, publish
from weighin.rules.faults import Faults
from weighin.workbooks.domain.plan import Plan
from weighin.workbooks.parsing.book import BookRefused
from weighin.workbooks.parsing.reading import read_workbook
from weighin.workbooks.services import existing_event, keep_event, stays

BY = "command line"
IN_A_WORKBOOK = "published as it came in from a workbook"


class Command(BaseCommand):
    help = "Bring a whole event in from an .xlsx workbook, all or nothing; the event's slug is printed alone on the last line."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("file", type=Path, help=gettext("the workbook"))
        parser.add_argument(
            "--check", action="store_true", help=gettext("read everything, write nothing, list every fault")
        )
        parser.add_argument(
            "--replace", action="store_true", help=gettext("bring an event in again before its first slip")
        )
        parser.add_argument(
            "--publish",
            action="store_true",
            help=(
                gettext(
                    "publish the official result and open the public pages; what stands open is listed and kept with the version; an "
                    "event without a slip only has its pages opened"
                )
            ),
        )

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            plan, report = read_workbook(options["file"])
        except BookRefused as refused:
            raise CommandError(str(refused)) from None
        for warning in report.warnings:
            self.stdout.write(gettext("Warning: %(warning)s") % {"warning": warning})
        if plan is None:
            for place, message in report.faults:
                self.stdout.write(f"{place}: {message}")
            count = len(report.faults)
            self.stdout.write(
                ngettext(
                    "%(count)s fault in %(name)s; nothing was written.",
                    "%(count)s faults in %(name)s; nothing was written.",
                    count,
                )
                % {"count": count, "name": options["file"].name}
            )
            sys.exit(1)
        if options["check"]:
            self._summary(plan)
            old = existing_event(plan)
            why = stays(old) if old is not None else None
            if why is not None:
                self.stdout.write(gettext("This workbook cannot replace it: %(why)s.") % {"why": why.shown()})
            return
        try:
            with writing():
                event = keep_event(plan, BY, replace=options["replace"])
                if options["publish"]:
                    self._publish(event)
        except Faults as faults:
            raise CommandError("; ".join(fault.message for fault in faults.faults)) from None
        self._summary(plan)
        self.stdout.write(event.slug)

    def _publish(self, event: Event) -> None:
        """The workbook is what there is: its open questions are said and kept with the version, not asked."""
        questions = open_questions(event, PUBLISH)
        for question in questions:
            self.stdout.write(gettext("Open: %(words)s") % {"words": question.words})
        if event.slips.exists() and any(question.must_settle for question in questions):
            post(event, BY)
            self.stdout.write(
                gettext("The pages are open with a provisional result: settle what stands open, then publish_result.")
            )
        elif event.slips.exists():
            publish(event, BY, "", {question.key: IN_A_WORKBOOK for question in questions})
        else:
            post(event, BY)
            self.stdout.write(
                gettext("No slip is kept, so there is no official result; the provisional pages are open to everyone.")
            )

    def _summary(self, plan: Plan) -> None:
        days = f"{len(plan.days)} {'day' if len(plan.days) == 1 else 'days'}"
        self.stdout.write(
            gettext(
                "%(event)s, %(club)s, %(season)s: %(days)s, %(entries)s teams, %(slips)s slips, %(notes)s care notes, %(tanks)s "
                "tank readings, %(pens)s holding pens. No faults."
            )
            % {
                "event": plan.event.event,
                "club": plan.event.club,
                "season": plan.event.season,
                "days": days,
                "entries": len(plan.entries),
                "slips": len(plan.slips),
                "notes": len(plan.notes),
                "tanks": len(plan.tanks),
                "pens": len(plan.pens),
            }
        )
