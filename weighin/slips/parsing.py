"""Read one weigh slip from written values, as a workbook row, a form or a message gives them.

``read_slip`` returns plain values ready to keep, or raises ``Faults`` naming every wrong field at once.
Empty text or None means "not recorded".
"""

from collections.abc import Callable, Collection, Mapping
from dataclasses import replace
from datetime import datetime
from typing import Any

from weighin.events.domain.calendar import Calendar
from weighin.records.domain.table import Table
from weighin.records.parsing.fields import MOST_FISH, MOST_SIGNS, FieldReader
from weighin.rules import scoring, values, weights
from weighin.rules.faults import Faults
from weighin.slips.domain.values import (
    AT_RELEASE,
    COUNTS,
    SPECIES,
    TEXTS,
    TIMES,
    WEIGHTS,
    SlipValues,
    read_largest,
    rules_slip,
)

TIMES_IN_ORDER = (
    ("first_fish", "checked_in"),
    ("launched", "checked_in"),
    ("bag_issued", "weighed"),
    ("weighed", "bag_emptied"),
    ("bag_issued", "bag_emptied"),
    ("weighed", "released"),
)


def read_slip(
    written: Mapping[str, str | None],
    table: Table,
    care_times: Mapping[str, datetime] | None = None,
    current: bool = True,
    whole: bool = True,
    unsure: Collection[str] = (),
) -> SlipValues:
    """Read a slip. ``written`` maps field names to text; ``care_times`` may hold the care note's
    ``launched`` and ``first_fish`` of the same boat and day, so that the order of times can be checked.
    A slip that is not ``current``, because another replaces it or it is a void, may stand on a cancelled day,
    against the care note and before the day's start. Not ``whole``, each field is read by itself and nothing is said
    of how they fit together.
    ``unsure`` names fields and keys of the rule sheet that could not be read: nothing is said that hangs on them.

    Raises Faults with the names of the wrong fields, all at once.
    """
    reader = _SlipReader(written, table, current, unsure)
    slip = reader.read()
    if whole and not slip.void:
        slip.care_times = (care_times or {}) if current else {}
        reader.check(slip)
    if reader.faults:
        raise Faults(reader.faults)
    return slip


class _SlipReader(FieldReader):
    def __init__(
        self, written: Mapping[str, str | None], table: Table, current: bool = True, unsure: Collection[str] = ()
    ):
        super().__init__(written, table, current)
        self.unsure = frozenset(unsure)

    def read(self) -> SlipValues:
        calendar, unit = self.table.calendar, self.table.rules.unit
        void = bool(self.value("void", values.yes_no, False))
        boat = self.boat("boat", required=True)
        day = self.day()
        slip = SlipValues(boat=boat or 0, day=day or 0, void=void)
        for name in COUNTS:
            count = self.value(name, _count)
            if count is None and not self.written.get(name) and not void:
                self.fault(name, f"the number of fish ({name}) is missing: write it, 0 if there are none")
            setattr(slip, name, count or 0)
        slip.short = self.value("short", _count, 0)
        for name in (*AT_RELEASE, *SPECIES):
            setattr(slip, name, self.value(name, _count))
        for name in WEIGHTS:
            setattr(slip, name, self._written(name, lambda text: weights.read(text, unit)))
        slip.largest_weights = self._written("largest_weights", lambda text: read_largest(text, unit))
        slip.largest_weights = ", ".join(part.strip() for part in slip.largest_weights.split(",") if part.strip())
        if len(slip.largest_weights) > MOST_SIGNS:
            self.fault("largest_weights", "these are too many to keep: write only the largest that the rules take")
        slip.big_fish_alive = self.value("big_fish_alive", values.yes_no)
        slip.well_boat = self.boat("well_boat")
        slip.minutes_late = self.value("minutes_late", lambda text: values.whole(text, most=2880))
        slip.excused_minutes = self._written("excused_minutes", lambda text: values.decimal(text, least=0, most=2880))
        slip.replaces = self.value("replaces", lambda text: values.whole(text, least=1, most=2_000_000_000))
        slip.number = self.value("slip", lambda text: values.whole(text, least=1, most=2_000_000_000))
        for name in TEXTS:
            setattr(slip, name, self.value(name, values.lines, ""))
        if day is not None:
            for name in TIMES:
                setattr(slip, name, self.value(name, lambda text: calendar.read(day, text)))
        return slip

    def _written(self, name: str, read: Callable[[str], Any]) -> str:
        """The text as written, once ``read`` accepts it; else empty."""
        return self.written.get(name, "") if self.value(name, read) is not None else ""

    def sure(self, *names: str) -> bool:
        """Whether none of the fields is wrong or unsure."""
        return self.unsure.isdisjoint(names) and not any(fault.field in names for fault in self.faults)

    def check(self, slip: SlipValues) -> None:
        """What can only be said of several fields together; those that are wrong by themselves are left out."""
        if slip.checked_in is not None and slip.minutes_late is not None:
            self.fault("minutes_late", "both checked_in and minutes_late are given: keep one of them", "checked_in")
        self.no_excuse_beside_minutes(slip.minutes_late, slip.excused_minutes)
        gone = {name: getattr(slip, name) or 0 for name in AT_RELEASE}
        if sum(gone.values()) > slip.alive and self.sure("dead_at_release", "kept", "alive"):
            larger, other = sorted(AT_RELEASE, key=lambda name: -gone[name])
            self.fault(
                larger,
                f"{gone['dead_at_release']} dead at release and {gone['kept']} kept are more than the {slip.alive} alive: count again",
                other,
                "alive",
            )
        species = {name: getattr(slip, name) for name in SPECIES if getattr(slip, name)}
        if sum(species.values()) > slip.fish and self.sure("fish", *SPECIES):
            most, *others = sorted(species, key=lambda name: -species[name])
            self.fault(most, f"the species add up to {sum(species.values())} of {slip.fish} fish: count again", *others)
        self._check_times(slip)
        self._check_score(slip)

    def _check_score(self, slip: SlipValues) -> None:
        # As of a boat on time: what the check-in table says may change, and a slip must be sound whatever it comes to
        table = replace(self.table, arrivals={})
        unsure = {*self.unsure, *(fault.field for fault in self.faults)}
        if not unsure.isdisjoint(scoring.LATENESS):
            slip = replace(slip, checked_in=None, minutes_late=None)
        try:
            plain = rules_slip(slip, table)
        except ValueError:  # a due time that the clocks skip is named where it is written
            plain = rules_slip(replace(slip, checked_in=None), table)
            unsure.add("checked_in")
        self.faults.extend(scoring.faults(self.table.rules, plain, unsure))

    def _check_times(self, slip: SlipValues) -> None:
        known = {**slip.care_times, **{name: getattr(slip, name) for name in TIMES if getattr(slip, name)}}
        for earlier, later in TIMES_IN_ORDER:
            if earlier in known and later in known and known[earlier] > known[later]:
                self.fault(later, f"{later} is before {earlier}: correct one of the two times", earlier)
        end = "released" if "released" in known else "weighed"
        start = known.get("first_fish") or known.get("launched") or self._start(slip.day)
        early = start is not None and end in known and known[end] < start
        if early and self.current and self.sure(*TIMES, "start_time"):
            going_on = self._day_of(known[end])
            # A time of day takes its date from the day, so that it speaks of no other day
            if going_on < slip.day and len(self.written.get(end, "")) > len("14:42:00"):
                self.fault("day", _too_early(self.table.calendar, slip.day, going_on), end)
            else:
                self.fault(end, f"{end} is before the day started: the fish cannot have been held, correct the time")

    def _day_of(self, moment: datetime) -> int:
        """The last fished day that had begun by then; before the first one the last of all."""
        fished = self.table.calendar.fished
        begun = [day for day in fished if (start := self._start(day)) is not None and start <= moment]
        return max(begun, default=max(self.table.calendar.days))

    def _start(self, day: int) -> datetime | None:
        """When the day starts; None while that cannot be told, which is named where it is written."""
        try:
            return self.table.calendar.start(day)
        except (ValueError, KeyError):
            return None


def _count(text: str) -> int:
    return values.whole(text, most=MOST_FISH)


def _too_early(calendar: Calendar, day: int, going_on: int) -> str:
    begins = calendar.start(day).astimezone(calendar.zone)
    when = f"{begins:%A, %B} {begins.day} at {begins:%H:%M}"
    return f"day {day} begins on {when}, after these fish were weighed: choose day {going_on}"
