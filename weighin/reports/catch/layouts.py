"""What each agency asks for: small templates of fields in their order, with the days within which the report is due.

From the agencies' rules as the project's trade notes sum them up. Rules change: the agency's own form goes first.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal

from weighin.reports.catch.figures import CatchFigures
from weighin.reports.catch.species import SpeciesCatch
from weighin.reports.sheet import Sheet, SheetColumn, Value, as_written
from weighin.roster.queries import UNNAMED_CREW
from weighin.rules.weights import rounded

NOT_RECORDED = "not recorded"
Lines = list[tuple[str, Value]]


@dataclass(frozen=True)
class Layout:
    """One agency's report: its name, the fields in order, and in how many days it is due (None: not known here)."""

    key: str
    name: str
    fields: tuple[str, ...]
    due_days: int | None = None

    def due(self, last_day: date) -> date | None:
        return None if self.due_days is None else last_day + timedelta(days=self.due_days)


WHO = ("event", "organizer", "contact", "water", "county", "ramp", "dates", "permit")
EVERYTHING = (
    *WHO, "boats", "anglers", "hours", "times", "prizes", "species", "weight_by_species", "fish", "weight",
    "kept_by_species", "released_by_species", "released", "kept", "dead", "fate", "winning", "big_fish", "registered",
    "success", "mean_weight", "fish_per_day", "pounds_per_day", "hours_per_large",
)  # fmt: skip
LAYOUTS = (
    Layout("full", "Everything", EVERYTHING),
    Layout(
        "connecticut", "Connecticut",
        (*WHO, "anglers", "hours", "species", "weight_by_species", "fish", "weight", "released", "kept", "dead", "fate"), 7,
    ),
    Layout("vermont", "Vermont", (*WHO, "anglers", "registered", "species", "fish", "released")),
    Layout(
        "wisconsin", "Wisconsin",
        (*WHO, "anglers", "boats", "prizes", "times", "species", "fish", "kept_by_species", "released_by_species", "kept",
         "released", "dead", "fate"),
    ),
    Layout("north-dakota", "North Dakota", (*WHO, "anglers", "species", "fish")),
    Layout(
        "minnesota", "Minnesota",
        (*WHO, "boats", "anglers", "hours", "species", "weight_by_species", "fish", "weight", "released", "kept", "dead", "fate"), 30,
    ),
    Layout(
        "kansas", "Kansas",
        (*WHO, "anglers", "hours", "species", "weight_by_species", "fish", "weight", "released", "dead", "fate"), 30,
    ),
    Layout(
        "alabama", "Alabama's five indicators",
        (*WHO, "boats", "anglers", "hours", "fish", "weight", "success", "mean_weight", "fish_per_day", "pounds_per_day",
         "hours_per_large", "dead", "winning", "big_fish"),
    ),
)  # fmt: skip
BY_KEY = {layout.key: layout for layout in LAYOUTS}


def report_lines(figures: CatchFigures, layout: Layout) -> Lines:
    """The report as label and value, in the layout's order."""
    return [line for name in layout.fields for line in _FIELDS[name](figures)]


def report_sheet(figures: CatchFigures, layout: Layout) -> Sheet:
    """The report as a sheet for CSV, XLSX and PDF."""
    title = figures.events[0] if len(figures.events) == 1 else f"{figures.club}, {len(figures.events)} events"
    return Sheet(
        f"Catch report, {title}",
        (SheetColumn("What", width=2), SheetColumn("Figure", width=3)),
        report_lines(figures, layout),
        after=notes(figures),
    )


def notes(figures: CatchFigures) -> tuple[str, ...]:
    """What must be read with the figures: how hours, anglers, species and large fish were counted."""
    return (
        "Counted from the weigh slips that count; the dead at the release are those of the release record too.",
        "Hours are each boat's own: anglers times the hours from its flight's launch or the day's start to its due time, as moved, on "
        "the days it fished. Days after a missed cut, a withdrawal or an absence do not count; check-ins, early or late, do "
        "not change them.",
        *_shortened(figures),
        *_unnamed(figures),
        *_not_told_apart(figures),
        "Large fish are those whose weight was recorded, so they are the least there were.",
        "The agency's own form and the permit go before this layout.",
    )


def _shortened(figures: CatchFigures) -> Iterator[str]:
    if figures.shortened:
        days = "1 shortened day counts" if figures.shortened == 1 else f"{figures.shortened} shortened days count"
        yield f"{days} half the hours, because no earlier due time was recorded."


def _unnamed(figures: CatchFigures) -> Iterator[str]:
    if figures.unnamed:
        boats = "1 boat names no angler" if figures.unnamed == 1 else f"{figures.unnamed} boats name no angler"
        yield f"{boats}: how many fished there is not known, and {UNNAMED_CREW} a boat are counted."


def _not_told_apart(figures: CatchFigures) -> Iterator[str]:
    if any(not one.mixed for one in figures.species) and any(one.mixed for one in figures.species):
        yield (
            "A weight, a dead or a kept fish has a species where its bag held one species alone; of mixed bags it was not "
            "recorded, and they stand under 'not told apart'."
        )


def _one(label: str, value: Callable[[CatchFigures], Value]) -> Callable[[CatchFigures], Lines]:
    return lambda figures: [(label, value(figures))]


def _figure(value: Decimal | None, places: int = 2) -> Value:
    return "not known" if value is None else rounded(value, places)


def _dates(figures: CatchFigures) -> str:
    first, last = figures.first_day.isoformat(), figures.last_day.isoformat()
    return first if first == last else f"{first} to {last}"


def _species(label: str, count: Callable[[SpeciesCatch], Value]) -> Callable[[CatchFigures], Lines]:
    """A line for each species; the line of what was not told apart only where it says something."""
    return lambda figures: [
        (f"{label}, {one.name}", count(one))
        for one in figures.species
        if not one.mixed or count(one) or not _told(figures)
    ]


def _released(one: SpeciesCatch) -> Value:
    if one.released >= 0:
        return one.released
    return f"{-one.released} fewer than the lines above: dead in batches of several boats, species not recorded"


def _told(figures: CatchFigures) -> bool:
    return any(not one.mixed for one in figures.species)


def _weight_by_species(figures: CatchFigures) -> Lines:
    """Pounds by species where a bag held one species alone."""
    label = "Weight registered, lb"
    return [
        (
            f"{label}, {one.name}",
            rounded(one.pounds) if one.pounds or not one.fish else "not recorded: only in mixed bags",
        )
        for one in figures.species
        if one.fish or one.pounds
    ] or [(f"{label}, by species", "no fish")]


def _participants(figures: CatchFigures) -> Value:
    if not figures.unnamed:
        return figures.anglers
    return f"{figures.anglers}, of them {UNNAMED_CREW * figures.unnamed} counted for {figures.unnamed} of {figures.boats} boats without names"


def _registered(figures: CatchFigures) -> Lines:
    if figures.per_angler:
        return [("Participants with a fish registered", figures.registered)]
    return [
        ("Boats with a fish registered", f"{figures.registered} of {figures.boats} boats"),
        ("Participants with a fish registered", "not known: a boat's fish are not recorded by angler"),
    ]


def _success(figures: CatchFigures) -> Lines:
    who = "anglers" if figures.per_angler else "boats"
    rate = figures.indicators.percent_success
    value = "not known" if rate is None else f"{rounded(rate, 1)} % ({figures.successful} of {figures.boats} {who})"
    why = "" if figures.per_angler else "; by angler it is not known"
    return [(f"Percent success ({who} with a fish weighed{why})", value)]


def _dead(figures: CatchFigures) -> str:
    later = figures.dead - figures.dead_at_table
    return f"{figures.dead} of {figures.fish}: {figures.dead_at_table} at the table, {later} by the release"


def _times(figures: CatchFigures) -> Lines:
    if not figures.times:
        return [("Start and stop", "differs by event")]
    return [("Start and stop", "\n".join(figures.times))]


_FIELDS: dict[str, Callable[[CatchFigures], Lines]] = {
    "event": _one("Event", lambda f: ", ".join(f.events)),
    "organizer": _one("Organizer", lambda f: f.club),
    "contact": _one("Contact", lambda f: f.contact or NOT_RECORDED),
    "water": _one("Water", lambda f: f.water),
    "county": _one("County", lambda f: f.county or NOT_RECORDED),
    "ramp": _one("Ramp", lambda f: f.ramp or NOT_RECORDED),
    "dates": _one("Dates", _dates),
    "permit": _one("Permit", lambda f: f.permit or NOT_RECORDED),
    "boats": _one("Boats", lambda f: f.boats),
    "anglers": _one("Participants", _participants),
    "registered": _registered,
    "hours": _one("Total hours fished (anglers times hours)", lambda f: _figure(f.angler_hours, 1)),
    "times": _times,
    "prizes": _one("Prize value", lambda f: rounded(f.prize_value)),
    "species": _species("Number registered", lambda one: one.fish),
    "weight_by_species": _weight_by_species,
    "kept_by_species": _species("Kept", lambda one: one.kept),
    "released_by_species": _species("Released alive", _released),
    "fish": _one("Fish registered", lambda f: f.fish),
    "weight": lambda f: [("Weight registered, lb", rounded(f.pounds)), ("Fish weighed", f.weighed)],
    "released": _one("Released alive", lambda f: f.released_alive),
    "kept": _one("Kept", lambda f: f.kept),
    "dead": _one("Dead by release", _dead),
    "fate": _one("What became of dead fish", lambda f: f.fate or ("no fish died" if not f.dead else NOT_RECORDED)),
    "winning": _one("Winning weight, lb", lambda f: _figure(f.winning_weight)),
    "big_fish": _one("Big fish, lb", lambda f: _figure(f.big_fish)),
    "success": _success,
    "mean_weight": _one("Mean weight of a fish weighed, lb", lambda f: _figure(f.indicators.mean_weight)),
    "fish_per_day": _one("Fish registered per angler-day of 10 hours", lambda f: _figure(f.indicators.fish_per_day)),
    "pounds_per_day": _one("Pounds per angler-day of 10 hours", lambda f: _figure(f.indicators.pounds_per_day)),
    "hours_per_large": lambda f: [
        (
            f"Hours per fish of {rounded(f.large_lb)} lb or more",
            f"at most {as_written(_figure(f.indicators.hours_per_large, 0))} ({f.large} recorded)"
            if f.large
            else "none was recorded",
        )
    ],
}
