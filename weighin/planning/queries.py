"""What is known of an event's water, times and tanks, as the planner's first values."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import time, timedelta
from itertools import pairwise
from urllib.parse import urlencode

from django.db.models import Count
from django.utils.translation import gettext, gettext_lazy

from weighin.events.domain import temperatures
from weighin.events.domain.calendar import write_clock
from weighin.events.models import Event, EventDay
from weighin.events.queries.events import calendar_of, rules_of
from weighin.line.queries import OVER_MINUTES, terms_of
from weighin.livewell.figures.units import DEGREES_F_PER_C
from weighin.livewell.ice import kg_for_drop
from weighin.livewell.loading import HANDBOOK_KG_PER_L
from weighin.livewell.salt import kg_for_percent
from weighin.livewell.temperature.cooling import OKLAHOMA_STEP_C, STRICTEST_STEP_C
from weighin.planning.domain.care_plan import KANSAS_A_TANK, OKLAHOMA_A_TANK, SALT_PERCENT
from weighin.planning.domain.quantities import FISH, ICE, METRIC, US, VOLUME, Written, figure, read, rewritten, shown
from weighin.planning.domain.species import Fish, fish_of
from weighin.planning.domain.tanks import tank_volumes
from weighin.roster.models import Entry
from weighin.roster.queries import crew_of, named_anglers

HOLDING_HOURS = "2"  # how long a tank is planned for until somebody says otherwise
LEAST_STEP_C = 0.01  # a rule sheet that allows no cooling at all
EXAMPLE_TANK = "100 gal"  # the size Oklahoma's guidance speaks of
CONTESTANTS_A_TANK = (
    (gettext_lazy("Oklahoma’s guidance, tanks of 100 gal"), OKLAHOMA_A_TANK),
    (gettext_lazy("Kansas’s rule above 75 °F"), KANSAS_A_TANK),
)


@dataclass(frozen=True)
class TankLine:
    """A tank with its figures in the page's units, and the query that plans it."""

    name: str
    volume: str
    weighs: str
    most_fish: str
    salt: str
    ice: str
    query: str


def planner_values(event: Event, day: EventDay | None = None) -> dict[str, str]:
    """The blanks an event can fill on a day: lake, air, elevation, times, fish; blanks it cannot are left out.

    Left out, the day is the first that was not cancelled.
    """
    if day is None:
        days = list(event.event_days.all())
        day = next((each for each in days if each.status != EventDay.Status.CANCELLED), days[0] if days else None)
    rules = rules_of(event)
    kind = fish_of(rules.species)
    start = (day.start_time if day else None) or event.start_time
    elevation = event.elevation_ft or event.water.elevation_ft
    found = {
        "lake": _degrees((day.lake_temp if day else "") or event.lake_temp),
        "air": _degrees(day.air_temp if day else ""),
        "elevation": "" if elevation in ("", None) else f"{elevation} ft",
        "filled": write_clock(start.replace(second=0)),
        "hours": _hours(event, day),
        "fish": str(rules.fish_limit),
        "kind": kind.name,
        "each": kind.each,
    }
    return {name: value for name, value in found.items() if value}


def care_plan_values(event: Event, day: EventDay) -> dict[str, str]:
    """What a care plan of a day starts from: the teams, rules, water, flights and line of the event."""
    rules, terms = rules_of(event), terms_of(event)
    # Weeks before the day most teams wait for their boat number, and come all the same
    teams = Entry.everyone.filter(event=event, status=Entry.Status.ENTERED)
    crews = list(teams.annotate(named=Count("anglers")).values_list("named", flat=True))
    known = planner_values(event, day)
    due, apart = _due_times(event, day)
    return {
        "boats": str(len(crews) or 1),
        "anglers": str(sum(map(crew_of, crews)) or crew_of(0)),
        "fish": known["fish"],
        "each": known["each"],
        "lake": known.get("lake", ""),
        "tank": next((f"{volume} gal" for _, volume in _tanks(event)), EXAMPLE_TANK),
        "flights": str(len(due)),
        "apart": str(apart),
        "due": write_clock(due[-1]),
        "over": f"{OVER_MINUTES}",
        "scales": str(terms.scales),
        "boat_minutes": f"{terms.boat_seconds / 60:.2f}".rstrip("0").rstrip("."),
        "walk": f"{terms.walk_seconds / 60:.2f}".rstrip("0").rstrip("."),
        "limit": f"{float(rules.care_max_bag_minutes):g}",
    }


def _due_times(event: Event, day: EventDay) -> tuple[list[time], int]:
    """When the flights of a day are due, in their order, and the least minutes between two; one where there are none."""
    calendar = calendar_of(event)
    names = {name for name, number in calendar.flights if number in (None, day.number)}
    try:
        moments = sorted(calendar.due(day.number, name) for name in names or [""])
    except ValueError:  # the clocks skip one of the times that night
        return [day.due_time or event.due_time], 0
    gaps = [(later - sooner) // timedelta(minutes=1) for sooner, later in pairwise(moments)]
    return [moment.astimezone(calendar.zone).time() for moment in moments], min(gaps, default=0)


def step_of(event: Event) -> float:
    """The most a livewell may be below the lake, °C: by the rule sheet, but never more than any source allows."""
    return min(max(float(rules_of(event).care_max_cooling_f) / DEGREES_F_PER_C, LEAST_STEP_C), OKLAHOMA_STEP_C)


def units_of(event: Event) -> str:
    """The units the event is weighed in."""
    return METRIC if event.weight_unit == "kg" else US


def contestants(event: Event) -> tuple[int, int]:
    """The anglers of the boats that fish, and how many of those boats name none: they count as ``crew_of`` says."""
    boats = named_anglers(event, fishing=True).values()
    return sum(map(crew_of, boats)), sum(not named for named in boats)


def tanks_asked(anglers: int) -> list[tuple[str, int]]:
    """How many tanks the agencies' figures come to for so many contestants."""
    return [(str(words), -(-anglers // each)) for words, each in CONTESTANTS_A_TANK]


def tank_lines(event: Event, system: str, lake_c: float | None) -> list[TankLine]:
    """The event's tanks that have a volume, each once; one of Oklahoma's size where none is recorded."""
    volumes = {tank: f"{volume} gal" for tank, volume in _tanks(event)} or {gettext("A tank"): EXAMPLE_TANK}
    kind = fish_of(rules_of(event).species)
    return [_tank(name, volume, system, lake_c, kind) for name, volume in volumes.items()]


def _tanks(event: Event) -> Iterable[tuple[str, str]]:
    return [(tank, volume) for tank, volume in tank_volumes(event) if volume]


def _tank(name: str, volume: str, system: str, lake_c: float | None, kind: Fish) -> TankLine:
    written = read(volume, VOLUME, US)
    litres = written.si
    ice = "" if lake_c is None else _ice(litres, lake_c, system)
    return TankLine(
        name=name,
        volume=shown(litres, VOLUME, system),
        weighs=shown(litres, ICE, system),
        most_fish=shown(litres * HANDBOOK_KG_PER_L * 1000, FISH, system),
        salt=shown(kg_for_percent(litres, SALT_PERCENT), ICE, system, 1) if litres > 0 else "",
        ice=ice,
        query=_query(written, system, kind),
    )


def _query(volume: Written, system: str, kind: Fish) -> str:
    """The plan of a tank that is full by the handbook: the lid open, fish aboard from the start."""
    each = read(kind.each, FISH, US)
    fish = int(volume.si * HANDBOOK_KG_PER_L * 1000 / each.si)
    values = {
        "units": system,
        "well": rewritten(volume, VOLUME, system),
        "fish": str(min(max(fish, 1), 1000)),
        "kind": kind.name,
        "each": rewritten(each, FISH, system),
        "hours": HOLDING_HOURS,
        "lid": "open",
    }
    return urlencode(values)


def _ice(litres: float, lake_c: float, system: str) -> str:
    """Ice for one strictest step below the lake."""
    if litres <= 0 or not STRICTEST_STEP_C <= lake_c <= 40:
        return ""
    return (
        figure(kg_for_drop(litres, lake_c, lake_c - STRICTEST_STEP_C), ICE, system) + f"\u00a0{ICE.unit(system).word}"
    )


def _degrees(text: str) -> str:
    if not text:
        return ""
    try:
        return temperatures.air(text).written()
    except ValueError:
        return ""


def _hours(event: Event, day: EventDay | None) -> str:
    if day is None:
        return ""
    calendar = calendar_of(event)
    try:
        long = calendar.due(day.number) - calendar.start(day.number)
    except ValueError:  # the clocks skip one of the times that night
        return ""
    return f"{round(long / timedelta(hours=1), 2):g}" if long > timedelta(0) else ""
