"""The tanks of an event on one day: their readings worked out, what is wrong with each, and what it waits for."""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property

from weighin.events.domain.care_context import CareContext
from weighin.events.domain.clock import clock
from weighin.events.models import Event
from weighin.rules.look_alikes import folded_name
from weighin.tanks.domain.judging import STOP, Alarm, alarms, overdue
from weighin.tanks.domain.measured import Measured, measured
from weighin.tanks.domain.water import BuildUp, WaterDue, build_up, water_due
from weighin.tanks.models import TankReading, Treatment


@dataclass(frozen=True)
class Tank:
    """A tank's day: its readings by time, the last of them, its alarms, and what was put in."""

    name: str
    care_context: CareContext
    readings: Sequence[Measured]
    treatments: Sequence[Treatment]

    @property
    def now(self) -> Measured:
        """The last reading."""
        return self.readings[-1]

    @property
    def day(self) -> int:
        return self.now.reading.day

    @property
    def last_read(self) -> str:
        """When, by the event's clock."""
        return clock(self.now.at, self.care_context.calendar, self.day)

    @cached_property
    def alarms(self) -> list[Alarm]:
        """What is wrong by the last reading, and whether the next one is due."""
        found = alarms(self.now, self.care_context.rules, self.care_context.lake(self.day))
        late = overdue(self.now, self.care_context.now, going=self.care_context.going == self.day)
        return [*found, late] if late else found

    @property
    def needs_somebody(self) -> bool:
        return any(alarm.level == STOP for alarm in self.alarms)

    @cached_property
    def due(self) -> WaterDue | None:
        return water_due(self.readings, self.treatments)

    @cached_property
    def build_up(self) -> BuildUp | None:
        return build_up(self.now)


def tanks_of(
    care_context: CareContext, day: int, readings: Iterable[TankReading], treatments: Iterable[Treatment]
) -> list[Tank]:
    """The tanks read on a day, those that need somebody first, then by name.

    A tank is the same by its name without regard to case and spacing; its volume may stand in any of its readings.
    """
    of_tank: dict[str, list[TankReading]] = defaultdict(list)
    put_in: dict[str, list[Treatment]] = defaultdict(list)
    volumes: dict[str, str] = {}
    for reading in readings:
        key = folded_name(reading.tank)
        if reading.volume_gal:
            volumes[key] = reading.volume_gal
        if reading.day == day:
            of_tank[key].append(reading)
    for treatment in treatments:
        if treatment.day == day:
            put_in[folded_name(treatment.tank)].append(treatment)
    tanks = []
    for key, rows in of_tank.items():
        rows.sort(key=lambda row: (row.time, row.pk))
        worked_out = [measured(row, care_context, volumes.get(key, "")) for row in rows]
        tanks.append(Tank(rows[-1].tank, care_context, worked_out, put_in[key]))
    return sorted(tanks, key=lambda tank: (not tank.needs_somebody, not tank.alarms, tank.name.casefold()))


def known_readings(event: Event) -> list[TankReading]:
    """The event's readings, first to last; before its first one those of the club's last event that has some, so that
    its tanks need not be named again."""
    found = list(event.tank_readings.order_by("day", "time", "id"))
    if found:
        return found
    others = TankReading.objects.filter(
        event__season__club=event.club, event__date__lte=event.date, event__rehearsal_of=None
    )
    last = others.exclude(event=event).order_by("-event__date", "-event_id").values("event_id")[:1]
    return list(TankReading.objects.filter(event__in=last).order_by("day", "time", "id"))


def tank_names(readings: Iterable[TankReading]) -> list[str]:
    """The names of an event's tanks, each once, as last written."""
    return sorted({folded_name(reading.tank): reading.tank for reading in readings}.values(), key=str.casefold)


def volumes_of(event: Event) -> list[tuple[str, str]]:
    """The tank of each reading, with its volume in gallons as written, or blank."""
    return list(TankReading.objects.filter(event=event).order_by("tank", "id").values_list("tank", "volume_gal"))
