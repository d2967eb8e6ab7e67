"""Teams and anglers of a club's earlier events, found as they are typed at the desk."""

from dataclasses import dataclass

from django.db.models import Case, Q, QuerySet, Value, When

from weighin.events.models import Event
from weighin.roster.domain.contacts import ContactValues
from weighin.roster.models import Angler, Entry, Team
from weighin.roster.queries import contacts_of_entries
from weighin.rules.look_alikes import folded_name

MOST = 8  # a list that is read at one look
MOST_NAMES = 300


@dataclass(frozen=True)
class EarlierTeam:
    """A team as it was entered last: its anglers whose names are still kept, and in which event."""

    name: str
    anglers: tuple[str, ...]
    contact: ContactValues
    event: Event


def earlier_teams(event: Event, words: str) -> list[EarlierTeam]:
    """Teams of the club's other events whose name, or an angler's, holds the words; not those entered here.

    Those that begin with the words come first, then by name; at most ``MOST``. Four queries, however many there are.
    """
    look = folded_name(words)
    if not look:
        return []
    hit = Q(folded_name__contains=look) | _named(words, "entries__anglers__")
    first = Case(When(folded_name__startswith=look, then=Value(0)), default=Value(1))
    teams = _elsewhere(event).filter(hit).annotate(first=first)
    found = teams.values_list("folded_name", "first").distinct().order_by("first", "folded_name")[:MOST]
    return _as_entered(event, [folded for folded, _first in found])


def names_before(event: Event) -> list[str]:
    """Names of the club's teams that are not entered here, for browsers without script; at most ``MOST_NAMES``."""
    names = _elsewhere(event).order_by("-season", "name").values_list("name", flat=True)[:MOST_NAMES]
    return sorted(set(names))


def earlier_team(event: Event, name: str) -> EarlierTeam | None:
    """The team of that name of the club's other events; None where there is none, or where it is entered here."""
    folded = folded_name(name)
    known = folded and _elsewhere(event).filter(folded_name=folded).exists()
    return next(iter(_as_entered(event, [folded])), None) if known else None


def earlier_anglers(event: Event, words: str) -> list[str]:
    """Names of the club's anglers that hold the words, by name; at most ``MOST``."""
    written = " ".join(words.split())
    if not written:
        return []
    names = Angler.objects.filter(
        _named(written), entry__event__season__club=event.club, entry__event__rehearsal_of=None, erased_on=None
    )
    return list(names.values_list("name", flat=True).distinct().order_by("name")[:MOST])


def _named(words: str, way: str = "") -> Q:
    written = " ".join(words.split())
    # SQLite knows the two cases of plain letters alone
    hit = Q(**{f"{way}name__icontains": written}) | Q(**{f"{way}name__icontains": written.title()})
    return hit & Q(**{f"{way}erased_on": None}) if way else hit


def _elsewhere(event: Event) -> QuerySet[Team]:
    here = Entry.everyone.filter(event=event).values("team__folded_name")
    return Team.objects.filter(season__club=event.club).exclude(folded_name__in=here)


def _as_entered(event: Event, folded: list[str]) -> list[EarlierTeam]:
    """The last entry of each of these teams, in their order."""
    entries = Entry.everyone.filter(
        event__season__club=event.club, event__rehearsal_of=None, team__folded_name__in=folded
    ).exclude(event=event)
    last: dict[str, int] = {}
    for name, key in entries.order_by("event__date", "pk").values_list("team__folded_name", "pk"):
        last[name] = key
    rows = Entry.everyone.filter(pk__in=last.values()).select_related("event__season").prefetch_related("anglers")
    by_key = {row.pk: row for row in rows}
    reached, found = contacts_of_entries(by_key), []
    for name in folded:
        entry = by_key.get(last.get(name, 0))
        if entry is None:
            continue
        anglers = tuple(angler.name for angler in entry.anglers.all() if angler.erased_on is None)
        found.append(EarlierTeam(entry.name, anglers, reached.get(entry.pk, ContactValues()), entry.event))
    return found
