"""Write an open club's public pages as plain files for any web host."""

from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils.translation import gettext

from weighin.public.pages.still_files import still_files
from weighin.public.services.writing import write_files
from weighin.reports.management.named import site_named
from weighin.rules.faults import Faults
from weighin.schedule.queries.calendar import open_club_of


class Command(BaseCommand):
    help = (
        "Write every public page of an open club as plain files, with relative links: for any web host, or to read from a "
        "disk. Run again it writes what changed and removes what is gone, of what it wrote itself."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("club", help=gettext("the club’s slug"))
        parser.add_argument("folder", metavar="DIR", type=Path, help=gettext("a new folder, or one written before"))
        parser.add_argument(
            "--address",
            default="",
            metavar="URL",
            help=gettext(
                "where the site itself is, such as https://lake.example: what needs a server is linked there; without it that "
                "is left out"
            ),
        )
        parser.add_argument(
            "--language",
            default=settings.LANGUAGE_CODE,
            choices=dict(settings.LANGUAGES),
            help=gettext("the language of the pages; files and their names are the same in each"),
        )

    def handle(self, *args: Any, **options: Any) -> None:
        club = open_club_of(options["club"])
        if club is None:
            raise CommandError(
                gettext("There is no open club %(club)s: open it first (open_club %(club)s).")
                % {"club": options["club"]}
            )
        site = site_named(options["address"])
        try:
            written = write_files(options["folder"], club.slug, still_files(club, site, options["language"]))
        except Faults as faults:
            raise CommandError("\n".join(fault.message for fault in faults.faults)) from None
        except OSError as error:
            raise CommandError(
                gettext("%(folder)s cannot be written: %(why)s.")
                % {"folder": options["folder"], "why": error.strerror or error}
            ) from None
        if written.left:
            self.stderr.write(
                gettext("Gone from the site, but changed here by somebody else, and left: %(paths)s.")
                % {"paths": ", ".join(written.left)}
            )
        self.stdout.write(
            gettext("%(files)s files in %(folder)s: %(changed)s changed, %(removed)s removed.")
            % {
                "files": written.files,
                "folder": options["folder"],
                "changed": written.changed,
                "removed": written.removed,
            }
        )
