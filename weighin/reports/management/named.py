"""Find what somebody names on the command line."""

from typing import Any
from urllib.parse import urlsplit

from django.core.management.base import CommandError
from django.db.models import Q, QuerySet
from django.utils.translation import gettext

from weighin.clubs.models import Club, Season


def season_named(club: str, season: str) -> Season:
    """The season of a club, each by its slug or name. Raises CommandError with those there are."""
    of = named(Club.objects.all(), "club", club)
    found: Season = named(Season.objects.filter(club=of), gettext("season of %(of)s") % {"of": of}, season)
    found.club = of
    return found


def named(among: QuerySet[Any], what: str, words: str) -> Any:
    """The one of this slug, else of this name in any case. Raises CommandError with those there are."""
    found = among.filter(slug=words).first() or among.filter(name=words).first()
    found = found or among.filter(Q(name__iexact=words) | Q(slug__iexact=words)).first()
    if found is None:
        there = ", ".join(f"{row.slug} ({row.name})" for row in among[:20]) or gettext("none yet")
        raise CommandError(
            gettext("There is no %(what)s called %(words)s. Known are: %(there)s.")
            % {"what": what, "words": words, "there": there}
        )
    return found


def site_named(address: str) -> str:
    """A site's whole address as ``https://lake.example``; nothing stays nothing. Raises CommandError for any other."""
    parts = urlsplit(address)
    if address and (parts.scheme not in ("http", "https") or not parts.netloc or parts.query):
        raise CommandError(gettext("--address is a whole address, such as https://lake.example."))
    return address.rstrip("/")
