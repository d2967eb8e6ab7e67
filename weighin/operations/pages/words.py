"""What teams are told of an event, in words: as a text to copy, and as a letter that says of teams the reader's own alone."""

from dataclasses import replace
from zoneinfo import ZoneInfo

from django.urls import reverse
from django.utils import translation
from django.utils.translation import gettext, ngettext

from weighin.checkin.models import DueNotice
from weighin.checkin.queries.roll import BoatOnRoll
from weighin.checkin.services.notices import moved_said
from weighin.events.domain.clock import clock
from weighin.events.models import Event
from weighin.events.queries.events import calendar_of
from weighin.operations.domain.word import Word
from weighin.operations.queries.occasions import Occasion, occasions
from weighin.roster.models import Entry
from weighin.schedule.pages.notices import Reached, reached
from weighin.standings.models import OfficialResult, Posting
from weighin.standings.pages.changes import changes_of_boats, changes_said, frozen, standings_of_boats
from weighin.standings.pages.state_words import state_said
from weighin.standings.queries.protests import result_state

FISH = (Entry.Status.ENTERED, Entry.Status.DISQUALIFIED)


def words_of(event: Event, site: str) -> list[Word]:
    """Everything that there is to say now, the most urgent first. ``site`` begins the links (``https://lake.example``)."""
    teams = tuple(reached(event))
    return [_word(event, occasion, teams, site) for occasion in occasions(event)]


def _word(event: Event, said: Occasion, teams: tuple[Reached, ...], site: str) -> Word:
    with translation.override(event.club.language):
        word = _written(event, said, teams, site)
    return replace(word, title=_title(said))


def _written(event: Event, said: Occasion, teams: tuple[Reached, ...], site: str) -> Word:
    """The word, all of it in the club's language."""
    of, title = said.of, _title(said)
    if isinstance(of, OfficialResult):
        return _official(event, of, said, title, teams, site)
    if isinstance(of, Posting):
        return _posted(event, said, title, teams, site)
    if isinstance(of, DueNotice):
        return _moved(event, of, said, title, teams)
    return _out(event, of, said, title, teams)


def _title(said: Occasion) -> str:
    """What is said, in the language that goes now: on the page the reader's, in the letter the club's."""
    of = said.of
    if isinstance(of, OfficialResult):
        names = {"version": of.version, "stage": of.stage}
        if of.stage:
            return gettext("Official results, version %(version)s, %(stage)s") % names
        return gettext("Official results, version %(version)s") % names
    if isinstance(of, Posting):
        return gettext("Provisional results posted")
    if isinstance(of, DueNotice):
        return gettext("Due times of day %(day)s moved") % {"day": of.day}
    names = {"n": len(of), "day": of[0].day}
    return ngettext("%(n)s boat still out, day %(day)s", "%(n)s boats still out, day %(day)s", len(of)) % names


def _official(
    event: Event, of: OfficialResult, said: Occasion, title: str, teams: tuple[Reached, ...], site: str
) -> Word:
    unit, sign = event.weight_unit, event.club.currency
    subject = gettext("%(event)s: %(what)s") % {"event": event.name, "what": title}
    head, more = [f"{subject}."], []
    before = OfficialResult.objects.filter(event=event, version=of.version - 1).first()
    own = standings_of_boats(of.document, unit)
    if before is not None:
        head.append(gettext("Reason for the new version: %(reason)s") % {"reason": of.reason})
        documents = frozen(before), frozen(of)
        lines, changed = changes_said(*documents, unit, sign), changes_of_boats(*documents, unit, sign)
        more = [gettext("What changed:"), *lines] if lines else [gettext("No place, total, prize or points changed.")]
        same = gettext("%(standing)s Nothing of it changed.")
        own = {boat: changed.get(boat) or same % {"standing": sentence} for boat, sentence in own.items()}
        count = len(changed)
        head.append(ngettext("It changes %(n)s boat.", "It changes %(n)s boats.", count) % {"n": count})
    link = _link(gettext("All of it, and how each was scored:"), site, "public:result", event.slug, of.version)
    text = "\n".join([*head[:2], *more, link, event.club.name])
    boats = {team.who: own.get(team.boat or 0, "") for team in teams}
    foot = f"{link}\n\n{_foot(event)}"
    return Word(said.about, title, subject, text, "\n".join(head), foot, said.can, _with_boats(teams), boats)


def _posted(event: Event, said: Occasion, title: str, teams: tuple[Reached, ...], site: str) -> Word:
    subject = gettext("%(event)s: provisional results") % {"event": event.name}
    first = state_said(result_state(event), ZoneInfo(event.time_zone))
    head = gettext("%(event)s: %(what)s") % {"event": event.name, "what": first}
    link = _link(gettext("Places and weights:"), site, "public:event", event.slug)
    text = "\n".join([head, link, event.club.name])
    return Word(said.about, title, subject, text, head, f"{link}\n\n{_foot(event)}", said.can, _with_boats(teams))


def _moved(event: Event, of: DueNotice, said: Occasion, title: str, teams: tuple[Reached, ...]) -> Word:
    names = {"event": event.name, "day": of.day, "moved": moved_said(of), "reason": of.reason}
    subject = gettext("%(event)s: due times moved") % names
    head = [
        gettext("%(event)s, day %(day)s: %(moved)s.") % names,
        *([gettext("The day is shortened.")] if of.shortened else []),
        gettext("Reason: %(reason)s") % names,
        gettext("A later signal by horn or radio counts before this one. Nobody hurries for a weigh-in."),
    ]
    text = "\n".join([*head, event.club.name])
    fishing = tuple(team for team in _with_boats(teams) if team.entry and team.entry.status in FISH)
    return Word(said.about, title, subject, text, "\n".join(head), _foot(event), said.can, fishing)


def _out(event: Event, boats: tuple[BoatOnRoll, ...], said: Occasion, title: str, teams: tuple[Reached, ...]) -> Word:
    calendar, day = calendar_of(event), boats[0].day
    out = {str(boat.entry.number): boat for boat in boats}
    subject = gettext("%(event)s: your boat is still out") % {"event": event.name}
    head = [
        gettext("%(event)s, day %(day)s: your boat is past its due time, and nobody has noted it in.")
        % {"event": event.name, "day": day},
        gettext("If you are ashore or on your way, tell the check-in at once, by phone or radio."),
        gettext("Somebody in danger: life jackets on, and the emergency number first. Nobody hurries for a weigh-in."),
    ]
    own = {}
    for who, boat in out.items():
        due = clock(calendar.due(day, boat.entry.flight_name), calendar, day)
        own[who] = gettext("Boat %(boat)s, %(team)s: due %(due)s.") % {
            "boat": boat.entry.boat, "team": boat.entry.name, "due": due
        }  # fmt: skip
    text = "\n".join([*head, event.club.name])
    theirs = tuple(team for team in teams if team.who in out)
    return Word(said.about, title, subject, text, "\n".join(head), _foot(event), said.can, theirs, own)


def _with_boats(teams: tuple[Reached, ...]) -> tuple[Reached, ...]:
    return tuple(team for team in teams if team.boat is not None)


def _link(words: str, site: str, page: str, *args: str | int) -> str:
    return f"{words} {site}{reverse(page, args=args)}"


def _foot(event: Event) -> str:
    return gettext("%(club)s. You read this since the club has this address as that of a team in %(event)s.") % {
        "club": event.club.name,
        "event": event.name,
    }
