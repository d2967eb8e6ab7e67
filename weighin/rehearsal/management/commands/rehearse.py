"""Rehearse an event without people, as a soak test; or wipe its rehearsal."""

import json
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils.translation import gettext

from weighin.events.access import find
from weighin.rehearsal.services.copying import make_rehearsal
from weighin.rehearsal.services.running import run_rehearsal
from weighin.rehearsal.services.wiping import wipe_rehearsal
from weighin.rules.faults import Faults

BY = "command line"


class Command(BaseCommand):
    help = (
        "Rehearse an event before its first slip: a marked copy of it is made, and simulated boats come in on the copy's "
        "first day through the addresses that tablets use; some late, with dead fish, one written twice, one tablet "
        "without its link. The report is JSON on the standard output. The copy stays, for members alone, until --wipe."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("slug", help=gettext("the event’s slug, as in its address"))
        parser.add_argument(
            "--speed",
            type=float,
            default=60,
            metavar="N",
            help=gettext("how many minutes of the day pass in one (default 60: a minute a second)"),
        )
        parser.add_argument(
            "--seed", type=int, default=1, metavar="N", help=gettext("the same seed gives the same boats (default 1)")
        )
        parser.add_argument(
            "--boats", type=int, metavar="N", help=gettext("how many boats come in (default: all teams entered)")
        )
        parser.add_argument("--report", type=Path, metavar="FILE", help=gettext("write the report to this file too"))
        parser.add_argument("--wipe", action="store_true", help=gettext("wipe the event’s rehearsal"))

    def handle(self, *args: Any, **options: Any) -> None:
        event = find(options["slug"])
        if event is None:
            raise CommandError(
                gettext("There is no event %(slug)s: the slug is the last part of its address.")
                % {"slug": options["slug"]}
            )
        try:
            if options["wipe"]:
                wipe_rehearsal(event, BY)
                self.stderr.write(gettext("The rehearsal of %(event)s is wiped.") % {"event": event.name})
                return
            rehearsal = make_rehearsal(event, BY, seed=options["seed"], speed=options["speed"], boats=options["boats"])
        except Faults as faults:
            raise CommandError("; ".join(dict.fromkeys(fault.message for fault in faults.faults))) from None
        self.stderr.write(
            gettext("%(copy)s: %(boats)s boats come in, seed %(seed)s. Members see it at /events/%(slug)s/")
            % {
                "copy": rehearsal.event.name,
                "boats": rehearsal.boats,
                "seed": rehearsal.seed,
                "slug": rehearsal.event.slug,
            }
        )
        report = run_rehearsal(rehearsal)
        if report is None:
            raise CommandError(gettext("The rehearsal was wiped while its boats came in: there is no report."))
        written = json.dumps(report, ensure_ascii=False, indent=1)
        if options["report"] is not None:
            try:
                options["report"].write_text(f"{written}\n", encoding="utf-8")
            except OSError as error:
                self.stdout.write(written)
                raise CommandError(
                    gettext("The report cannot be written to %(file)s: %(error)s")
                    % {"file": options["report"], "error": error.strerror or error}
                ) from None
        self.stdout.write(written)
        self.stderr.write(
            gettext("The rehearsal stands until 'manage.py rehearse %(slug)s --wipe'.") % {"slug": event.slug}
        )
        if report["faults"]:
            raise CommandError(gettext("Something was lost or differs: the faults are in the report."))
