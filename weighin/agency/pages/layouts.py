"""What each agency asks for: small templates of fields in their order, with the days within which the report is due.

From the agencies' rules as the project's trade notes sum them up. Rules change: the agency's own form goes first.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal

from django.utils.functional import Promise
from django.utils.translation import gettext, gettext_lazy, ngettext

from weighin.agency.domain.species import SpeciesCatch
from weighin.agency.queries.catch import CatchFigures, DayTimes
from weighin.reports.domain.sheet import Sheet, SheetColumn, Value, as_written
from weighin.roster.queries import UNNAMED_CREW
from weighin.rules.weights import rounded
from weighin.ui.figures import clock, day

Lines = list[tuple[str, Value]]


@dataclass(frozen=True)
class Layout:
    """One agency's report: its name, the fields in order, and in how many days it is due (None: not known here)."""

    key: str
    name: str | Promise
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
    Layout("full", gettext_lazy("Everything"), EVERYTHING),
    Layout(
        "connecticut", gettext_lazy("Connecticut"),
        (*WHO, "anglers", "hours", "species", "weight_by_species", "fish", "weight", "released", "kept", "dead", "fate"), 7,
    ),
    Layout("vermont", gettext_lazy("Vermont"), (*WHO, "anglers", "registered", "species", "fish", "released")),
    Layout(
        "wisconsin", gettext_lazy("Wisconsin"),
        (*WHO, "anglers", "boats", "prizes", "times", "species", "fish", "kept_by_species", "released_by_species", "kept",
         "released", "dead", "fate"),
    ),
    Layout("north-dakota", gettext_lazy("North Dakota"), (*WHO, "anglers", "species", "fish")),
    Layout(
        "minnesota", gettext_lazy("Minnesota"),
        (*WHO, "boats", "anglers", "hours", "species", "weight_by_species", "fish", "weight", "released", "kept", "dead", "fate"), 30,
    ),
    Layout(
        "kansas", gettext_lazy("Kansas"),
        (*WHO, "anglers", "hours", "species", "weight_by_species", "fish", "weight", "released", "dead", "fate"), 30,
    ),
    Layout(
        "alabama", gettext_lazy("Alabama’s five indicators"),
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
    title = (
        figures.events[0]
        if len(figures.events) == 1
        else gettext("%(club)s, %(events)s events") % {"club": figures.club, "events": len(figures.events)}
    )
    return Sheet(
        gettext("Catch report, %(title)s") % {"title": title},
        (SheetColumn(gettext("What"), width=2), SheetColumn(gettext("Figure"), width=3)),
        report_lines(figures, layout),
        after=notes(figures),
    )


def notes(figures: CatchFigures) -> tuple[str, ...]:
    """What must be read with the figures: how hours, anglers, species and large fish were counted."""
    return (
        gettext(
            "Counted from the weigh slips that count; the dead at the release are those of the release record too."
        ),
        (
            gettext(
                "Hours are each boat’s own: anglers times the hours from its flight’s launch or the day’s start to its due time, "
                "as moved, on the days it fished. Days after a missed cut, a withdrawal or an absence do not count; check-ins, "
                "early or late, do not change them."
            )
        ),
        *_shortened(figures),
        *_unnamed(figures),
        *_not_told_apart(figures),
        gettext("Large fish are those whose weight was recorded, so they are the least there were."),
        gettext("The agency’s own form and the permit go before this layout."),
    )


def _shortened(figures: CatchFigures) -> Iterator[str]:
    if figures.shortened:
        yield ngettext(
            "%(n)s shortened day counts half the hours, because no earlier due time was recorded.",
            "%(n)s shortened days count half the hours, because no earlier due time was recorded.",
            figures.shortened,
        ) % {"n": figures.shortened}


def _unnamed(figures: CatchFigures) -> Iterator[str]:
    if figures.unnamed:
        yield ngettext(
            "%(n)s boat names no angler: how many fished there is not known, and %(crew)s a boat are counted.",
            "%(n)s boats name no angler: how many fished there is not known, and %(crew)s a boat are counted.",
            figures.unnamed,
        ) % {"n": figures.unnamed, "crew": UNNAMED_CREW}


def _not_told_apart(figures: CatchFigures) -> Iterator[str]:
    if any(not one.mixed for one in figures.species) and any(one.mixed for one in figures.species):
        yield (
            gettext(
                "A weight, a dead or a kept fish has a species where its bag held one species alone; of mixed bags it was not "
                "recorded, and they stand under 'not told apart'."
            )
        )


def _not_recorded() -> str:
    return gettext("not recorded")


def _one(label: Promise, value: Callable[[CatchFigures], Value]) -> Callable[[CatchFigures], Lines]:
    return lambda figures: [(str(label), value(figures))]


def _figure(value: Decimal | None, places: int = 2) -> Value:
    return gettext("not known") if value is None else rounded(value, places)


def _dates(figures: CatchFigures) -> str:
    first, last = day(figures.first_day), day(figures.last_day)
    return first if first == last else gettext("%(first)s to %(last)s") % {"first": first, "last": last}


def _species(label: Promise, count: Callable[[SpeciesCatch], Value]) -> Callable[[CatchFigures], Lines]:
    """A line for each species; the line of what was not told apart only where it says something."""
    return lambda figures: [
        (f"{label}, {one.name}", count(one))
        for one in figures.species
        if not one.mixed or count(one) or not _told(figures)
    ]


def _released(one: SpeciesCatch) -> Value:
    if one.released >= 0:
        return one.released
    return gettext(
        "%(released)s fewer than the lines above: dead in batches of several boats, species not recorded"
    ) % {"released": -one.released}


def _told(figures: CatchFigures) -> bool:
    return any(not one.mixed for one in figures.species)


def _weight_by_species(figures: CatchFigures) -> Lines:
    """Pounds by species where a bag held one species alone."""
    return [
        (
            gettext("Weight registered, lb, %(species)s") % {"species": one.name},
            rounded(one.pounds) if one.pounds or not one.fish else gettext("not recorded: only in mixed bags"),
        )
        for one in figures.species
        if one.fish or one.pounds
    ] or [(gettext("Weight registered, lb, by species"), gettext("no fish"))]


def _participants(figures: CatchFigures) -> Value:
    if not figures.unnamed:
        return figures.anglers
    return gettext("%(anglers)s, of them %(unnamed_crew)s counted for %(unnamed)s of %(boats)s boats without names") % {
        "anglers": figures.anglers,
        "unnamed_crew": UNNAMED_CREW * figures.unnamed,
        "unnamed": figures.unnamed,
        "boats": figures.boats,
    }


def _registered(figures: CatchFigures) -> Lines:
    if figures.per_angler:
        return [(gettext("Participants with a fish registered"), figures.registered)]
    return [
        (
            gettext("Boats with a fish registered"),
            gettext("%(registered)s of %(boats)s boats") % {"registered": figures.registered, "boats": figures.boats},
        ),
        (
            gettext("Participants with a fish registered"),
            gettext("not known: a boat’s fish are not recorded by angler"),
        ),
    ]


def _success(figures: CatchFigures) -> Lines:
    rate, of = figures.indicators.percent_success, {"some": figures.successful, "every": figures.boats}
    if figures.per_angler:
        label = gettext("Percent success (anglers with a fish weighed)")
        value = gettext("%(rate)s %% (%(some)s of %(every)s anglers)")
    else:
        label = gettext("Percent success (boats with a fish weighed; by angler it is not known)")
        value = gettext("%(rate)s %% (%(some)s of %(every)s boats)")
    return [(label, gettext("not known") if rate is None else value % {"rate": rounded(rate, 1), **of})]


def _dead(figures: CatchFigures) -> str:
    later = figures.dead - figures.dead_at_table
    return gettext("%(dead)s of %(fish)s: %(dead_at_table)s at the table, %(later)s by the release") % {
        "dead": figures.dead,
        "fish": figures.fish,
        "dead_at_table": figures.dead_at_table,
        "later": later,
    }


def _times(figures: CatchFigures) -> Lines:
    if not figures.times:
        return [(gettext("Start and stop"), gettext("differs by event"))]
    return [(gettext("Start and stop"), "\n".join(_said(one) for one in figures.times))]


def _said(one: DayTimes) -> str:
    """A day with its hours, and whose they are where the flights differ."""
    none = gettext("no flight")
    told = []
    for (start, stop), flights in one.hours.items():
        clocks = gettext("%(start)s to %(stop)s") % {"start": clock(start), "stop": clock(stop)}
        named = f" ({', '.join(name or none for name in flights)})" if len(one.hours) > 1 else ""
        told.append(f"{clocks}{named}")
    return f"{day(one.date)}, {'; '.join(told)}"


_FIELDS: dict[str, Callable[[CatchFigures], Lines]] = {
    "event": _one(gettext_lazy("Event"), lambda f: ", ".join(f.events)),
    "organizer": _one(gettext_lazy("Organizer"), lambda f: f.club),
    "contact": _one(gettext_lazy("Contact"), lambda f: f.contact or _not_recorded()),
    "water": _one(gettext_lazy("Water"), lambda f: f.water),
    "county": _one(gettext_lazy("County"), lambda f: f.county or _not_recorded()),
    "ramp": _one(gettext_lazy("Ramp"), lambda f: f.ramp or _not_recorded()),
    "dates": _one(gettext_lazy("Dates"), _dates),
    "permit": _one(gettext_lazy("Permit"), lambda f: f.permit or _not_recorded()),
    "boats": _one(gettext_lazy("Boats"), lambda f: f.boats),
    "anglers": _one(gettext_lazy("Participants"), _participants),
    "registered": _registered,
    "hours": _one(gettext_lazy("Total hours fished (anglers times hours)"), lambda f: _figure(f.angler_hours, 1)),
    "times": _times,
    "prizes": _one(gettext_lazy("Prize value"), lambda f: rounded(f.prize_value)),
    "species": _species(gettext_lazy("Number registered"), lambda one: one.fish),
    "weight_by_species": _weight_by_species,
    "kept_by_species": _species(gettext_lazy("Kept"), lambda one: one.kept),
    "released_by_species": _species(gettext_lazy("Released alive"), _released),
    "fish": _one(gettext_lazy("Fish registered"), lambda f: f.fish),
    "weight": lambda f: [(gettext("Weight registered, lb"), rounded(f.pounds)), (gettext("Fish weighed"), f.weighed)],
    "released": _one(gettext_lazy("Released alive"), lambda f: f.released_alive),
    "kept": _one(gettext_lazy("Kept"), lambda f: f.kept),
    "dead": _one(gettext_lazy("Dead by release"), _dead),
    "fate": _one(
        gettext_lazy("What became of dead fish"),
        lambda f: f.fate or (gettext("no fish died") if not f.dead else _not_recorded()),
    ),
    "winning": _one(gettext_lazy("Winning weight, lb"), lambda f: _figure(f.winning_weight)),
    "big_fish": _one(gettext_lazy("Big fish, lb"), lambda f: _figure(f.big_fish)),
    "success": _success,
    "mean_weight": _one(gettext_lazy("Mean weight of a fish weighed, lb"), lambda f: _figure(f.indicators.mean_weight)),
    "fish_per_day": _one(
        gettext_lazy("Fish registered per angler-day of 10 hours"), lambda f: _figure(f.indicators.fish_per_day)
    ),
    "pounds_per_day": _one(
        gettext_lazy("Pounds per angler-day of 10 hours"), lambda f: _figure(f.indicators.pounds_per_day)
    ),
    "hours_per_large": lambda f: [
        (
            gettext("Hours per fish of %(rounded)s lb or more") % {"rounded": rounded(f.large_lb)},
            gettext("at most %(as_written)s (%(large)s recorded)")
            % {"as_written": as_written(_figure(f.indicators.hours_per_large, 0)), "large": f.large}
            if f.large
            else gettext("none was recorded"),
        )
    ],
}
