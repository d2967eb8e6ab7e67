"""A season's mortality summary as plain JSON values, every key with its meaning in ``KEYS``.

Counts are fish, rates are shares from 0 to 1, null where nothing can be said. Limits are 95 %.
"""

from typing import Any

from weighin.advice.pages.advice import advice
from weighin.mortality.pages import season_words
from weighin.mortality.pages.caveats import season_caveats
from weighin.mortality.queries.days import good_and_bad
from weighin.mortality.queries.event import mortality_part
from weighin.mortality.queries.funnel_plot import funnel_plot_of
from weighin.mortality.queries.practices import Compared, compared
from weighin.mortality.queries.season import SeasonEvent, SeasonMortality
from weighin.survival.clusters import Clustered
from weighin.survival.estimates import Estimate

KEYS: dict[str, str] = {
    "club": "the club's name",
    "season": "the season's name",
    "headline": "the finding in a sentence",
    "says": "the count and its range in words",
    "level": "confidence level of every range",
    "stop_level": "the club's stop level as a share, of the latest event",
    "presented": "fish brought to the scales, short ones and lost days included",
    "dead": "dead at the table or by release",
    "kept": "live fish not released",
    "initial": "dead / presented, initial (pre-release) mortality: the least that died",
    "low": "lower limit of initial",
    "high": "upper limit of initial",
    "design_effect": "how many times more uncertain the rate is than as many independent fish would leave it",
    "clusters": "clusters with fish: livewells of an event, events of a season (livewells when there is one event)",
    "range_of": "what the season's range is for: such_events or these_events",
    "livewells": "livewells with fish, over all events",
    "of_release": "dead / (presented - kept)",
    "removed": "(dead + kept) / presented",
    "such_events": "the season's range for events like these: each event is one cluster",
    "these_events": "the season's range for these very events: livewells within events",
    "same_livewell": "correlation of two fish of one livewell",
    "same_day": "correlation of two fish of one event from different livewells",
    "events": "every event that was not cancelled, oldest first",
    "slug": "the event's name in addresses",
    "name": "the event's name",
    "date": "its first day",
    "water": "its water",
    "lake_temp_f": "mean lake temperature of its days with fish, °F",
    "delayed": "died after release, from the event's own holding study only; may be negative",
    "delayed_basis": "reference, no_reference or null",
    "total": "1 - (1 - initial)(1 - delayed)",
    "holding": "the event's holding study, or null",
    "held": "tournament fish held, missing ones left out",
    "held_dead": "of them dead",
    "reference_held": "reference fish held, missing ones left out",
    "reference_dead": "of them dead",
    "hours": "how long the fish were held, as written",
    "delayed_low": "lower limit of delayed",
    "delayed_high": "upper limit of delayed",
    "missing": "what the count leaves out",
    "waiting": "boats and days left out of the rate because two slips wait for the director",
    "waiting_days": "boats and days with two slips, neither of which counts",
    "waiting_fish": "fish on them at most",
    "unweighed": "boats entered without a slip",
    "release_unwritten": "slips with living fish but no time of release",
    "release_fish": "fish on them that were alive at the table",
    "by_temperature": "initial mortality against the lake's temperature",
    "points": "events with a temperature and fish, coolest first",
    "curve": "the fitted rate with its band, within the temperatures seen; empty under eight events",
    "share": "the fitted rate",
    "odds_ratio_per_f": "factor on the odds of a fish being dead for one °F more, above the bend where there is one",
    "bend_at_f": "lake temperature at which the curve bends, null where it is straight",
    "bend_p": "p of the test of a bend where care steps begin, null where it was not tried",
    "odds_ratio_low": "lower limit of the odds ratio beside it",
    "odds_ratio_high": "upper limit of the odds ratio beside it",
    "why_no_curve": "why no curve is fitted, or an empty text",
    "good_and_bad": "what was measured at the events with the lowest and the highest rates, null under four events",
    "lowest": "the third of the events with the lowest rates; in measured its figure, and of how many with the spread",
    "highest": "the third with the highest rates, likewise",
    "measured": "what was measured at them, as the page writes it",
    "practices": "care practices compared: observations, not experiments",
    "practised": "the side that kept to the practice, in words; under sides its fish",
    "otherwise": "the other side, likewise",
    "sides": "cooler and warmer days (from the care steps' temperature on)",
    "days": "cooler or warmer",
    "odds_ratio": "odds of a fish being dead with the practice over those without, boats of the same event compared",
    "adjusted_odds_ratio": "the same with the other practices compared held equal, in one model; null where it cannot be told",
    "adjusted_low": "lower limit of it",
    "adjusted_high": "upper limit of it",
    "verdict": "clearly fewer dead, clearly more dead, may be chance, no clear difference or too few fish to tell yet",
    "events_compared": "events that the odds ratio rests on",
    "untold": "fish of which nobody wrote the practice down",
    "advice": "what the figures give reason to decide",
    "act": "what to decide",
    "figure": "the figure that speaks for it",
    "expected": "what to expect of it with its range, or that the data cannot tell",
    "source": "where the reason is from",
    "by_luck": "where luck alone would put each event about the season's rate, null with too few events",
    "luck_low": "lower limit of 95 of 100 events of that size",
    "luck_high": "upper limit of them",
    "outside": "whether the event lies beyond its limits",
    "caveats": "what the figures must be read with: heads and texts",
}


def season_document(found: SeasonMortality) -> dict[str, Any]:
    """The summary with the keys of ``KEYS``."""
    pooled, rate = found.pooled, found.headline
    practices = compared(found)
    return {
        "club": found.season.club.name,
        "season": found.season.name,
        "headline": season_words.title(found),
        "says": season_words.says(found),
        "level": rate.level if rate else 0.95,
        "stop_level": found.stop,
        "presented": found.presented,
        "dead": found.dead,
        "kept": found.kept,
        "initial": rate.rate if rate else None,
        "low": rate.low if rate else None,
        "high": rate.high if rate else None,
        "design_effect": rate.design_effect if rate else 1.0,
        "clusters": rate.clusters if rate else 0,
        "range_of": ("such_events" if found.range_is_of_such_events else "these_events") if rate else None,
        "livewells": found.livewells,
        "of_release": found.of_release.rate if found.of_release else None,
        "removed": found.removed.rate if found.removed else None,
        "such_events": _range(pooled.such_events) if pooled else None,
        "these_events": _range(pooled.these_events) if pooled else None,
        "same_livewell": pooled.same_livewell if pooled else None,
        "same_day": pooled.same_day if pooled else None,
        "by_temperature": _by_temperature(found),
        "events": [_event(line) for line in found.events],
        "by_luck": _by_luck(found),
        "good_and_bad": _good_and_bad(found),
        "practices": [_practice(one) for one in practices],
        "advice": [vars(piece) for piece in advice(found, practices)],
        "caveats": [
            [str(head), str(text)]
            for head, text in season_caveats(len(found.fished), len(found.studies), found.species)
        ],
    }


def _range(rate: Clustered) -> dict[str, Any]:
    return {"low": rate.low, "high": rate.high, "design_effect": rate.design_effect, "clusters": rate.clusters}


def _event(line: SeasonEvent) -> dict[str, Any]:
    event, missing = line.event, line.missing
    return {
        "slug": event.slug,
        "name": event.name,
        "date": event.date.isoformat(),
        "water": event.water.name,
        "lake_temp_f": line.lake.mean if line.lake else None,
        "stop_level": line.stop,
        **mortality_part(line.found),
        "holding": _holding(line),
        "missing": {
            "waiting_days": missing.waiting_days,
            "waiting_fish": missing.waiting_fish,
            "unweighed": missing.unweighed,
            "release_unwritten": missing.release_unwritten,
            "release_fish": missing.release_fish,
        },
    }


def _holding(line: SeasonEvent) -> dict[str, Any] | None:
    study = line.study
    if study is None:
        return None
    delayed: Estimate | None = study.delayed
    return {
        "held": study.tournament.fish,
        "held_dead": study.tournament.dead,
        "reference_held": study.reference.fish,
        "reference_dead": study.reference.dead,
        "hours": list(study.hours),
        "delayed_low": delayed.low if delayed else None,
        "delayed_high": delayed.high if delayed else None,
    }


def _by_luck(found: SeasonMortality) -> list[dict[str, Any]] | None:
    drawn = funnel_plot_of(found)
    if drawn is None:
        return None
    return [
        {
            "slug": line.event.slug,
            "presented": line.found.presented,
            "initial": line.found.initial,
            "luck_low": within.low,
            "luck_high": within.high,
            "outside": line in drawn.outside,
        }
        for line, within in drawn.events
    ]


def _good_and_bad(found: SeasonMortality) -> dict[str, Any] | None:
    parted = good_and_bad(found)
    if parted is None:
        return None
    return {
        "lowest": [line.event.slug for line in parted.best],
        "highest": [line.event.slug for line in parted.worst],
        "measured": [{"name": row.name, "lowest": list(row.best), "highest": list(row.worst)} for row in parted.rows],
    }


def _practice(one: Compared) -> dict[str, Any]:
    odds = one.odds
    return {
        "name": one.practice.name,
        "practised": one.practice.practised,
        "otherwise": one.practice.otherwise,
        "sides": [
            {"days": side.days, "practised": _side(side.practised), "otherwise": _side(side.otherwise)}
            for side in one.sides
        ],
        "odds_ratio": odds.value if odds else None,
        "odds_ratio_low": odds.low if odds else None,
        "odds_ratio_high": odds.high if odds else None,
        "adjusted_odds_ratio": one.adjusted.value if one.adjusted else None,
        "adjusted_low": one.adjusted.low if one.adjusted else None,
        "adjusted_high": one.adjusted.high if one.adjusted else None,
        "verdict": one.verdict,
        "events_compared": one.events,
        "untold": one.untold,
    }


def _side(rate: Clustered | None) -> dict[str, Any] | None:
    if rate is None:
        return None
    return {"dead": int(rate.dead), "presented": int(rate.n), "initial": rate.rate, **_range(rate)}


def _by_temperature(found: SeasonMortality) -> dict[str, Any]:
    temperature_curve = found.temperature_curve
    known = sorted((line for line in found.fished if line.lake), key=lambda line: line.lake.mean if line.lake else 0)
    points = [
        {
            "slug": line.event.slug,
            "lake_temp_f": line.lake.mean if line.lake else None,
            "initial": line.found.initial,
            "low": line.found.low,
            "high": line.found.high,
        }
        for line in known
    ]
    curve = [
        {"lake_temp_f": p.fahrenheit, "share": p.share, "low": p.low, "high": p.high} for p in temperature_curve.curve
    ]
    odds, limits = temperature_curve.fit.odds_ratio() if temperature_curve.fit else (None, None)
    return {
        "points": points,
        "curve": curve,
        "odds_ratio_per_f": odds,
        "odds_ratio_low": limits.low if limits else None,
        "odds_ratio_high": limits.high if limits else None,
        "bend_at_f": temperature_curve.fit.bend_at if temperature_curve.fit else None,
        "bend_p": temperature_curve.fit.test.p if temperature_curve.fit and temperature_curve.fit.test else None,
        "why_no_curve": temperature_curve.why_none,
    }
