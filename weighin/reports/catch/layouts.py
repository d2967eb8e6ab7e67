"""What each agency asks for: small templates of fields in their order, with the days within which the report is due.

From the agencies' rules as the project's trade notes sum them up. Rules change: the agency's own form goes first.
"""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal

from weighin.reports.catch.figures import CatchFigures
from weighin.reports.sheet import Sheet, SheetColumn
from weighin.rules.weights import rounded

Lines = list[tuple[str, str]]


@dataclass(frozen=True)
class Layout:
    """One agency's report: its name, the fields in order, and in how many days it is due (None: not known here)."""

    key: str
    name: str
    fields: tuple[str, ...]
    due_days: int | None = None

    def due(self, last_day: date) -> date | None:
        return None if self.due_days is None else last_day + timedelta(days=self.due_days)


EVERYTHING = (
    "event", "water", "dates", "permit", "boats", "anglers", "hours", "times", "prizes", "species", "fish", "weight",
    "released", "kept", "dead", "winning", "big_fish", "success", "mean_weight", "fish_per_day", "pounds_per_day",
    "hours_per_large",
)  # fmt: skip
LAYOUTS = (
    Layout("full", "Everything", EVERYTHING),
    Layout("connecticut", "Connecticut", ("event", "water", "dates", "anglers", "hours", "species", "weight", "released", "kept"), 7),
    Layout("vermont", "Vermont", ("event", "water", "dates", "anglers", "successful", "species", "released")),
    Layout("wisconsin", "Wisconsin", ("event", "water", "dates", "anglers", "boats", "prizes", "times", "species", "kept", "released")),
    Layout("north-dakota", "North Dakota", ("event", "water", "dates", "anglers", "species")),
    Layout("minnesota", "Minnesota", ("event", "water", "dates", "permit", "boats", "anglers", "hours", "species", "weight", "released", "kept", "dead"), 30),
    Layout("kansas", "Kansas", ("event", "water", "dates", "permit", "anglers", "hours", "species", "weight", "released", "dead"), 30),
    Layout(
        "alabama",
        "Alabama's five indicators",
        ("event", "water", "dates", "anglers", "hours", "fish", "weight", "success", "mean_weight", "fish_per_day", "pounds_per_day", "hours_per_large"),
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
        after=(
            "Counted from the weigh slips. Large fish are those whose weight was written down, so they are the least there were.",
            "The agency's own form and the permit go before this layout.",
        ),
    )


def _one(label: str, value: Callable[[CatchFigures], str]) -> Callable[[CatchFigures], Lines]:
    return lambda figures: [(label, value(figures))]


def _figure(value: Decimal | None, places: int = 2, unit: str = "") -> str:
    return "not known" if value is None else f"{rounded(value, places):,}{unit}"


def _dates(figures: CatchFigures) -> str:
    first, last = figures.first_day.isoformat(), figures.last_day.isoformat()
    return first if first == last else f"{first} to {last}"


_FIELDS: dict[str, Callable[[CatchFigures], Lines]] = {
    "event": _one("Event", lambda f: ", ".join(f.events)),
    "water": _one("Water", lambda f: f.water),
    "dates": _one("Dates", _dates),
    "permit": _one("Permit", lambda f: f.permit or "not written down"),
    "boats": _one("Boats", lambda f: str(f.boats)),
    "anglers": _one("Participants", lambda f: str(f.anglers)),
    "successful": _one("Participants with a fish registered", lambda f: str(f.successful)),
    "hours": _one("Total hours fished (anglers times hours)", lambda f: _figure(f.angler_hours, 1)),
    "times": _one("Start and stop", lambda f: f"{f.start} to {f.stop}" if f.start else "differs by event"),
    "prizes": _one("Prize value", lambda f: f"{f.prize_value:,.2f}"),
    "species": lambda f: [(f"Number registered, {name}", str(count)) for name, count in f.by_species],
    "fish": _one("Fish registered", lambda f: str(f.fish)),
    "weight": _one("Weight registered, lb", lambda f: _figure(f.pounds)),
    "released": _one("Released alive", lambda f: str(f.released_alive)),
    "kept": _one("Kept", lambda f: str(f.kept)),
    "dead": _one("Dead by release", lambda f: f"{f.dead} of {f.fish}"),
    "winning": _one("Winning weight, lb", lambda f: _figure(f.winning_weight)),
    "big_fish": _one("Big fish, lb", lambda f: _figure(f.big_fish)),
    "success": _one(
        "Percent success (anglers with a fish weighed)",
        lambda f: f"{_figure(f.indicators.percent_success, 1, ' %')} ({f.successful} of {f.anglers})",
    ),
    "mean_weight": _one("Mean weight of a fish, lb", lambda f: _figure(f.indicators.mean_weight)),
    "fish_per_day": _one("Fish per angler-day of 10 hours", lambda f: _figure(f.indicators.fish_per_day)),
    "pounds_per_day": _one("Pounds per angler-day of 10 hours", lambda f: _figure(f.indicators.pounds_per_day)),
    "hours_per_large": lambda f: [
        (
            f"Hours per fish of {rounded(f.large_lb)} lb or more",
            f"at most {_figure(f.indicators.hours_per_large, 0)} ({f.large} written down)"
            if f.large
            else "none was written down",
        )
    ],
}
