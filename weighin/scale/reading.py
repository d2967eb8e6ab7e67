"""Read one weigh slip from written values, as a workbook row, a form or a message gives them.

``read_slip`` returns plain values ready to keep, or raises ``Faults`` naming every wrong field at once.
Empty text or None means "not recorded".
"""

from collections.abc import Callable, Collection, Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime
from decimal import Decimal
from fractions import Fraction
from types import SimpleNamespace
from typing import Any

from weighin.events.calendar import Calendar
from weighin.rules import scoring, values, weights
from weighin.rules.faults import Fault, Faults
from weighin.rules.rulebook import Rulebook
from weighin.rules.slips import Slip

COUNTS = ("fish", "alive", "dead")
AT_RELEASE = ("dead_at_release", "kept")
SPECIES = ("black_crappie", "white_crappie", "other_species")
TIMES = ("checked_in", "bag_issued", "weighed", "bag_emptied", "released")
TEXTS = ("extra_penalty_reason", "disqualified_reason", "official", "note", "reason")
WEIGHTS = ("gross", "tare", "big_fish", "extra_penalty")
MOST_FISH = 1000
MOST_SIGNS = 500

TIMES_IN_ORDER = (
    ("first_fish", "checked_in"),
    ("launched", "checked_in"),
    ("bag_issued", "weighed"),
    ("weighed", "bag_emptied"),
    ("bag_issued", "bag_emptied"),
    ("weighed", "released"),
)


@dataclass(frozen=True)
class Arrival:
    """What the check-in table says of one boat's coming in on one day; the names are those of a slip.

    The time (or the minutes late) is the first one noted. Excused minutes are those said last, whichever line they
    stand on: a tow is often reported before the boat comes in.
    """

    day: int
    checked_in: datetime | None
    minutes_late: int | None
    excused_minutes: str


@dataclass(frozen=True)
class Table:
    """What the scale table must know to read and score slips: the event's clock and rules, the boats with their
    flights, and what the check-in table says of (boat, day)."""

    calendar: Calendar
    rules: Rulebook
    boats: Mapping[int, str]
    arrivals: Mapping[tuple[int, int], Arrival] = field(default_factory=dict)


@dataclass
class SlipValues:
    """A slip's values, ready to keep: the fields of ``WeighSlip`` with the boat in place of the entry."""

    boat: int
    day: int
    number: int | None = None
    fish: int = 0
    alive: int = 0
    dead: int = 0
    short: int = 0
    gross: str = ""
    tare: str = ""
    big_fish: str = ""
    big_fish_alive: bool | None = None
    largest_weights: str = ""
    black_crappie: int | None = None
    white_crappie: int | None = None
    other_species: int | None = None
    well_boat: int | None = None
    checked_in: datetime | None = None
    minutes_late: int | None = None
    excused_minutes: str = ""
    bag_issued: datetime | None = None
    weighed: datetime | None = None
    bag_emptied: datetime | None = None
    released: datetime | None = None
    dead_at_release: int | None = None
    kept: int | None = None
    extra_penalty: str = ""
    extra_penalty_reason: str = ""
    disqualified_reason: str = ""
    official: str = ""
    note: str = ""
    reason: str = ""
    replaces: int | None = None
    void: bool = False
    care_times: Mapping[str, datetime] = field(default_factory=dict, repr=False, compare=False)


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


def boat_and_day(written: Mapping[str, str | None]) -> tuple[int, int] | None:
    """The boat and day a slip or note is written for, as far as both can be read."""
    try:
        boat, day = (values.whole(written.get(name) or "", most=2_000_000_000) for name in ("boat", "day"))
    except ValueError:
        return None
    return boat, day


def rules_slip(slip: Any, table: Table) -> Slip:
    """The slip in the plain values that scoring needs: ``SlipValues`` or a ``WeighSlip`` with ``boat`` known.

    Lateness is worked out here: the check-in clock less the due time, less excused minutes, never negative. A slip
    that says neither time nor minutes takes those of the check-in table, whenever they were written.
    """
    unit = table.rules.unit
    boat = slip.boat if isinstance(slip, SlipValues) else slip.entry.boat
    arrival = arrival_counted(slip, table.arrivals.get((boat, slip.day)))
    return Slip(
        fish=slip.fish,
        alive=slip.alive,
        dead=slip.dead,
        short=slip.short,
        gross=weights.read(slip.gross, unit) if slip.gross else None,
        tare=weights.read(slip.tare, unit) if slip.tare else None,
        big_fish=weights.read(slip.big_fish, unit) if slip.big_fish else None,
        big_fish_alive=slip.big_fish_alive,
        largest_weights=read_largest(slip.largest_weights, unit) if slip.largest_weights else (),
        minutes_late=lateness(arrival, table.calendar, table.boats.get(boat, "")),
        extra_penalty=weights.read(slip.extra_penalty, unit) if slip.extra_penalty else None,
        extra_penalty_reason=slip.extra_penalty_reason,
        disqualified_reason=slip.disqualified_reason,
    )


def arrival_counted(slip: Any, arrival: Arrival | None) -> Any:
    """Whose time, minutes late and excused minutes count: the slip's own, or where it has no time the check-in table's.

    A slip's own time keeps the slip's own excuse; an excuse that stands alone on a slip goes before the table's.
    """
    if arrival is None or slip.checked_in is not None or slip.minutes_late is not None:
        return slip
    excused = slip.excused_minutes or arrival.excused_minutes
    return Arrival(arrival.day, arrival.checked_in, arrival.minutes_late, excused)


def arrivals_by_boat_and_day(lines: Iterable[Mapping[str, Any]]) -> dict[tuple[int, int], Arrival]:
    """What check-ins in plain values, in the order they were written, say of each (boat, day)."""
    written: dict[tuple[int, int], list[SimpleNamespace]] = {}
    for line in lines:
        written.setdefault((line["boat"], line["day"]), []).append(SimpleNamespace(**line))
    found = {(boat, day): arrival_of(day, mine) for (boat, day), mine in written.items()}
    return {key: arrival for key, arrival in found.items() if arrival is not None}


def arrival_of(day: int, lines: Iterable[Any]) -> Arrival | None:
    """The arrival that lines of one boat and day tell of, in the order they were written; None without any word of it."""
    came = minutes = None
    excused = ""
    for line in lines:
        if came is None and minutes is None:
            came, minutes = line.checked_in, line.minutes_late
        excused = line.excused_minutes or excused
    if came is None and minutes is None and not excused:
        return None
    return Arrival(day, came, minutes, excused)


def lateness(slip: Any, calendar: Calendar, flight: str) -> Fraction:
    """Minutes late before grace, exact and never negative.

    From the check-in clock: less the due time, less excused minutes. Or the whole minutes given, which take no excuse.
    """
    if slip.checked_in is None:
        return Fraction(slip.minutes_late or 0)
    # In UTC: two times of one zone would be subtracted by the clock on the wall, also where it was put forward
    late = slip.checked_in.astimezone(UTC) - calendar.due(slip.day, flight).astimezone(UTC)
    minutes = Fraction(late.days * 86400 + late.seconds, 60) + Fraction(late.microseconds, 60_000_000)
    excused = Fraction(Decimal(slip.excused_minutes)) if slip.excused_minutes else Fraction(0)
    return max(Fraction(0), minutes - excused)


def read_largest(text: str, unit: str) -> tuple[Decimal, ...]:
    """The written largest weights, in the event's unit. Raises ValueError with a sentence."""
    return values.items(text, lambda item: weights.read(item, unit))


class FieldReader:
    """Reads fields by name and collects what is wrong; what slips and check-ins have in common."""

    def __init__(self, written: Mapping[str, str | None], table: Table, current: bool = True):
        self.written = {name: (text or "").strip() for name, text in written.items()}
        self.table = table
        self.current = current
        self.faults: list[Fault] = []

    def value(self, name: str, read: Callable[[str], Any], default: Any = None) -> Any:
        text = self.written.get(name, "")
        if not text:
            return default
        try:
            return read(text)
        except ValueError as error:
            self.fault(name, str(error))
            return default

    def boat(self, name: str, required: bool = False) -> int | None:
        boat: int | None = self.value(name, lambda text: values.whole(text, least=1, most=2_000_000_000))
        if boat is not None and boat not in self.table.boats:
            self.fault(name, f"there is no boat {boat} in this event: correct the number or enter the team first")
        if required and not self.written.get(name):
            self.fault(name, "the boat is missing: write its number")
        return boat

    def day(self) -> int | None:
        days = self.table.calendar.days
        day: int | None = self.value("day", lambda text: values.whole(text, least=1, most=1000))
        if not self.written.get("day"):
            self.fault("day", "the day is missing: write its number, such as 1")
        elif day is not None and day not in days:
            self.fault("day", f"there is no day {day} in this event: it has {_days(len(days))}")
            return None
        elif day is not None and days[day].cancelled and self.current:
            self.fault("day", f"day {day} was cancelled: it has no slips")
        return day

    def no_excuse_beside_minutes(self, minutes_late: int | None, excused: str) -> None:
        """Whole minutes late take no excuse: what is excused is left out of them, or the clock is written instead."""
        if minutes_late is not None and Decimal(excused or 0):
            said = "excused_minutes stand beside minutes_late, which take no excuse: write the minutes less the excuse, or checked_in"
            self.fault("excused_minutes", said, "minutes_late")

    def fault(self, name: str, message: str, *also: str) -> None:
        self.faults.append(Fault(name, message, also))


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


def _days(count: int) -> str:
    return "1 day" if count == 1 else f"{count} days"
