"""What the figures give reason to decide: each piece with its figure, its reason's source and what can be expected of it.

Nothing here is a finding of cause. An expected effect is given only where the fitted curve or a comparison within events
gives it a range; else it says that the data cannot tell.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from django.utils.translation import gettext, gettext_lazy, ngettext

from weighin.advice.pages.heat import cannot_tell, extrapolated, heat_of, moved, rate_said, with_fewer
from weighin.mortality.domain.lake import in_unit
from weighin.mortality.domain.odds_words import odds_said
from weighin.mortality.domain.words import SPACE, counted, percent
from weighin.mortality.queries.care_covariates import CareCovariates
from weighin.mortality.queries.practices import BAG, ICE, ON_BOARD, Compared, Practice
from weighin.mortality.queries.season import SeasonEvent, SeasonMortality
from weighin.rules.values import plain
from weighin.survival.clusters import Clustered, clustered
from weighin.survival.nested import SAME_DAY
from weighin.survival.sizes.sample_size import fish_for_width

FEWER = 2  # fish a boat less, to reckon a smaller limit with: ours, an example
SOME = 0.1  # share of boat-days, slips or readings from which a lapse is worth a meeting's time: common practice, no source
LAW_FIRST = gettext_lazy("State and local fishing law and your permit come before anything here.")


@dataclass(frozen=True)
class Advice:
    """Something to decide: what, the figure that speaks for it, what to expect, and where the reason is from."""

    act: str
    figure: str
    expected: str
    source: str


def advice(found: SeasonMortality, practices: Sequence[Compared]) -> list[Advice]:
    """What the season gives reason to decide, in a fixed order; empty without fish."""
    if not found.fished:
        return []
    rules: tuple[Callable[[SeasonMortality, Sequence[Compared]], Advice | None], ...] = (
        _smaller_limit,
        _measured_lengths,
        _calendar,
        _on_board,
        _ice,
        _bags,
        _oxygen,
        _release_times,
        _temperatures,
        _holding,
    )
    return [piece for rule in rules if (piece := rule(found, practices)) is not None]


def _smaller_limit(found: SeasonMortality, practices: Sequence[Compared]) -> Advice | None:
    """The first choice where warm days lose more: fewer fish on them."""
    heat = heat_of(found)
    if heat is None:
        return None
    limit = heat.warm[-1].rules.fish_limit
    return Advice(
        act=gettext("Set a smaller limit for days with the lake at %(decided_at)s or warmer.")
        % {"decided_at": heat.decided_at},
        figure=heat.figure,
        expected=with_fewer(found, heat.warm, limit - FEWER) if limit > FEWER else cannot_tell(),
        source=heat.source,
    )


def _measured_lengths(found: SeasonMortality, practices: Sequence[Compared]) -> Advice | None:
    heat = heat_of(found)
    if heat is None:
        return None
    reaches = found.temperature_curve.reaches_from(found.stop) if found.stop is not None else None
    decided_at = f"{in_unit(reaches, found.unit):.0f}{SPACE}°{found.unit}" if reaches is not None else heat.decided_at
    return Advice(
        act=gettext(
            "From %(decided_at)s measure lengths on the boat and release each fish at once: no livewell, no scales."
        )
        % {"decided_at": decided_at},
        figure=found.temperature_curve.at_stop(found.stop)
        if reaches is not None and found.stop is not None
        else heat.figure,
        expected=gettext("The club has no such event to compare with, so what it would change is not known."),
        source=(
            gettext(
                "Of 2,072 Texas bass events those on paper lost %(on_paper)s at once, those weighing fish about %(weighed)s; "
                "the clubs counted for themselves (Ostrand et al. 1999)%(extrapolated)s. Decide the evening before: common "
                "practice."
            )
            % {"on_paper": percent(0.011), "weighed": percent(0.04), "extrapolated": extrapolated(found)}
        ),
    )


def _calendar(found: SeasonMortality, practices: Sequence[Compared]) -> Advice | None:
    heat = heat_of(found)
    if heat is None:
        return None
    warmest = max(heat.warm, key=lambda line: line.lake.mean if line.lake else float("-inf"))
    lake = warmest.lake.said(found.unit) if warmest.lake else ""
    return Advice(
        act=gettext("Fish the warm waters in cooler months, or start and end earlier in the day."),
        figure=gettext("%(name)s was the warmest of %(events)s, with the lake at %(lake)s.")
        % {"name": warmest.event.name, "events": counted(len(found.fished), "event"), "lake": lake},
        expected=moved(found),
        source=heat.source,
    )


def _on_board(found: SeasonMortality, practices: Sequence[Compared]) -> Advice | None:
    one = _practice(ON_BOARD, practices)
    rate = _noted(
        found, lambda line, note: None if note.most_on_board is None else note.most_on_board > line.rules.fish_limit
    )
    if one is None or not _speaks_for(one) or rate is None:
        return None
    rules = found.fished[-1].rules
    limit = rules.fish_limit
    if rules.boat_limit is not None and rules.boat_limit <= limit:
        act = gettext("Hold boats to the limit of %(boat_limit)s fish on board: ask at the ramp and at check-in.") % {
            "boat_limit": rules.boat_limit
        }
    else:
        act = gettext("Add a boat limit to the rule sheet: never more than %(limit)s fish on board.") % {"limit": limit}
    return Advice(
        act=act,
        figure=gettext("%(counted)s had more than the limit on board.") % {"counted": rate_said(rate, "boat-day")},
        expected=_expected(one),
        source=gettext(
            "More fish take the oxygen of a livewell faster: common practice caps the fish on board. Culling law comes first."
        ),
    )


def _bags(found: SeasonMortality, practices: Sequence[Compared]) -> Advice | None:
    one = _practice(BAG, practices)
    counts = []
    for line in found.fished:
        known = [minutes for catch in line.catches if (minutes := catch.minutes_in_bag) is not None]
        counts.append((sum(minutes > line.rules.care_max_bag_minutes for minutes in known), len(known)))
    rate = _lapse(counts)
    if one is None or not _speaks_for(one) or rate is None:
        return None
    most = plain(found.fished[-1].rules.care_max_bag_minutes)
    return Advice(
        act=gettext("Give fewer bags at a time, so that the line stays short."),
        figure=gettext("%(counted)s had fish in the bag for more than %(most)s minutes.")
        % {"counted": rate_said(rate, "boat-day"), "most": most},
        expected=_expected(one),
        source=gettext(
            "Oklahoma guidance: at most five bags for twenty anglers; ten minutes from boat to scales is common practice."
        ),
    )


def _ice(found: SeasonMortality, practices: Sequence[Compared]) -> Advice | None:
    one = _practice(ICE, practices)
    rate = _noted(found, lambda line, note: note.ice_lb == 0 if line.is_warm and note.ice_lb is not None else None)
    if one is None or not _speaks_for(one) or rate is None:
        return None
    return Advice(
        act=gettext("Ask for ice in the livewell on warm days, and record how much."),
        figure=gettext("%(counted)s had no ice on the days that were warm.") % {"counted": rate_said(rate, "boat-day")},
        expected=_expected(one),
        source=(
            gettext(
                "Cooling a few degrees is agency guidance (Kansas, Oklahoma); trials of ice disagree. Keep to the largest "
                "cooling of the rule sheet and handle ice with gloves."
            )
        ),
    )


def _oxygen(found: SeasonMortality, practices: Sequence[Compared]) -> Advice | None:
    rate = _noted(found, lambda line, note: None if note.oxygen is None else note.oxygen < line.rules.care_min_do)
    if rate is None:
        return None
    least = plain(found.fished[-1].rules.care_min_do)
    return Advice(
        act=gettext("Watch the livewells’ oxygen: pumps without a break, fewer fish on board, a reading at the ramp."),
        figure=gettext("%(counted)s in livewells were under %(least)s mg/L.")
        % {"counted": rate_said(rate, "reading"), "least": least},
        expected=cannot_tell(),
        source=gettext("At least 5 mg/L is common practice; a summary of a Mississippi State study asks for 5.5."),
    )


def _release_times(found: SeasonMortality, practices: Sequence[Compared]) -> Advice | None:
    rate = _lapse([(line.missing.release_unwritten, line.missing.slips) for line in found.fished])
    if rate is None:
        return None
    return Advice(
        act=gettext("Count the dead again at the water, and record when the fish went back."),
        figure=gettext("%(counted)s with living fish have no time of release.") % {"counted": rate_said(rate, "slip")},
        expected=gettext("The count would be firmer; whether the rate would rise is not known."),
        source=gettext("Fish dead at release belong to the tally: common practice, no source."),
    )


def _temperatures(found: SeasonMortality, practices: Sequence[Compared]) -> Advice | None:
    without = sum(line.lake is None for line in found.fished)
    if not without:
        return None
    return Advice(
        act=gettext("Record the lake’s temperature at every event."),
        figure=ngettext(
            "%(without)s of %(events)s with fish has none.", "%(without)s of %(events)s with fish have none.", without
        )
        % {"without": without, "events": counted(len(found.fished), "event")},
        expected=gettext("Every event would stand among days alike; a curve takes eight of them."),
        source=gettext("Temperature is what most studies of black bass tournaments find going with deaths")
        + extrapolated(found)
        + ".",
    )


def _holding(found: SeasonMortality, practices: Sequence[Compared]) -> Advice | None:
    if any(line.study is not None and line.study.basis == "reference" for line in found.events):
        return None
    held = len(found.studies)
    what = gettext("held fish back without reference fish") if held else gettext("held fish back")
    fish = fish_for_width(0.2, 0.2)
    return Advice(
        act=gettext("Hold fish back at one event, with reference fish beside them, to learn what dies later."),
        figure=gettext("%(held)s of %(events)s %(what)s.")
        % {"held": held, "events": counted(len(found.events), "event"), "what": what},
        expected=(
            gettext(
                "Were a fifth to die, about %(fish)s fish held would tell it to within ten points either way, more where the fish of a pen die together."
            )
            % {"fish": fish}
        ),
        source=(
            gettext(
                "In black bass events of the 1990s %(percent)s died after release (Wilde 1998)%(extrapolated)s. Ask the agency "
                "first: holding fish may need its permit."
            )
            % {"percent": percent(0.233), "extrapolated": extrapolated(found)}
        ),
    )


def _practice(practice: Practice, practices: Sequence[Compared]) -> Compared | None:
    return next((one for one in practices if one.practice is practice), None)


def _speaks_for(one: Compared) -> bool:
    """Whether boats of one day speak for the practice: a rule is advised where the figures show something."""
    return one.is_clear_alone and one.odds is not None and one.odds.value < 1.0


def _expected(one: Compared) -> str:
    """What boats of the same event showed of a practice, alone and adjusted."""
    assert one.odds is not None  # the practice was compared
    said = (
        gettext("With %(practised)s a fish had %(odds_said)s of being dead, boats of the same event compared.")
        % {"practised": one.practice.practised, "odds_said": odds_said(one.odds.value, one.odds.low, one.odds.high)}
        + " "
        + one.adjusted_said
    ).strip()
    if one.loses_clarity:
        return f"{said} " + gettext("So it may be chance.")
    return f"{said} " + gettext("A change of rule may or may not follow that.")


def _noted(found: SeasonMortality, lapsed: Callable[[SeasonEvent, CareCovariates], bool | None]) -> Clustered | None:
    """The share of care notes that tell of a lapse, each event a cluster; None as for ``_lapse``."""
    counts = []
    for line in found.fished:
        told = [one for note in line.notes.values() if (one := lapsed(line, note)) is not None]
        counts.append((sum(told), len(told)))
    return _lapse(counts)


def _lapse(counts: Sequence[tuple[int, int]]) -> Clustered | None:
    """A share over events from ``SOME`` on; None when it is less or nothing is known."""
    if not any(n for _, n in counts):
        return None
    rate = clustered([some for some, _ in counts], [n for _, n in counts], correlation=SAME_DAY)
    return rate if rate.rate >= SOME else None
