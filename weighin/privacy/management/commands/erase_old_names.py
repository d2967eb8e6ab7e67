"""Show or erase the anglers' names that clubs keep no longer."""

from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils.translation import gettext, ngettext

from weighin.clubs.models import Club
from weighin.privacy.queries.decided import named_seasons, old_seasons, privacy_of
from weighin.privacy.services.erasing import erase_old_names


class Command(BaseCommand):
    help = "List the anglers' names that clubs keep no longer; with --erase, erase them."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("club", nargs="?", help=gettext("one club’s slug; without it every club"))
        parser.add_argument("--erase", action="store_true", help=gettext("erase what is listed, in one act a club"))

    def handle(self, *args: Any, **options: Any) -> None:
        clubs = Club.objects.order_by("slug")
        if options["club"]:
            clubs = clubs.filter(slug=options["club"])
            if not clubs:
                raise CommandError(
                    gettext("There is no club %(slug)s: look at the address of the club’s page for its slug.")
                    % {"slug": options["club"]}
                )
        for club in clubs:
            keep = privacy_of(club).keep_seasons
            if keep is None:
                self.stdout.write(gettext("%(slug)s: no limit is set, names are kept") % {"slug": club.slug})
                continue
            old = old_seasons(named_seasons(club), keep)
            for one in old:
                self.stdout.write(
                    ngettext(
                        "%(slug)s: season %(season)s, %(n)s angler’s name",
                        "%(slug)s: season %(season)s, %(n)s anglers' names",
                        one.names,
                    )
                    % {"slug": club.slug, "season": one.season.name, "n": one.names}
                )
            if not old:
                self.stdout.write(gettext("%(slug)s: no name is older than is kept") % {"slug": club.slug})
            elif options["erase"]:
                erase_old_names(club, gettext("command line"))
                self.stdout.write(
                    gettext("%(slug)s: erased. Backups keep the names until they are gone.") % {"slug": club.slug}
                )
