"""Write a season's book for the club's winter meeting."""

from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils.translation import gettext

from weighin.book.files.book import TYPES, book_file, book_folder
from weighin.book.queries.book import season_book
from weighin.reports.management.giving import give, give_folder
from weighin.reports.management.named import season_named


class Command(BaseCommand):
    help = (
        "Write the season book: standings, big fish, mortality and what changed since the season before, care practices "
        "and the catch report. It has the anglers' names: it is for members."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("club", help=gettext("the club’s slug or name"))
        parser.add_argument("season", help=gettext("the season’s slug or name"))
        parser.add_argument(
            "--out",
            type=Path,
            required=True,
            metavar="FILE_OR_FOLDER",
            help=gettext("NAME.pdf for the book; NAME.zip, or a folder, for the book and the files of its chapters"),
        )

    def handle(self, *args: Any, **options: Any) -> None:
        season, out = season_named(options["club"], options["season"]), options["out"]
        form = out.suffix.lower().removeprefix(".")
        if not out.is_dir() and form not in ("", *TYPES):
            raise CommandError(
                gettext(
                    "%(out)s is neither a PDF, a ZIP nor a folder: name a file that ends in .pdf or .zip, or a folder."
                )
                % {"out": out}
            )
        book = season_book(season)
        if form in TYPES and not out.is_dir():
            give(book_file(book, form), form, out, self.stdout, self.stderr)
            return
        give_folder(book_folder(book), out, self.stderr)
