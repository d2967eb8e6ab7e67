"""What a club has decided about names, and which names that makes old."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from django.db.models import Count, Max
from django.utils import timezone

from weighin.clubs.models import Club, Season
from weighin.events.models import Event
from weighin.privacy.models import ClubPrivacy
from weighin.roster.models import Angler, Entry
from weighin.signup.queries.sign_ups import holding_names


def privacy_of(club: Club) -> ClubPrivacy:
    """What the club has decided; where it has not, a row that says so and is not kept."""
    return ClubPrivacy.objects.filter(club=club).first() or ClubPrivacy(club=club)


@dataclass(frozen=True)
class NamedSeason:
    """A season with events: its last day, and how many anglers' names, teams' notes and sign-ups are kept of it."""

    season: Season
    last: date
    names: int
    notes: int
    sign_ups: int = 0

    @property
    def kept(self) -> int:
        return self.names + self.notes + self.sign_ups


def named_seasons(club: Club) -> list[NamedSeason]:
    """The club's seasons that have events, the latest first, each with what is kept of persons."""
    lasts = dict(
        Event.objects.filter(season__club=club).order_by().values_list("season").annotate(Max("event_days__date"))
    )
    names = dict(
        Angler.objects.filter(entry__event__season__club=club, erased_on=None)
        .order_by()
        .values_list("entry__event__season")
        .annotate(Count("pk"))
    )
    notes = dict(
        Entry.everyone.filter(event__season__club=club)
        .exclude(note="")
        .order_by()
        .values_list("event__season")
        .annotate(Count("pk"))
    )
    signed = Counter(
        holding_names(Event.objects.filter(season__club=club)).order_by().values_list("event__season", flat=True)
    )
    found = [
        NamedSeason(season, lasts[season.pk], names.get(season.pk, 0), notes.get(season.pk, 0), signed[season.pk])
        for season in club.seasons.all()
        if lasts.get(season.pk) is not None
    ]
    return sorted(found, key=lambda one: (one.last, one.season.pk), reverse=True)


def old_seasons(seasons: Iterable[NamedSeason], keep: int | None) -> list[NamedSeason]:
    """The seasons whose names are kept no longer, where the latest ``keep`` are; none where no limit is set.

    A season that is not over is never old, however many come after it.
    """
    if keep is None:
        return []
    today = timezone.now().date()
    return [one for one in list(seasons)[keep:] if one.last < today and one.kept]
