"""The standings of an event as they are now, and its official results."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from typing import Any, Protocol, TypeVar

from weighin.checkin.queries.arrivals import table_of
from weighin.events.domain.table import Table
from weighin.events.models import Event
from weighin.roster.models import Angler, Entry
from weighin.roster.queries import entries_at
from weighin.rules.results import Team
from weighin.rules.rulebook import Rulebook
from weighin.rules.tournament import DaySlip, Outcome, run
from weighin.rules.words.scores import days_lost_said, status_in_words
from weighin.slips.domain.values import rules_slip
from weighin.slips.models import WeighSlip
from weighin.slips.queries.slips import current_slips, first_readings
from weighin.standings.models import OfficialResult


@dataclass(frozen=True)
class Standings:
    """An event worked out: its entries by boat, the current slips, and the outcome under its rule sheet.

    ``first`` holds the first readings up to the cut, none without one. ``slips`` holds every current slip by (boat, day); a doubled day has several, and none of them counts.
    """

    event: Event
    rules: Rulebook
    table: Table
    entries: dict[int, Entry]
    first: list[WeighSlip]
    slips: dict[tuple[int, int], list[WeighSlip]]
    outcome: Outcome

    @property
    def current(self) -> list[WeighSlip]:
        """Every current slip, both of a doubled day, by day and boat."""
        return [slip for found in self.slips.values() for slip in found]

    @property
    def counting(self) -> list[WeighSlip]:
        """The slips that count, by day and boat."""
        return [found[0] for found in self.slips.values() if len(found) == 1]

    @property
    def entered(self) -> set[int]:
        """Boats that are in the event: entered, not withdrawn, absent or disqualified on the roster."""
        return {boat for boat, entry in self.entries.items() if entry.status == Entry.Status.ENTERED}

    @property
    def weighed(self) -> set[int]:
        """Boats of those entered that have a slip."""
        return self.entered & {boat for boat, _ in self.slips}

    @property
    def waiting(self) -> list[list[WeighSlip]]:
        """The slips of each doubled day, for the director to settle."""
        return [found for found in self.slips.values() if len(found) > 1]


def standings_of(event: Event, as_of: datetime | None = None) -> Standings:
    """Score, rank and pay the event from its current slips; the same number of queries whatever its size.

    With ``as_of`` from the slips that were current then, and by what teams were then: a ruling of a held hour shows no
    sooner than its slips.
    """
    entries = {entry.boat: entry for entry in entries_at(event, as_of)}
    table = table_of(event, entries.values(), as_of)
    cut = table.rules.cut_after_day
    first = [] if cut is None else first_readings(event, cut, as_of)
    return worked_out(event, entries, table, current_slips(event, as_of, entries.values()), first)


def worked_out(
    event: Event, entries: dict[int, Entry], table: Table, found: Sequence[WeighSlip], first: list[WeighSlip]
) -> Standings:
    """Standings from entries and slips already fetched."""
    by_day: dict[tuple[int, int], list[WeighSlip]] = {}
    for slip in found:
        by_day.setdefault((slip.entry.boat, slip.day), []).append(slip)
    current, readings = (
        [DaySlip(slip.entry.boat, slip.day, rules_slip(slip, table)) for slip in slips] for slips in (found, first)
    )
    outcome = run(
        table.rules,
        [team_of(entry) for entry in entries.values()],
        current,
        table.calendar.fished,
        Decimal(event.entry_fee),
        Decimal(event.added_money),
        readings,
    )
    return Standings(event, table.rules, table, entries, first, by_day, outcome)


def angler_names(event: Event) -> dict[int, str]:
    """The anglers of every boat in one line of text."""
    names: dict[int, list[str]] = {}
    for boat, name in Angler.objects.filter(entry__event=event).values_list("entry__boat", "name"):
        names.setdefault(boat, []).append(name)
    return {boat: ", ".join(found) for boat, found in names.items()}


def team_of(entry: Entry) -> Team:
    """An entry in the plain values that the rules need."""
    return Team(entry.boat, entry.name, entry.status, entry.paid, entry.big_fish_pot, entry.lot)


def official_results(event: Event) -> list[OfficialResult]:
    """The event's official results, newest version first."""
    return list(OfficialResult.objects.filter(event=event))


class HasKey(Protocol):
    """An event, or what is known of one."""

    @property
    def pk(self) -> int: ...


One = TypeVar("One", bound=HasKey)


def without_result(events: Iterable[One]) -> list[One]:
    """Those of the events that no official result was published of, in their order; one query."""
    asked = list(events)
    published = set(
        OfficialResult.objects.filter(event__in=[event.pk for event in asked]).values_list("event_id", flat=True)
    )
    return [event for event in asked if event.pk not in published]


def official_stages(events: Iterable[HasKey]) -> dict[int, str]:
    """After which day the newest official version of each event that has one stands; empty: its last day was in."""
    versions = OfficialResult.objects.filter(event__in=[event.pk for event in events]).order_by("version")
    return dict(versions.values_list("event_id", "stage"))


def stages_of(events: Iterable[HasKey]) -> dict[int, str]:
    """After which day the newest official version of each event stands, where its last day was not in; one query."""
    return {pk: stage for pk, stage in official_stages(events).items() if stage}


def result_days(result: OfficialResult) -> list[int]:
    """The days that have a column in a frozen result: those weighed of an event of several."""
    if result.document["event"]["days"] < 2:
        return []
    return sorted({day["day"] for row in result.document["standings"] for day in row["days"]})


def result_rows(result: OfficialResult) -> list[dict[str, Any]]:
    """The frozen places of an official result, weights and money as Decimal, the status in words."""
    rows, days = [], result_days(result)
    for row in result.document["standings"]:
        weights = {name: _decimal(row[name]) for name in ("penalty", "bonus", "total", "big_fish")}
        prizes = {"prize": Decimal(row["payout"]), "pot": Decimal(row["big_fish_payout"])}
        totals = {day["day"]: _decimal(day["total"]) for day in row["days"]}
        lost = [day for day in row["days"] if day["lost"]]
        said = days_lost_said([day["day"] for day in lost])
        # As ``days.statuses_said``: who lost every day so far fishes on while days are to come
        fishes_on = result.stage and lost and row["status"] == "disqualified"
        rows.append(
            {
                **row,
                **weights,
                **prizes,
                "day_totals": [(day, totals.get(day)) for day in days],
                "lost": sum((Decimal(day["gross"]) for day in lost), Decimal(0)),
                "lost_said": said,
                "status_words": said if fishes_on else status_in_words(row["status"]),
            }
        )
    return rows


def _decimal(text: str | None) -> Decimal | None:
    return None if text is None else Decimal(text)
