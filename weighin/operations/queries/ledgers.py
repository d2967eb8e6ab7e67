"""Whether what is kept of an event is what its acts left: its slips, its history, and all that the history binds."""

from dataclasses import dataclass

from django.utils.translation import gettext

from weighin.audit.domain.lines import Sealed, named, walked
from weighin.audit.domain.reading_out import is_read
from weighin.audit.models import HistoryEntry
from weighin.audit.queries import chained_lines
from weighin.events.models import Event
from weighin.events.queries.seals import DAYS, EVENT, FLIGHTS, RULES, event_seals
from weighin.registration.queries.draws import DRAW, draw_seals
from weighin.roster.queries import BOAT, roster_seals
from weighin.slips.models import WeighSlip
from weighin.slips.queries.ledger import breaks, unlike_history
from weighin.standings.models import OfficialResult
from weighin.standings.queries.seals import RESULT, result_seals

BOUND = (EVENT, RULES, DAYS, FLIGHTS, BOAT, DRAW, RESULT)


@dataclass(frozen=True)
class Ledger:
    """The links of an event's slips, and of its history, by position (1, 2, ...), and what does not fit, in words."""

    links: dict[int, str]
    history: dict[int, str]
    faults: tuple[str, ...]

    @property
    def head(self) -> str:
        """The last link of the slips; empty without a slip."""
        return self.links[max(self.links)] if self.links else ""


def ledger_of(event: Event) -> Ledger:
    """Walk the chains of the event's slips and history, and hold everything that they bind against them."""
    slips = list(WeighSlip.objects.filter(event=event).select_related("entry").order_by("position"))
    links = {slip.position: slip.link for slip in slips}
    faults = breaks(slips)
    for version, length, head in (
        OfficialResult.objects.filter(event=event)
        .order_by("version")
        .values_list("version", "ledger_length", "ledger_head")
    ):
        if length and links.get(length) != head:
            faults.append(
                gettext("official result %(version)s was made from other slips than the ledger now holds")
                % {"version": version}
            )
    lines = chained_lines(event.season.club_id, event.pk)
    broken, bound = walked(lines)
    faults += broken
    if lines:
        faults += unlike_history(slips, lines, bound) + _unlike_bound(event, bound)
    else:
        faults.append(gettext("the history of this event is missing"))
    history = {line.position: line.link for line in lines if line.position is not None}
    return Ledger(links, history, tuple(faults))


def printed_fault(ledger: Ledger, length: int, written: str) -> str:
    """What is wrong with the end of a chain that somebody printed, sent or read out; empty where it stands here.

    It may be that of the slips or that of the history.
    """
    for links in (ledger.links, ledger.history):
        if length in links and is_read(written, links[length]):
            return ""
    most = max(len(ledger.links), len(ledger.history))
    if length > most:
        return gettext("%(n)s stood here once, and %(kept)s do now: the last ones were cut off") % {
            "n": length,
            "kept": most,
        }
    return gettext("neither the first %(n)s slips nor the first %(n)s lines of the history end in %(head)s") % {
        "n": length,
        "head": written,
    }


def other_histories() -> list[str]:
    """What does not fit in the histories of clubs, of the site, and of events that were removed."""
    holders = set(HistoryEntry.objects.order_by().values_list("club_id", "event_id").distinct())
    kept = set(Event.everyone.values_list("pk", flat=True))
    found = []
    for club, event in {(None if event else club, event) for club, event in holders if event not in kept}:
        found += walked(chained_lines(club, event))[0]
    return found


def _unlike_bound(event: Event, bound: Sealed) -> list[str]:
    """What is kept otherwise than the last act left it that says so."""
    kept = {**event_seals(event.pk), **roster_seals(event.pk), **draw_seals(event.pk), **result_seals(event.pk)}
    teams = dict(event.entries.values_list("boat", "name"))
    found = []
    for name in sorted({*kept, *(one for one in bound if one.startswith(BOUND))}, key=_in_order):
        sealed, line = bound.get(name, (None, None))
        if sealed == kept.get(name):
            continue
        what = {"what": _words(name, teams), "line": named(line) if line else ""}
        if name not in kept:
            found.append(gettext("%(what)s is missing; it was there after %(line)s") % what)
        elif sealed is None:
            found.append(gettext("%(what)s: the history does not know it") % what)
        else:
            found.append(gettext("%(what)s: altered since %(line)s") % what)
    return found


def _in_order(name: str) -> tuple[str, int]:
    word, _, number = name.partition(" ")
    return word, int(number or 0)


def _words(name: str, teams: dict[int, str]) -> str:
    word, _, number = name.partition(" ")
    if word == BOAT.strip():
        team = teams.get(int(number))
        return gettext("the team of boat %(boat)s") % {"boat": f"{number}, {team}" if team else number}
    if word == DRAW:
        return gettext("draw %(number)s") % {"number": number}
    if word == RESULT.strip():
        return gettext("official result %(version)s") % {"version": number}
    return {
        EVENT: gettext("the event’s name, place, dates, times or money"),
        RULES: gettext("the rule sheet"),
        DAYS: gettext("the event’s days"),
        FLIGHTS: gettext("the flights"),
    }[word]
