"""The club's seasons side by side: as numbers for files, as words for paper."""

from typing import Any

from django.utils.translation import gettext

from weighin.mortality.queries.trend import Step, Trend, trend_rows
from weighin.reports.domain.sheet import Sheet, SheetColumn
from weighin.survival.comparing.change import Change


def seasons_sheet(seasons: Trend) -> Sheet:
    """A row a season, oldest first, with rates as shares."""
    return Sheet(
        gettext("Season by season"),
        (
            SheetColumn(gettext("Season")),
            SheetColumn(gettext("Events"), True),
            SheetColumn(gettext("Fish"), True),
            SheetColumn(gettext("Dead"), True),
            SheetColumn(gettext("Rate"), True, percent=True),
            SheetColumn(gettext("Low"), True, percent=True),
            SheetColumn(gettext("High"), True, percent=True),
        ),
        [
            (one.season.name, len(one.events), int(rate.n), int(rate.dead), rate.rate, rate.low, rate.high)
            for one in seasons.seasons
            for rate in (one.rate,)
        ],
        after=tuple(changes_said(seasons)),
    )


def printed_seasons(seasons: Trend) -> Sheet:
    """The same to print, with cooler and warmer days."""
    return Sheet(
        gettext("Season by season"),
        (
            SheetColumn(gettext("Season"), width=0.8),
            SheetColumn(gettext("Events"), width=0.9),
            SheetColumn(gettext("Dead of fish"), True, 1.2),
            SheetColumn(gettext("Rate"), True, 0.8),
            SheetColumn(gettext("95 % range"), True, 1.4),
            SheetColumn(gettext("By the lake’s temperature"), width=4),
        ),
        [[row[key] for key in ("season", "events", "count", "rate", "limits", "bands")] for row in trend_rows(seasons)],
    )


def changes_said(seasons: Trend) -> list[str]:
    """What changed since the season before, in sentences."""
    if not seasons.seasons:
        return [gettext("No fish came to the scales this season: there is nothing to set beside earlier ones.")]
    last = seasons.steps[-1:]
    return [seasons.title, *(sentence for step in last for sentence in (step.said, step.alike_said)), seasons.says]


def seasons_document(seasons: Trend) -> dict[str, Any]:
    """The seasons as plain JSON values; ``change`` is null without a season before, its parts where they cannot be told."""
    return {
        "says": changes_said(seasons),
        "seasons": [
            {
                "season": one.season.name,
                "events": len(one.events),
                "presented": int(one.rate.n),
                "dead": int(one.rate.dead),
                "initial": one.rate.rate,
                "low": one.rate.low,
                "high": one.rate.high,
            }
            for one in seasons.seasons
        ],
        "change": _step(seasons.steps[-1]) if seasons.steps else None,
    }


def _step(step: Step) -> dict[str, Any]:
    return {
        "from": step.before.season.name,
        "to": step.after.season.name,
        "whole": _change(step.whole),
        "days_alike": _change(step.alike),
    }


def _change(moved: Change | None) -> dict[str, float] | None:
    return None if moved is None else {"difference": moved.difference, "low": moved.low, "high": moved.high}
