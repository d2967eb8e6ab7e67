"""Bring an event in from its workbook."""

import sys
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser

from weighin.audit.services import writing
from weighin.operations.workbook.book import BookRefused
from weighin.operations.workbook.keeping import existing_event, keep_event, may_replace
from weighin.operations.workbook.plan import Plan
from weighin.operations.workbook.reading import read_workbook
from weighin.rules.faults import Faults
from weighin.standings.services import publish_result

BY = "command line"


class Command(BaseCommand):
    help = "Bring a whole event in from an .xlsx workbook, all or nothing; the event's slug is printed alone on the last line."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("file", type=Path, help="the workbook")
        parser.add_argument("--check", action="store_true", help="read everything, write nothing, list every fault")
        parser.add_argument("--replace", action="store_true", help="bring an event in again before its first slip")
        parser.add_argument(
            "--publish", action="store_true", help="publish the official result and open the public pages"
        )

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            plan, report = read_workbook(options["file"])
        except BookRefused as refused:
            raise CommandError(str(refused)) from None
        for warning in report.warnings:
            self.stdout.write(f"Warning: {warning}")
        if plan is None:
            for place, message in report.faults:
                self.stdout.write(f"{place}: {message}")
            count = len(report.faults)
            self.stdout.write(
                f"{count} {'fault' if count == 1 else 'faults'} in {options['file'].name}; nothing was written."
            )
            sys.exit(1)
        if options["check"]:
            self._summary(plan)
            old = existing_event(plan)
            if old is not None and not may_replace(old):
                self.stdout.write(
                    f"{old.name} is kept here already and has slips, or other things from its day: this workbook cannot replace it."
                )
            return
        try:
            with writing():
                event = keep_event(plan, BY, replace=options["replace"])
                if options["publish"]:
                    publish_result(event, BY)
        except Faults as faults:
            raise CommandError("; ".join(fault.message for fault in faults.faults)) from None
        self._summary(plan)
        self.stdout.write(event.slug)

    def _summary(self, plan: Plan) -> None:
        days = f"{len(plan.days)} {'day' if len(plan.days) == 1 else 'days'}"
        self.stdout.write(
            f"{plan.event.event}, {plan.event.club}, {plan.event.season}: {days}, {len(plan.entries)} teams, {len(plan.slips)} slips, "
            f"{len(plan.notes)} care notes, {len(plan.tanks)} tank readings, {len(plan.pens)} holding pens. No faults."
        )
