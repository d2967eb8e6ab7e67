"""The rows behind each figure of a season's summary, a sheet for each."""

from collections.abc import Iterator, Sequence

from django.utils.translation import gettext, gettext_lazy

from weighin.advice.pages.season import season_lines
from weighin.mortality.domain.lake import in_unit
from weighin.mortality.domain.words import listed, some_of
from weighin.mortality.queries.days import good_and_bad
from weighin.mortality.queries.funnel_plot import funnel_plot_of
from weighin.mortality.queries.practices import Compared, compared, comparisons_said
from weighin.mortality.queries.season import SeasonMortality
from weighin.reports.domain.sheet import Sheet, SheetColumn, Value

LEVEL = gettext_lazy("Ranges are 95 %; rates and their limits are shares, shown in percent.")


def season_sheets(found: SeasonMortality) -> list[Sheet]:
    """Season, events, livewells, temperatures, events against chance alone, practices and holding studies."""
    return [
        _season(found),
        events_sheet(found),
        _livewells(found),
        _temperatures(found),
        _luck(found),
        _days(found),
        practices_sheet(compared(found)),
        _studies(found),
    ]


def _season(found: SeasonMortality) -> Sheet:
    rows: list[list[Value]] = [
        [line.name, line.of_which, line.count, line.rate, line.limits, None, None, None] for line in season_lines(found)
    ]
    pooled = found.pooled
    if pooled is not None:
        for name, rate in (
            (gettext("these very events"), pooled.these_events),
            (gettext("events like these"), pooled.such_events),
        ):
            rows.append(
                [
                    gettext("Range for %(name)s") % {"name": name},
                    gettext("%(clusters)s clusters, design effect %(design_effect)s")
                    % {"clusters": rate.clusters, "design_effect": f"{rate.design_effect:.4f}"},
                    some_of(found.dead, found.presented),
                    None,
                    None,
                    rate.rate,
                    rate.low,
                    rate.high,
                ]
            )
    return Sheet(
        title=gettext("Season"),
        columns=(
            SheetColumn(gettext("What happened")),
            SheetColumn(gettext("Of which fish")),
            SheetColumn(gettext("Dead of fish"), True),
            SheetColumn(gettext("In words"), True),
            SheetColumn(gettext("95 % range in words"), True),
            SheetColumn(gettext("Rate"), True, percent=True),
            SheetColumn(gettext("Low"), True, percent=True),
            SheetColumn(gettext("High"), True, percent=True),
        ),
        rows=rows,
    )


def events_sheet(found: SeasonMortality) -> Sheet:
    """A row an event, oldest first: counts, rate, limits, temperature."""
    return Sheet(
        title=gettext("Events"),
        columns=(
            SheetColumn(gettext("Event")),
            SheetColumn(gettext("Date")),
            SheetColumn(gettext("Water")),
            SheetColumn(gettext("Lake, °%(unit)s") % {"unit": found.unit}, True),
            SheetColumn(gettext("Livewells"), True),
            SheetColumn(gettext("Fish"), True),
            SheetColumn(gettext("Dead at the table"), True),
            SheetColumn(gettext("Dead at release"), True),
            SheetColumn(gettext("Kept"), True),
            SheetColumn(gettext("Rate"), True, percent=True),
            SheetColumn(gettext("Low"), True, percent=True),
            SheetColumn(gettext("High"), True, percent=True),
            SheetColumn(gettext("Design effect"), True),
            SheetColumn(gettext("Stop level"), True, percent=True),
        ),
        rows=[
            [
                line.event.name,
                line.event.date,
                line.event.water.name,
                in_unit(line.lake.mean, found.unit) if line.lake else None,
                line.found.clusters,
                line.found.presented,
                line.found.dead_at_table,
                line.found.dead_at_release,
                line.found.kept,
                line.found.initial,
                line.found.low,
                line.found.high,
                line.found.design_effect,
                line.stop,
            ]
            for line in found.events
        ],
        after=(
            str(LEVEL),
            gettext(
                "Rate: dead at the table or at release, of all fish brought to the scales; livewells are the clusters."
            ),
        ),
    )


def _livewells(found: SeasonMortality) -> Sheet:
    rows: list[list[Value]] = [
        [line.event.name, number, well.fish, well.dead_at_table, well.dead, well.kept]
        for line in found.fished
        for number, well in enumerate(line.wells, start=1)
    ]
    return Sheet(
        title=gettext("Livewells"),
        columns=(
            SheetColumn(gettext("Event")),
            SheetColumn(gettext("Livewell"), True),
            SheetColumn(gettext("Fish"), True),
            SheetColumn(gettext("Dead at the table"), True),
            SheetColumn(gettext("Dead by release"), True),
            SheetColumn(gettext("Kept"), True),
        ),
        rows=rows,
        after=(gettext("Livewells are numbered within the event; boats and names are left out."),),
    )


def _temperatures(found: SeasonMortality) -> Sheet:
    return Sheet(
        title=gettext("Temperature"),
        columns=(
            SheetColumn(gettext("Row")),
            SheetColumn(gettext("Lake, °%(unit)s") % {"unit": found.unit}, True),
            SheetColumn(gettext("Dead"), True),
            SheetColumn(gettext("Fish"), True),
            SheetColumn(gettext("Rate"), True, percent=True),
            SheetColumn(gettext("Low"), True, percent=True),
            SheetColumn(gettext("High"), True, percent=True),
        ),
        rows=list(_temperature_rows(found)),
        after=(found.temperature_curve.said, found.temperature_curve.test_said, str(LEVEL)),
    )


def _temperature_rows(found: SeasonMortality) -> Iterator[list[Value]]:
    for fahrenheit, rate in found.temperature_curve.points:
        warm = in_unit(fahrenheit, found.unit)
        yield ["event", warm, int(rate.dead), int(rate.n), rate.rate, rate.low, rate.high]
    for point in found.temperature_curve.curve:
        yield ["curve", in_unit(point.fahrenheit, found.unit), None, None, point.share, point.low, point.high]


def _luck(found: SeasonMortality) -> Sheet:
    drawn = funnel_plot_of(found)
    columns = [
        SheetColumn(gettext("Event")),
        *(
            SheetColumn(head, figures=True, percent=head not in ("Fish", "Dead"))
            for head in (
                gettext("Fish"),
                gettext("Dead"),
                gettext("Rate"),
                gettext("Chance alone, low"),
                gettext("Chance alone, high"),
            )
        ),
        SheetColumn(gettext("Outside")),
    ]
    rows: list[list[Value]] = [
        [line.event.name, line.found.presented, line.found.dead, line.found.initial, within.low, within.high, line in drawn.outside]
        for line, within in drawn.events
    ] if drawn else []  # fmt: skip
    said = (
        drawn.said
        if drawn
        else gettext("Too few events, or none or all of the fish dead: nothing can be said of chance.")
    )
    return Sheet(gettext("By chance alone"), columns, rows, after=(said, str(LEVEL)))


def _days(found: SeasonMortality) -> Sheet:
    parted = good_and_bad(found)
    columns = (
        gettext("Measured on the day"),
        gettext("Lowest rates"),
        gettext("Of which"),
        gettext("Highest rates"),
        gettext("Of which (highest)"),
    )
    return Sheet(
        title=gettext("Good and bad days"),
        columns=[SheetColumn(head) for head in columns],
        rows=[[row.name, *row.best, *row.worst] for row in parted.rows] if parted else [],
        after=(
            [
                gettext("Lowest: %(name)s.") % {"name": listed([line.event.name for line in parted.best])},
                gettext("Highest: %(name)s.") % {"name": listed([line.event.name for line in parted.worst])},
            ]
            if parted
            else [gettext("Too few events, or all of one rate.")]
        ),
    )


def practices_sheet(practices: Sequence[Compared]) -> Sheet:
    """Both sides of each practice on cooler and warmer days, then its odds."""
    return Sheet(
        title=gettext("Practices"),
        columns=(
            SheetColumn(gettext("Practice")),
            SheetColumn(gettext("Days")),
            SheetColumn(gettext("Boats with")),
            SheetColumn(gettext("Livewells"), True),
            SheetColumn(gettext("Dead"), True),
            SheetColumn(gettext("Fish"), True),
            SheetColumn(gettext("Rate"), True, percent=True),
            SheetColumn(gettext("Low"), True, percent=True),
            SheetColumn(gettext("High"), True, percent=True),
            SheetColumn(gettext("Odds ratio"), True),
            SheetColumn(gettext("Odds, low"), True),
            SheetColumn(gettext("Odds, high"), True),
        ),
        rows=list(_practice_rows(practices)),
        after=(
            gettext(
                "Odds compare boats of the same event (Mantel-Haenszel); adjusted in one logistic model. All are observations, not experiments."
            ),
            comparisons_said(practices),
        ),
    )


def _practice_rows(practices: Sequence[Compared]) -> Iterator[list[Value]]:
    for one in practices:
        for side in one.sides:
            for words, rate in ((one.practice.practised, side.practised), (one.practice.otherwise, side.otherwise)):
                if rate is not None:
                    counts: list[Value] = [rate.clusters, int(rate.dead), int(rate.n)]
                    yield [
                        one.practice.name,
                        side.days,
                        words,
                        *counts,
                        rate.rate,
                        rate.low,
                        rate.high,
                        None,
                        None,
                        None,
                    ]
        if one.odds is not None:
            odds: list[Value] = [one.odds.value, one.odds.low, one.odds.high]
            yield [
                one.practice.name,
                gettext("odds ratio, %(events)s events") % {"events": one.events},
                "",
                *[None] * 6,
                *odds,
            ]
        if one.adjusted is not None:
            odds = [one.adjusted.value, one.adjusted.low, one.adjusted.high]
            yield [one.practice.name, gettext("odds ratio, adjusted for the others"), "", *[None] * 6, *odds]


def _studies(found: SeasonMortality) -> Sheet:
    return Sheet(
        title=gettext("Holding studies"),
        columns=(
            SheetColumn(gettext("Event")),
            SheetColumn(gettext("Hours")),
            SheetColumn(gettext("Held"), True),
            SheetColumn(gettext("Dead"), True),
            SheetColumn(gettext("Missing"), True),
            SheetColumn(gettext("Pens"), True),
            SheetColumn(gettext("Reference held"), True),
            SheetColumn(gettext("Reference dead"), True),
            SheetColumn(gettext("Basis")),
            SheetColumn(gettext("Delayed"), True, percent=True),
            SheetColumn(gettext("Low"), True, percent=True),
            SheetColumn(gettext("High"), True, percent=True),
        ),
        rows=[
            [
                line.event.name,
                ", ".join(study.hours),
                study.tournament.fish,
                study.tournament.dead,
                study.tournament.missing,
                study.tournament.pens,
                study.reference.fish,
                study.reference.dead,
                study.basis,
                study.delayed.rate if study.delayed else None,
                study.delayed.low if study.delayed else None,
                study.delayed.high if study.delayed else None,
            ]
            for line in found.studies
            if (study := line.study) is not None
        ],
        after=(
            gettext(
                "Held and reference are fish looked at in the end, missing ones left out. No study: not known, never 0."
            ),
        ),
    )
