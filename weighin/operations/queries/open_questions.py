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

from weighin.care.models import CareNote
from weighin.checkin.pages.words import named, weighed_said
from weighin.checkin.queries.roll import in_doubt, still_out, unheard
from weighin.events.models import Event, Handling
from weighin.slips.queries.pads import in_runs, missing_numbers
from weighin.slips.queries.scale_doubts import doubts_of
from weighin.standings.queries.days import DayCount, days_of, fished
from weighin.standings.queries.standings import Standings, standings_of

PUBLISH, CLOSE = "publish", "close"
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

    @property
    def key(self) -> str:
        """Its name in a form."""
        return self.code if self.day is None else f"{self.code}_{self.day}"


def open_questions(event: Event, act: str = PUBLISH, standings: Standings | None = None) -> list[Question]:
    """The open questions before ``act``, by day, those of the whole event last; the same number of queries for any size."""
    known = standings or standings_of(event)
    days = days_of(known)
    found = [
        *_roll(event, act),
        *_slips(event, act, known),
        *_days(event, days, timezone.now()),
        *_lateness(event),
        *_scales(event, known),
        *_care(event, known, days),
        *_money(event, known),
        *_paper(event),
    ]
    return sorted(found, key=lambda question: (question.day is None, question.day or 0))


def _roll(event: Event, act: str) -> Iterator[Question]:
    """Boats that the roll has out; before closing also those of whom nobody says that they came back."""
    out = [boat for boat in still_out(event) if boat.where != "weighed"]
    for day, boats in _by_day(out, lambda boat: boat.day):
        verb = "is" if len(boats) == 1 else "are"
        words = f"Day {day}: {named(boats)} {verb} still out by the roll."
        yield Question("boats_out", day, words, _at(event, "checkin:roll"), "Check boats in on the roll", True)
    if act == CLOSE:
        silent = unheard(event)
        for day, boats in _by_day((boat for boat in silent if boat.slips), lambda boat: boat.day):
            words = f"Day {day}: {weighed_said(boats)}. A slip does not prove that a boat is in."
            yield Question("not_noted_in", day, words, _at(event, "checkin:roll"), "Check boats in on the roll")
        for day, boats in _by_day((boat for boat in silent if not boat.slips), lambda boat: boat.day):
            words = f"Day {day}: nobody kept the roll, and of {named(boats)} there is neither a word nor a slip."
            yield Question("nobody_kept_the_roll", day, words, _at(event, "checkin:roll"), "Keep the roll")


def _slips(event: Event, act: str, standings: Standings) -> Iterator[Question]:
    for slips in standings.waiting:
        boat, day = slips[0].entry.boat, slips[0].day
        words = f"Day {day}: boat {boat} has {_number(len(slips))} slips. Neither counts until one is chosen."
        if len(slips) > 2:
            words = words.replace("Neither counts", "None counts")
        where = reverse("slips:slip", args=[event.slug, slips[0].number])
        yield Question("second_slip", day, words, where, "Choose the slip that counts", True)
    if act == PUBLISH and not standings.slips:
        where = _at(event, "slips:slips_new")
        yield Question(
            "no_slips", None, "No slip is kept: there is no result yet.", where, "Write the first slip", True
        )


def _days(event: Event, days: list[DayCount], now: datetime) -> Iterator[Question]:
    """Days that are not fished or not over, and boats that a day awaits still."""
    for day in fished(days):
        set_up = reverse("events:day", args=[event.slug, day.number])
        if not day.boats:
            continue
        if not day.begun:
            over = now > day.due
            words = f"Day {day.number} has no slip." if over else f"Day {day.number} is not fished yet."
            yield Question("day_not_fished", day.number, words, set_up, "Cancel the day, if it was")
        elif now < day.due and not day.is_in:
            words = f"Day {day.number} is not over: {len(day.weighed)} of {_count(len(day.boats), 'boat')} weighed."
            yield Question("day_not_over", day.number, words, _at(event, "slips:slips"), "See the slips")
        elif day.missing:
            verb = "is" if len(day.missing) == 1 else "are"
            words = (
                f"Day {day.number}: {_boats(day.missing)} {verb} not weighed, "
                f"{len(day.missing)} of {_count(len(day.boats), 'boat')}."
            )
            yield Question("not_weighed", day.number, words, _at(event, "roster:teams"), "Write the slips, or mark teams absent")  # fmt: skip


def _lateness(event: Event) -> Iterator[Question]:
    """Boats whose slip counts other minutes late than the roll tells."""
    for day, boats in _by_day(in_doubt(event), lambda boat: boat.day):
        where = reverse("checkin:roll_boat", args=[event.slug, day, boats[0].entry.boat])
        words = f"Day {day}: slip and check-in disagree on how late {named(boats)} came."
        yield Question("lateness_in_doubt", day, words, where, "Say which time counts")


def _scales(event: Event, standings: Standings) -> Iterator[Question]:
    slips = standings.current
    marks = doubts_of(event, slips).marks
    for day, doubted in _by_day((slip for slip in slips if slip.pk in marks), lambda slip: slip.day):
        words = f"Day {day}: {_count(len(doubted), 'slip')} in doubt, since a scale failed its test."
        yield Question("scale_in_doubt", day, words, _at(event, "slips:scales"), "See the failed checks")


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
            words = (
                f"Day {day.number}: nobody recorded when the fish of {_boats(s.entry.boat for s in alive)} went back."
            )
            yield Question("release_not_recorded", day.number, words, _at(event, "care:releases"), "Record the releases")  # fmt: skip
        lacking = sorted(boat for boat in day.weighed if (day.number, boat) not in noted)
        if lacking:
            words = f"Day {day.number}: no care note of {_boats(lacking)}, {len(lacking)} of {_count(len(day.weighed), 'weighed boat')}."
            yield Question("care_not_recorded", day.number, words, _at(event, "care:notes"), "Write the care notes")


def _money(event: Event, standings: Standings) -> Iterator[Question]:
    """Teams that have not paid and stand where a prize is paid."""
    purse = standings.outcome.purse
    unpaid = [
        row.result.team.boat
        for row in standings.outcome.ranked
        if row.place is not None and not row.result.team.paid and row.place <= max(1, purse.places_paid)
    ]
    if unpaid and purse.purse > 0:
        verb = "is" if len(unpaid) == 1 else "are"
        words = f"{_boats(unpaid).capitalize()} {verb} in the money and not paid in: the prize goes to the next team."
        where = reverse("roster:team", args=[event.slug, unpaid[0]])
        yield Question("unpaid_in_the_money", None, words, where, "Note the payment")


def _paper(event: Event) -> Iterator[Question]:
    missing = missing_numbers(event)
    if missing:
        words = f"Paper slips missing: {in_runs(missing)}."
        yield Question("paper_missing", None, words, _at(event, "slips:pads"), "Find or spoil them")


def _by_day(rows: Iterable[Row], day_of: Callable[[Row], int]) -> Iterator[tuple[int, list[Row]]]:
    found: dict[int, list[Row]] = defaultdict(list)
    for row in rows:
        found[day_of(row)].append(row)
    yield from sorted(found.items())


def _boats(numbers: Iterable[int]) -> str:
    boats = sorted(numbers)
    if len(boats) < MANY:
        named = [str(boat) for boat in boats]
        return f"boat {named[0]}" if len(named) == 1 else f"boats {', '.join(named[:-1])} and {named[-1]}"
    runs = in_runs(boats).split(", ")
    return f"boats {', '.join(runs[:NAMED])}" + (" and more" if len(runs) > NAMED else "")


def _count(count: int, noun: str) -> str:
    return f"{count} {noun}{'' if count == 1 else 's'}"


def _number(count: int) -> str:
    return {2: "two", 3: "three", 4: "four"}.get(count, str(count))


def _at(event: Event, name: str) -> str:
    return reverse(name, args=[event.slug])
