"""Say or change the rules by which a season's points are added up."""

import json
from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils.translation import gettext

from weighin.advice.services.season_rules import change_season_rules, clear_season_rules
from weighin.clubs.models import Season
from weighin.rules.faults import Faults
from weighin.rules.sheet.keys import SEASON_KEYS
from weighin.standings.queries.season_rules import season_rules

BY = "command line"


class Command(BaseCommand):
    help = "Say a season's points rules as JSON; with KEY=VALUE set them first."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("club", help=gettext("the club’s slug, as in its address"))
        parser.add_argument("season", help=gettext("the season’s slug, as in its address"))
        parser.add_argument("rules", nargs="*", metavar="KEY=VALUE", help=", ".join(SEASON_KEYS))
        parser.add_argument("--clear", action="store_true", help=gettext("go by the latest event’s rules again"))
        parser.add_argument(
            "--reason", default="", metavar="TEXT", help=gettext("needed once an event of the season has fish weighed")
        )

    def handle(self, *args: Any, **options: Any) -> None:
        season = Season.objects.filter(slug=options["season"], club__slug=options["club"]).first()
        if season is None:
            raise CommandError(gettext("There is no such season: both slugs are parts of its address."))
        pairs = [rule.partition("=") for rule in options["rules"]]
        try:
            if options["clear"]:
                clear_season_rules(season, BY, options["reason"])
            elif pairs:
                change_season_rules(season, {key: value for key, _, value in pairs}, BY, options["reason"])
        except Faults as faults:
            raise CommandError("; ".join(f"{fault.field}: {fault.message}" for fault in faults.faults)) from None
        rules = season_rules(season)
        written = {} if rules is None else rules.written()
        self.stdout.write(json.dumps({"own": bool(season.rules), "rules": {k: written.get(k) for k in SEASON_KEYS}}))
