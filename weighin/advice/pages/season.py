"""What the season's page shows, worked out before the template sees it."""

from collections.abc import Sequence
from typing import Any

from django.utils.translation import gettext, gettext_lazy

from weighin.advice.pages.advice import LAW_FIRST, advice
from weighin.mortality.domain.words import limits, seen, some_of
from weighin.mortality.pages import season_words
from weighin.mortality.pages.caveats import season_caveats
from weighin.mortality.pages.event_report import Line
from weighin.mortality.pages.figures import (
    Figure,
    events_figure,
    funnel_figure,
    practices_figure,
    season_strip,
    temperature_figure,
)
from weighin.mortality.pages.methods import METHODS
from weighin.mortality.queries.days import CHOSEN, good_and_bad
from weighin.mortality.queries.funnel_plot import funnel_plot_of
from weighin.mortality.queries.practices import Compared, compared, comparisons_said, side_cells
from weighin.mortality.queries.season import SeasonEvent, SeasonMortality
from weighin.ui.charts import Drawings

PRACTICES_CAPTION = gettext_lazy(
    "Share dead by release with its 95 % range. Filled: with the practice; open: without it."
)
PRACTICES_NOTE = gettext_lazy(
    "The ranges allow for livewells dying together. Cooler and warmer days stand apart, since ice comes out on hot "
    "days. Warmer is from the care steps’ temperature on."
)


def season_context(found: SeasonMortality) -> dict[str, Any]:
    """The context of ``mortality/season_body.html``."""
    temperature_curve = temperature_figure(found.temperature_curve, found.stop)
    practices = compared(found)
    return {
        "found": found,
        "season": found.season,
        "club": found.season.club,
        "title": season_words.title(found),
        "figure": season_words.big_figure(found),
        "says": season_words.says(found),
        "explained": season_words.range_explained(found),
        "stop_said": season_words.stop_said(found),
        "waters": len({line.event.water_id for line in found.fished}),
        "strip": _drawn(season_strip(found)),
        "events_title": season_words.events_title(found),
        "events_chart": _drawn(events_figure(found)),
        "funnel": funnel_plot_of(found),
        "funnel_chart": _drawn(funnel_figure(found)),
        "rows": [event_row(line, found.unit) for line in found.worst_first],
        "without_fish": [line.event for line in found.events if line.rate is None],
        "warmth": found.temperature_curve,
        "warmth_chart": _drawn(temperature_curve),
        "at_stop": found.temperature_curve.at_stop(found.stop) if found.stop is not None else "",
        "lines": season_lines(found),
        "days": good_and_bad(found),
        "chosen": CHOSEN,
        "comparisons": comparisons_said(practices),
        "practices_chart": _drawn(practices_figure(practices)),
        "practices_caption": PRACTICES_CAPTION,
        "practices_note": PRACTICES_NOTE,
        "methods": METHODS,
        "practices": [practice_rows(one) for one in practices],
        "verdicts": verdicts(practices),
        "advice": advice(found, practices),
        "law_first": LAW_FIRST,
        "studies": [season_words.study_said(line) for line in found.studies],
        "missing": season_words.missing_said(found),
        "caveats": season_caveats(len(found.fished), len(found.studies), found.species),
    }


def event_row(line: SeasonEvent, unit: str) -> dict[str, Any]:
    """An event with fish as a row of the table."""
    rate = line.rate
    assert rate is not None  # the rows are events with fish
    return {
        "event": line.event,
        "lake": line.lake.said(unit) if line.lake else "",
        "livewells": line.found.clusters,
        "count": some_of(line.found.dead, line.found.presented),
        "rate": seen(rate),
        "limits": limits(rate),
        "beyond": rate.low > line.stop,
    }


def practice_rows(one: Compared) -> dict[str, Any]:
    """A practice with its two kinds of days as rows."""
    return {
        "one": one,
        "rows": [(gettext(side.days), *side_cells(side)) for side in one.sides if side.practised or side.otherwise],
    }


def verdicts(practices: Sequence[Compared]) -> list[tuple[str, list[str]]]:
    """What the comparisons say, each verdict with its practices, in the order of the chart."""
    found: dict[str, list[str]] = {}
    for one in practices:
        found.setdefault(str(one.verdict.label), []).append(one.practice.name)
    return list(found.items())


def season_lines(found: SeasonMortality) -> list[Line]:
    """The season's rates, each with the fish it is a share of; ranges count events from two on."""
    rates = (
        (gettext("Dead by release"), gettext("all fish brought to the scales (initial mortality)"), found.headline),
        (
            gettext("Dead, of fish meant for the lake"),
            gettext("fish brought to the scales less %(kept)s kept") % {"kept": f"{found.kept:,}"}
            if found.kept
            else gettext("all fish: none was kept"),
            found.of_release,
        ),
        (gettext("Taken out of the lake"), gettext("dead or kept, of all fish brought to the scales"), found.removed),
    )
    return [Line.of(name, of_which, rate) for name, of_which, rate in rates if rate is not None]


def _drawn(figure: Figure | None) -> Drawings | None:
    return figure.drawn() if figure else None
