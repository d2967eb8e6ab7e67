"""Fish care of an event: one row a team and day with what was noted, what was measured, and the checks."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from typing import Any

from django.db.models import QuerySet

from weighin.care.domain.checks import Care, Observed, Times, care
from weighin.care.domain.fields import NOTE
from weighin.care.models import CareNote, SentNote
from weighin.checkin.queries.arrivals import table_of
from weighin.events.domain import temperatures
from weighin.events.domain.calendar import Calendar
from weighin.events.domain.table import Table
from weighin.events.domain.temperatures import Temperature
from weighin.events.models import Event
from weighin.events.queries.events import lake_temperatures
from weighin.records.domain.rows import fingerprint as fingerprint_of
from weighin.roster.models import Entry
from weighin.rules.rulebook import Rulebook
from weighin.slips.models import WeighSlip
from weighin.slips.queries.cut import fish_no_more
from weighin.slips.queries.slips import current_slips, doubled
from weighin.tanks.queries.at_release import at_release, batches_of


def waiting_notes(event_id: int) -> QuerySet[SentNote]:
    """Notes that contradict their boat's care note and wait for an official."""
    return SentNote.objects.filter(event=event_id, stands=False, void=False, replaced_by=None).select_related("entry")


@dataclass(frozen=True)
class CareRow:
    """A team's fish care of one day. ``slip`` is the one that counts, or None; ``note`` is None when none was written."""

    day: int
    entry: Entry
    slip: WeighSlip | None
    note: CareNote | None
    care: Care
    seen: Observed

    @property
    def boat(self) -> int:
        return self.entry.boat


@dataclass(frozen=True)
class DeepBoat:
    """A boat some of whose fish came from so deep on a day that the rule sheet has them kept, not released."""

    day: int
    boat: int
    depth_ft: str


def deep_boats(event: Event, rules: Rulebook) -> list[DeepBoat]:
    """The boats whose care note gives a depth from which fish are kept; none where the rule sheet has no such depth."""
    least = rules.deep_fish_kept_ft
    if least is None:
        return []
    noted = event.care_notes.exclude(catch_depth_ft="").values_list("day", "entry__boat", "catch_depth_ft")
    return [DeepBoat(day, boat, depth) for day, boat, depth in noted if Decimal(depth) >= least]


def signs_of_depth(event: Event) -> list[int]:
    """How many fish of each boat and day had signs of depth, where any had by the care note."""
    noted = event.care_notes.filter(barotrauma__gt=0).values_list("barotrauma", flat=True)
    return [fish for fish in noted if fish]


def care_rows(
    event: Event,
    table: Table | None = None,
    slips: Iterable[WeighSlip] | None = None,
    lakes: Mapping[int, Temperature | None] | None = None,
) -> list[CareRow]:
    """A row for every day and boat with a current slip or a care note, by day, then boat.

    Of a doubled day neither slip counts: its row shows the note only.
    """
    known = table or table_of(event)
    warmth = lake_temperatures(event) if lakes is None else lakes
    found = current_slips(event) if slips is None else list(slips)
    waiting = doubled(found)
    by_day = {(s.day, s.entry.boat): (s.entry, s) for s in found}
    notes = {(n.day, n.entry.boat): n for n in event.care_notes.select_related("entry")}
    counting = [slip for slip in found if (slip.entry.boat, slip.day) not in waiting]
    back = at_release(counting, batches_of([event]).get(event.pk, ()))
    rows = []
    for day, boat in sorted({*by_day, *notes}):
        entry, slip = by_day.get((day, boat), (None, None))
        if (boat, day) in waiting:
            slip = None
        note = notes.get((day, boat))
        seen = observed(note, warmth.get(day))
        rows.append(
            CareRow(
                day=day,
                entry=entry or notes[day, boat].entry,
                slip=slip,
                note=note,
                care=care(
                    known.rules,
                    times_of(known.calendar, day, slip, note, back[day, slip.entry_id].released if slip else None),
                    seen,
                ),
                seen=seen,
            )
        )
    return rows


def without_note(
    event: Event, rows: Iterable[CareRow], entries: Iterable[Entry], table: Table
) -> dict[int, list[Entry]]:
    """The boats that fish and have no care note yet, by day that was not cancelled."""
    noted = {(row.day, row.entry.boat) for row in rows if row.note is not None}
    return {
        day: [entry for entry in boats if (day, entry.boat) not in noted]
        for day, boats in fishing(event, entries, table).items()
    }


def fishing(event: Event, entries: Iterable[Entry], table: Table) -> dict[int, list[Entry]]:
    """The boats that fish, by day that was not cancelled; after the cut those that made it."""
    entered = [entry for entry in entries if entry.status == Entry.Status.ENTERED]
    cut_after, gone = table.rules.cut_after_day, fish_no_more(event, table)
    return {
        day: [entry for entry in entered if not (cut_after is not None and day > cut_after and entry.boat in gone)]
        for day in table.calendar.fished
    }


def note_of(event: Event, day: int, boat: int) -> CareNote | None:
    """A boat's care note of a day."""
    return event.care_notes.filter(day=day, entry__boat=boat).select_related("entry").first()


def fingerprint(note: CareNote | None) -> str:
    """A digest of what a note says, by which a page knows whether it changed meanwhile; empty without a note."""
    return fingerprint_of(NOTE, note)


def care_part(rows: Iterable[CareRow]) -> list[dict[str, Any]]:
    """The rows as plain JSON values, in the words of the project's export contract."""
    return [
        {
            "day": row.day,
            "boat": row.entry.boat,
            "live_count": row.slip.alive if row.slip else None,
            "dead_count": row.slip.dead if row.slip else None,
            "minutes_held": _number(row.care.minutes_held),
            "held_is_upper_bound": row.care.held_is_upper_bound,
            "minutes_in_bag": _number(row.care.minutes_in_bag),
            "checks_passed": list(row.care.passed),
            "checks_failed": list(row.care.failed),
        }
        for row in rows
    ]


def times_of(
    calendar: Calendar, day: int, slip: WeighSlip | None, note: CareNote | None, batch: datetime | None = None
) -> Times:
    """The moments that bound how long a boat's fish were held on a day; ``batch`` is when the release record has them back."""
    return Times(
        start=calendar.start(day),
        launched=note.launched if note else None,
        first_fish=note.first_fish if note else None,
        bag_issued=slip.bag_issued if slip else None,
        weighed=slip.weighed if slip else None,
        bag_emptied=slip.bag_emptied if slip else None,
        released=slip.released or batch if slip else None,
    )


def observed(note: CareNote | None, lake: temperatures.Temperature | None) -> Observed:
    """What a care note says, beside the lake's temperature."""
    if note is None:
        return Observed(lake=lake)
    return Observed(
        pump_ok=note.pump_ok,
        thermometer_ok=note.thermometer_ok,
        ice_lb=Decimal(note.ice_lb) if note.ice_lb else None,
        most_on_board=note.most_on_board,
        livewell=temperatures.water(note.livewell_temp) if note.livewell_temp else None,
        livewell_do=Decimal(note.livewell_do) if note.livewell_do else None,
        lake=lake,
    )


def _number(minutes: Decimal | None) -> float | None:
    return None if minutes is None else float(minutes)
