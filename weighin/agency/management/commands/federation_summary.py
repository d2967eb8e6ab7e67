"""Write the summary of all clubs' dead fish, without their names."""

from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandParser
from django.utils.translation import gettext

from weighin.agency.files.federation import FORMS, federation_file
from weighin.mortality.services.federation import federation
from weighin.reports.management.giving import give


class Command(BaseCommand):
    help = (
        "Write all clubs' dead fish put together, without names, of the calendar years that are over. Figures that would "
        "tell of one club are put together or left out, and a year's figures are fixed at the first run after its end. "
        "For whoever runs the site; no club's page shows it."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("--format", choices=FORMS, default="json")
        parser.add_argument("--out", type=Path, help=gettext("the file to write; without it the standard output"))

    def handle(self, *args: Any, **options: Any) -> None:
        found = federation()
        content = federation_file(found, options["format"])
        if give(content, options["format"], options["out"], self.stdout, self.stdout):
            self.stdout.write(found.says)
