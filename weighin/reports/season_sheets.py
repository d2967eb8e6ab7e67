"""The rows behind each figure of a season's summary, a sheet for each."""

from collections.abc import Iterator, Sequence

from weighin.mortality.chance import funnel_of
from weighin.mortality.days import good_and_bad
from weighin.mortality.lake import in_unit
from weighin.mortality.practices import Compared, compared, comparisons_said
from weighin.mortality.season import SeasonMortality
from weighin.mortality.season_page import season_lines
from weighin.mortality.words import listed
from weighin.reports.sheet import Sheet, SheetColumn, Value

LEVEL = "Ranges are 95 %; rates and their limits are shares, shown in per cent."


def season_sheets(found: SeasonMortality) -> list[Sheet]:
    """Season, events, livewells, temperatures, events against chance alone, practices and holding studies."""
    return [
        _season(found),
        events_sheet(found),
        _livewells(found),
        _temperatures(found),
        _luck(found),
        _days(found),
        _practices(found),
        _studies(found),
    ]


def _season(found: SeasonMortality) -> Sheet:
    rows: list[list[Value]] = [
        [line.name, line.of_which, line.count, line.rate, line.limits, None, None, None] for line in season_lines(found)
    ]
    pooled = found.pooled
    if pooled is not None:
        for name, rate in (("these very events", pooled.these_events), ("events like these", pooled.such_events)):
            rows.append(
                [
                    f"Range for {name}",
                    f"{rate.clusters} clusters, design effect {rate.design_effect:.4f}",
                    f"{found.dead} of {found.presented}",
                    None,
                    None,
                    rate.rate,
                    rate.low,
                    rate.high,
                ]
            )
    return Sheet(
        title="Season",
        columns=(
            SheetColumn("What happened"),
            SheetColumn("Of which fish"),
            SheetColumn("Dead of fish", True),
            SheetColumn("In words", True),
            SheetColumn("95 % range in words", True),
            SheetColumn("Rate", True, percent=True),
            SheetColumn("Low", True, percent=True),
            SheetColumn("High", True, percent=True),
        ),
        rows=rows,
    )


def events_sheet(found: SeasonMortality) -> Sheet:
    """A row an event, oldest first: counts, rate, limits, temperature."""
    return Sheet(
        title="Events",
        columns=(
            SheetColumn("Event"),
            SheetColumn("Date"),
            SheetColumn("Water"),
            SheetColumn(f"Lake, °{found.unit}", True),
            SheetColumn("Livewells", True),
            SheetColumn("Fish", True),
            SheetColumn("Dead at the table", True),
            SheetColumn("Dead at release", True),
            SheetColumn("Kept", True),
            SheetColumn("Rate", True, percent=True),
            SheetColumn("Low", True, percent=True),
            SheetColumn("High", True, percent=True),
            SheetColumn("Design effect", True),
            SheetColumn("Stop level", True, percent=True),
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
            LEVEL,
            "Rate: dead at the table or at release, of all fish brought to the scales; livewells are the clusters.",
        ),
    )


def _livewells(found: SeasonMortality) -> Sheet:
    rows: list[list[Value]] = [
        [line.event.name, number, well.fish, well.dead_at_table, well.dead, well.kept]
        for line in found.fished
        for number, well in enumerate(line.wells, start=1)
    ]
    return Sheet(
        title="Livewells",
        columns=(
            SheetColumn("Event"),
            SheetColumn("Livewell", True),
            SheetColumn("Fish", True),
            SheetColumn("Dead at the table", True),
            SheetColumn("Dead by release", True),
            SheetColumn("Kept", True),
        ),
        rows=rows,
        after=("Livewells are numbered within the event; boats and names are left out.",),
    )


def _temperatures(found: SeasonMortality) -> Sheet:
    return Sheet(
        title="Temperature",
        columns=(
            SheetColumn("Row"),
            SheetColumn(f"Lake, °{found.unit}", True),
            SheetColumn("Dead", True),
            SheetColumn("Fish", True),
            SheetColumn("Rate", True, percent=True),
            SheetColumn("Low", True, percent=True),
            SheetColumn("High", True, percent=True),
        ),
        rows=list(_temperature_rows(found)),
        after=(found.warmth.said, found.warmth.test_said, LEVEL),
    )


def _temperature_rows(found: SeasonMortality) -> Iterator[list[Value]]:
    for fahrenheit, rate in found.warmth.points:
        warm = in_unit(fahrenheit, found.unit)
        yield ["event", warm, int(rate.dead), int(rate.n), rate.rate, rate.low, rate.high]
    for point in found.warmth.curve:
        yield ["curve", in_unit(point.fahrenheit, found.unit), None, None, point.share, point.low, point.high]


def _luck(found: SeasonMortality) -> Sheet:
    drawn = funnel_of(found)
    columns = [
        SheetColumn("Event"),
        *(
            SheetColumn(head, figures=True, percent=head not in ("Fish", "Dead"))
            for head in ("Fish", "Dead", "Rate", "Chance alone, low", "Chance alone, high")
        ),
        SheetColumn("Outside"),
    ]
    rows: list[list[Value]] = [
        [line.event.name, line.found.presented, line.found.dead, line.found.initial, within.low, within.high, line in drawn.outside]
        for line, within in drawn.events
    ] if drawn else []  # fmt: skip
    said = drawn.said if drawn else "Too few events, or none or all of the fish dead: nothing can be said of chance."
    return Sheet("By chance alone", columns, rows, after=(said, LEVEL))


def _days(found: SeasonMortality) -> Sheet:
    parted = good_and_bad(found)
    columns = ("Measured on the day", "Lowest rates", "Of which", "Highest rates", "Of which (highest)")
    return Sheet(
        title="Good and bad days",
        columns=[SheetColumn(head) for head in columns],
        rows=[[row.name, *row.best, *row.worst] for row in parted.rows] if parted else [],
        after=(
            [
                f"Lowest: {listed([line.event.name for line in parted.best])}.",
                f"Highest: {listed([line.event.name for line in parted.worst])}.",
            ]
            if parted
            else ["Too few events, or all of one rate."]
        ),
    )


def _practices(found: SeasonMortality) -> Sheet:
    practices = compared(found)
    return Sheet(
        title="Practices",
        columns=(
            SheetColumn("Practice"),
            SheetColumn("Days"),
            SheetColumn("Boats with"),
            SheetColumn("Livewells", True),
            SheetColumn("Dead", True),
            SheetColumn("Fish", True),
            SheetColumn("Rate", True, percent=True),
            SheetColumn("Low", True, percent=True),
            SheetColumn("High", True, percent=True),
            SheetColumn("Odds ratio", True),
            SheetColumn("Odds, low", True),
            SheetColumn("Odds, high", True),
        ),
        rows=list(_practice_rows(practices)),
        after=(
            "Odds compare boats of the same event (Mantel-Haenszel); adjusted in one logistic model. All are observations, not "
            "experiments.",
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
            yield [one.practice.name, f"odds ratio, {one.events} events", "", *[None] * 6, *odds]
        if one.adjusted is not None:
            odds = [one.adjusted.value, one.adjusted.low, one.adjusted.high]
            yield [one.practice.name, "odds ratio, adjusted for the others", "", *[None] * 6, *odds]


def _studies(found: SeasonMortality) -> Sheet:
    return Sheet(
        title="Holding studies",
        columns=(
            SheetColumn("Event"),
            SheetColumn("Hours"),
            SheetColumn("Held", True),
            SheetColumn("Dead", True),
            SheetColumn("Missing", True),
            SheetColumn("Pens", True),
            SheetColumn("Reference held", True),
            SheetColumn("Reference dead", True),
            SheetColumn("Basis"),
            SheetColumn("Delayed", True, percent=True),
            SheetColumn("Low", True, percent=True),
            SheetColumn("High", True, percent=True),
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
            "Held and reference are fish looked at in the end, missing ones left out. No study: not known, never 0.",
        ),
    )
