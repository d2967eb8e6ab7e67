"""What stands open about an event before its result is published or it is closed: in words, by day, with where to settle it.

The day's page, the publish page, the close page and the commands all ask here.
"""

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime
from typing import TypeVar

from django.urls import reverse
from django.utils import timezone
from django.utils.text import capfirst
from django.utils.translation import gettext, ngettext

from weighin.care.models import CareNote
from weighin.checkin.pages.words import named, weighed_said
from weighin.checkin.queries.roll import in_doubt, still_out, unheard
from weighin.events.models import Event, Handling
from weighin.registration.queries.till import till_of
from weighin.rules.faults import Together
from weighin.slips.queries.pads import in_runs, missing_numbers
from weighin.slips.queries.scale_doubts import doubts_of
from weighin.slips.queries.slips import ledger_head
from weighin.standings.models import Ruling
from weighin.standings.queries.days import DayCount, days_of, fished
from weighin.standings.queries.document import stands
from weighin.standings.queries.other_rules import fished_under_others
from weighin.standings.queries.protests import cases_of, latest_posting, result_state
from weighin.standings.queries.standings import Standings, standings_of
from weighin.ui import figures
from weighin.ui.nouns import counted, in_words

PUBLISH, CLOSE = "publish", "close"
MONEY = "money_difference"
Row = TypeVar("Row")
NAMED, MANY = 12, 5


@dataclass(frozen=True)
class Question:
    """One open question. ``code`` is a fixed name, ``day`` None for one of the whole event.

    ``at`` is where it is settled, by the act that ``settle`` names. Where ``must_settle`` no reason stands in for that.
    """

    code: str
    day: int | None
    words: str
    at: str
    settle: str
    must_settle: bool = False
    of: int | None = None

    @property
    def key(self) -> str:
        """Its name in a form; ``of`` is the number of what it is about, where there may be several."""
        return "_".join(str(part) for part in (self.code, self.day, self.of) if part is not None)


def open_questions(event: Event, act: str = PUBLISH, standings: Standings | None = None) -> list[Question]:
    """The open questions before ``act``, by day, those of the whole event last; the same number of queries for any size."""
    known = standings or standings_of(event)
    days = days_of(known)
    found = [
        *_roll(event, act),
        *second_slips(event, known),
        *(_no_slips(event) if act == PUBLISH and not known.slips else ()),
        *_days(event, days, timezone.now()),
        *_lateness(event),
        *_scales(event, known),
        *_rules(event, known),
        *_care(event, known, days),
        *_money(event, known),
        *(_till(event) if act == PUBLISH else ()),
        *_paper(event),
        *_protests(event, act, known),
    ]
    return sorted(found, key=lambda question: (question.day is None, question.day or 0))


def _roll(event: Event, act: str) -> Iterator[Question]:
    """Boats that the roll has out; before closing also those of whom nobody says that they came back."""
    out = [boat for boat in still_out(event) if boat.where != "weighed"]
    for day, boats in _by_day(out, lambda boat: boat.day):
        words = ngettext(
            "Day %(day)s: %(boats)s is still out.",
            "Day %(day)s: %(boats)s are still out.",
            len(boats),
        ) % {"day": day, "boats": named(boats)}
        yield Question("boats_out", day, words, _at(event, "checkin:roll"), gettext("Check boats in"), True)
    if act == CLOSE:
        silent = unheard(event)
        for day, boats in _by_day((boat for boat in silent if boat.slips), lambda boat: boat.day):
            words = gettext("Day %(day)s: %(weighed_said)s. A slip does not prove that a boat is in.") % {
                "day": day,
                "weighed_said": weighed_said(boats),
            }
            yield Question("not_noted_in", day, words, _at(event, "checkin:roll"), gettext("Check boats in"))
        for day, boats in _by_day((boat for boat in silent if not boat.slips), lambda boat: boat.day):
            words = gettext("Day %(day)s: no check-in and no slip of %(named)s.") % {"day": day, "named": named(boats)}
            yield Question("nobody_kept_the_roll", day, words, _at(event, "checkin:roll"), gettext("Check boats in"))


def second_slips(event: Event, standings: Standings) -> Iterator[Question]:
    """Boats with two slips of a day; these need the director while the day goes on, all else can wait for its end."""
    for slips in standings.waiting:
        boat, day = slips[0].entry.boat, slips[0].day
        words = (
            gettext("Day %(day)s: boat %(boat)s has two slips. Neither counts until one is chosen.")
            if len(slips) == 2
            else gettext("Day %(day)s: boat %(boat)s has %(slips)s slips. None counts until one is chosen.")
        ) % {"day": day, "boat": boat, "slips": in_words(len(slips))}
        where = reverse("slips:slip_counts", args=[event.slug, slips[0].number])
        yield Question("second_slip", day, words, where, gettext("Choose the slip that counts"), True)


def _no_slips(event: Event) -> Iterator[Question]:
    words, where = gettext("No slip is saved: there is no result yet."), _at(event, "slips:slips_new")
    yield Question("no_slips", None, words, where, gettext("Add the first slip"), True)


def _days(event: Event, days: list[DayCount], now: datetime) -> Iterator[Question]:
    """Days that are not fished or not over, and boats that a day awaits still."""
    for day in fished(days):
        set_up = reverse("events:day", args=[event.slug, day.number])
        if not day.boats:
            continue
        if not day.begun:
            over = now > day.due
            words = gettext("Day %(day)s has no slip.") if over else gettext("Day %(day)s is not fished yet.")
            words %= {"day": day.number}
            yield Question("day_not_fished", day.number, words, set_up, gettext("Cancel the day, if it was"))
        elif now < day.due and not day.is_in:
            words = gettext("Day %(number)s is not over: %(weighed)s of %(boats)s weighed.") % {
                "number": day.number,
                "weighed": len(day.weighed),
                "boats": counted(len(day.boats), "boat"),
            }
            yield Question("day_not_over", day.number, words, _at(event, "slips:slips"), gettext("See the slips"))
        elif day.missing:
            words = ngettext(
                "Day %(day)s: %(named)s is not weighed, %(n)s of %(boats)s.",
                "Day %(day)s: %(named)s are not weighed, %(n)s of %(boats)s.",
                len(day.missing),
            ) % {
                "day": day.number,
                "named": _boats(day.missing),
                "n": len(day.missing),
                "boats": counted(len(day.boats), "boat"),
            }
            yield Question("not_weighed", day.number, words, _at(event, "roster:teams"), gettext("Add the slips, or mark teams absent"))  # fmt: skip


def _lateness(event: Event) -> Iterator[Question]:
    """Boats whose slip counts other minutes late than the roll tells."""
    for day, boats in _by_day(in_doubt(event), lambda boat: boat.day):
        where = reverse("checkin:roll_boat", args=[event.slug, day, boats[0].entry.boat])
        words = gettext("Day %(day)s: slip and check-in disagree on how late %(named)s came.") % {
            "day": day,
            "named": named(boats),
        }
        yield Question("lateness_in_doubt", day, words, where, gettext("Choose the time that counts"))


def _scales(event: Event, standings: Standings) -> Iterator[Question]:
    slips = standings.current
    marks = doubts_of(event, slips).marks
    for day, doubted in _by_day((slip for slip in slips if slip.pk in marks), lambda slip: slip.day):
        words = gettext("Day %(day)s: %(slips)s in doubt, since a scale failed its test.") % {
            "day": day,
            "slips": counted(len(doubted), "slip"),
        }
        yield Question("scale_in_doubt", day, words, _at(event, "slips:scales"), gettext("See the failed checks"))


def _rules(event: Event, standings: Standings) -> Iterator[Question]:
    """Slips of days before a change of rules that score otherwise by it: the change was kept when none did."""
    for day, slips in _by_day(fished_under_others(standings), lambda slip: slip.day):
        words = ngettext(
            "Day %(day)s: the slip of %(boats)s scores otherwise by the rules changed after that day than by those it "
            "was fished under.",
            "Day %(day)s: the slips of %(boats)s score otherwise by the rules changed after that day than by those it "
            "was fished under.",
            len(slips),
        ) % {"day": day, "boats": _boats(slip.entry.boat for slip in slips)}
        where = _at(event, "advice:rule_change")
        yield Question("other_rules", day, words, where, gettext("Correct the rules for the whole event"))


def _care(event: Event, standings: Standings, days: list[DayCount]) -> Iterator[Question]:
    """Fish that nobody wrote back into the lake, and boats without a care note, where the fish are held for release."""
    if event.handling != Handling.HOLD_RELEASE:
        return
    noted = set(CareNote.objects.filter(event=event).values_list("day", "entry__boat"))
    let_go = set(event.releases.values_list("day", flat=True))
    for day in fished(days):
        slips = [slip for slip in standings.counting if slip.day == day.number]
        alive = [
            slip
            for slip in slips
            if slip.alive > (slip.dead_at_release or 0) + (slip.kept or 0) and slip.released is None
        ]
        if alive and day.number not in let_go:
            words = gettext("Day %(number)s: nobody recorded when the fish of %(boats)s went back.") % {
                "number": day.number,
                "boats": _boats(s.entry.boat for s in alive),
            }
            yield Question("release_not_recorded", day.number, words, _at(event, "care:releases"), gettext("Record the releases"))  # fmt: skip
        lacking = sorted(boat for boat in day.weighed if (day.number, boat) not in noted)
        if lacking:
            words = gettext("Day %(day)s: no care note of %(named)s, %(n)s of %(boats)s.") % {
                "day": day.number,
                "named": _boats(lacking),
                "n": len(lacking),
                "boats": counted(len(day.weighed), "weighed boat"),
            }
            yield Question(
                "care_not_recorded", day.number, words, _at(event, "care:notes"), gettext("Add the care notes")
            )


def _money(event: Event, standings: Standings) -> Iterator[Question]:
    """Teams that have not paid and stand where a prize is paid."""
    purse = standings.outcome.purse
    unpaid = [
        row.result.team.boat
        for row in standings.outcome.ranked
        if row.place is not None and not row.result.team.paid and row.place <= max(1, purse.places_paid)
    ]
    if unpaid and purse.purse > 0:
        words = ngettext(
            "%(boats)s is in the money and has not paid: the prize goes to the next team.",
            "%(boats)s are in the money and have not paid: the prize goes to the next team.",
            len(unpaid),
        ) % {"boats": capfirst(_boats(unpaid))}
        where = reverse("roster:team", args=[event.slug, unpaid[0]])
        yield Question("unpaid_in_the_money", None, words, where, gettext("Add the payment"))


def _till(event: Event) -> Iterator[Question]:
    """Money that does not balance with what teams have paid for, and money of teams that no purse knows, without names."""
    where, till = _at(event, "registration:money"), till_of(event)
    waiting = [pk for pk in set().union(*till.cash.in_on.values()) if till.entries[pk].waits]
    if waiting:
        words = ngettext(
            "%(n)s team has paid and has no boat number: its money is in no purse and no pot.",
            "%(n)s teams have paid and have no boat number: their money is in no purse and no pot.",
            len(waiting),
        ) % {"n": len(waiting)}
        yield Question("paid_without_number", None, words, where, gettext("Give a number or refund the money"))
    difference = till.cash.difference
    if difference:
        words = (
            gettext("The cash-up does not balance: %(amount)s more was received than paid fees come to.")
            if difference > 0
            else gettext("The cash-up does not balance: %(amount)s less was received than paid fees come to.")
        ) % {"amount": figures.money(abs(difference))}
        yield Question(MONEY, None, words, where, gettext("Correct the payments"))


def _paper(event: Event) -> Iterator[Question]:
    missing = missing_numbers(event)
    if missing:
        words = gettext("Paper slips missing: %(in_runs)s.") % {"in_runs": in_runs(missing)}
        yield Question("paper_missing", None, words, _at(event, "slips:pads"), gettext("Find or spoil them"))


def _protests(event: Event, act: str, standings: Standings) -> Iterator[Question]:
    """Protests without a ruling, time for protests that still runs, and rulings that changed nothing. No names: versions
    show what they were published over to everybody."""
    where = _at(event, "standings:protests")
    cases = cases_of(event)
    for case in cases:
        if case.ruling is None:
            words = gettext("Protest %(number)s is not ruled on.") % {"number": case.number}
            yield Question("protest_open", None, words, where, gettext("Add the ruling"), of=case.number)
    state = result_state(event, cases)
    if act == PUBLISH and state.takes_protests and state.until is not None:
        until = figures.moment(state.until, standings.table.calendar.zone)
        words = gettext("Protests are taken until %(until)s.") % {"until": until}
        yield Question("protest_time_runs", None, words, where, gettext("Wait until then"))
    upheld = [case for case in cases if case.ruling is not None and case.ruling.outcome == Ruling.Outcome.UPHELD]
    if act == PUBLISH and state.version is None and upheld and _as_posted(event, standings):
        words = ngettext(
            "Protest %(numbers)s is upheld, and nothing has changed since the posting.",
            "Protests %(numbers)s are upheld, and nothing has changed since the posting.",
            len(upheld),
        ) % {"numbers": Together(tuple(case.number for case in upheld)).shown()}
        where = _at(event, "slips:slips")
        yield Question("ruling_not_carried_out", None, words, where, gettext("Correct the slip or the team"))


def _as_posted(event: Event, standings: Standings) -> bool:
    posting = latest_posting(event)
    return posting is not None and stands(posting, standings, ledger_head(event))


def _by_day(rows: Iterable[Row], day_of: Callable[[Row], int]) -> Iterator[tuple[int, list[Row]]]:
    found: dict[int, list[Row]] = defaultdict(list)
    for row in rows:
        found[day_of(row)].append(row)
    yield from sorted(found.items())


def _boats(numbers: Iterable[int]) -> str:
    boats = sorted(numbers)
    if len(boats) < MANY:
        named = Together(tuple(boats)).shown()
        return ngettext("boat %(boats)s", "boats %(boats)s", len(boats)) % {"boats": named}
    runs = in_runs(boats).split(", ")
    said = gettext("boats %(boats)s and more") if len(runs) > NAMED else gettext("boats %(boats)s")
    return said % {"boats": ", ".join(runs[:NAMED])}


def _at(event: Event, name: str) -> str:
    return reverse(name, args=[event.slug])
