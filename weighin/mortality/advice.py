"""What the figures give reason to decide: each piece with its figure, its reason's source and what can be expected of it.

Nothing here is a finding of cause. An expected effect is given only where the fitted curve or a comparison within events
gives it a range; else it says that the data cannot tell.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from weighin.mortality.caveats import is_bass
from weighin.mortality.lake import in_unit
from weighin.mortality.practices import Compared
from weighin.mortality.season import SeasonEvent, SeasonMortality
from weighin.mortality.words import SPACE, counted, limits, percent, times
from weighin.rules.values import plain
from weighin.survival.clusters import Clustered, clustered
from weighin.survival.logistic import NoCurve
from weighin.survival.nested import SAME_DAY
from weighin.survival.sample_size import fish_for_width

CANNOT_TELL = "What it would change the data cannot tell."
SOME = 0.1  # share of boats, slips or readings from which a lapse is worth a meeting's time: common practice, no source
LAW_FIRST = "State and local fishing law and your permit come before anything here."


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
        _warm_days,
        _bags,
        _ice,
        _oxygen,
        _release_times,
        _temperatures,
        _holding,
    )
    return [piece for rule in rules if (piece := rule(found, practices)) is not None]


def _warm_days(found: SeasonMortality, practices: Sequence[Compared]) -> Advice | None:
    warm = [line for line in found.fished if line.is_warm]
    cool = [line for line in found.fished if line.lake is not None and not line.is_warm]
    if not warm or not cool:
        return None
    on_warm, on_cool = _rate(warm), _rate(cool)
    if on_warm.rate <= on_cool.rate:
        return None
    limit = f"{plain(warm[-1].rules.care_warm_f)}{SPACE}°F"
    return Advice(
        act="Look at the calendar: fish the warm waters in cooler months, start earlier, or weigh fewer fish on warm days.",
        figure=(
            f"At {counted(len(warm), 'event')} with the lake at {limit} or warmer {_said(on_warm)} were dead; at "
            f"{counted(len(cool), 'cooler event')} {_said(on_cool)}."
        ),
        expected=_moved(found),
        source=(
            "Kansas agency rule and Mississippi guidance begin care steps at 75 °F; of largemouth bass more died above 25 °C "
            f"(77 °F) (Edwards et al. 2004){_extrapolated(found)}."
        ),
    )


def _moved(found: SeasonMortality) -> str:
    """What the fitted curve would expect of the warmest event's fish at the season's middle temperature."""
    warmth = found.warmth
    if warmth.fit is None or not warmth.points:
        return f"{CANNOT_TELL} {warmth.why_none}".strip()
    places = sorted(fahrenheit for fahrenheit, _ in warmth.points)
    middle = places[(len(places) - 1) // 2]
    warmest = max(found.fished, key=lambda line: line.lake.mean if line.lake else float("-inf"))
    if warmest.lake is None or warmest.lake.mean <= middle:
        return CANNOT_TELL
    try:
        share, band = warmth.fit.predict(middle), warmth.fit.band(middle)
    except NoCurve:
        return CANNOT_TELL
    fish = warmest.found.presented
    degrees = f"{in_unit(middle, found.unit):.0f}{SPACE}°{found.unit}"
    return (
        f"If the curve’s rates held, {fish:,} fish as brought to {warmest.event.name} would at {degrees} mean about "
        f"{fish * share:.0f} dead (95{SPACE}% range {fish * band.low:.0f} to {fish * band.high:.0f}) where {warmest.found.dead:,} "
        "were."
    )


def _bags(found: SeasonMortality, practices: Sequence[Compared]) -> Advice | None:
    counts = []
    for line in found.fished:
        known = [minutes for catch in line.catches if (minutes := catch.minutes_in_bag) is not None]
        counts.append((sum(minutes > line.rules.care_max_bag_minutes for minutes in known), len(known)))
    rate = _lapse(counts)
    if rate is None:
        return None
    most = plain(found.fished[-1].rules.care_max_bag_minutes)
    return Advice(
        act="Hand out fewer bags at a time, so that the line stays short.",
        figure=f"{_counted(rate, 'boats')} had fish in the bag for more than {most} minutes.",
        expected=_expected("Time in the bag", practices),
        source="Oklahoma guidance: at most five bags for twenty contestants; ten minutes from boat to scales is common practice.",
    )


def _ice(found: SeasonMortality, practices: Sequence[Compared]) -> Advice | None:
    counts = []
    for line in found.fished:
        known = [note.ice_lb for note in line.notes.values() if note.ice_lb is not None] if line.is_warm else []
        counts.append((sum(ice == 0 for ice in known), len(known)))
    rate = _lapse(counts)
    if rate is None:
        return None
    return Advice(
        act="Ask for ice in the well on warm days, and write down how much.",
        figure=f"{_counted(rate, 'boats')} had no ice on the days that were warm.",
        expected=_expected("Ice in the well", practices),
        source=(
            "Cooling a few degrees is agency guidance (Kansas, Oklahoma); trials of ice disagree. Keep to the largest cooling of "
            "the rule sheet and handle ice with gloves."
        ),
    )


def _oxygen(found: SeasonMortality, practices: Sequence[Compared]) -> Advice | None:
    counts = []
    for line in found.fished:
        known = [note.oxygen for note in line.notes.values() if note.oxygen is not None]
        counts.append((sum(oxygen < line.rules.care_min_do for oxygen in known), len(known)))
    rate = _lapse(counts)
    if rate is None:
        return None
    least = plain(found.fished[-1].rules.care_min_do)
    return Advice(
        act="See to the wells’ oxygen: pumps run without a break, fewer fish on board, a reading at the ramp.",
        figure=f"{_counted(rate, 'readings')} in livewells were under {least}{SPACE}mg/L.",
        expected=CANNOT_TELL,
        source="At least 5 mg/L is common practice; a summary of a Mississippi State study asks for 5.5.",
    )


def _release_times(found: SeasonMortality, practices: Sequence[Compared]) -> Advice | None:
    rate = _lapse([(line.missing.release_unwritten, line.missing.slips) for line in found.fished])
    if rate is None:
        return None
    return Advice(
        act="Count the dead again at the water, and write when the fish went back.",
        figure=f"{_counted(rate, 'slips')} with living fish have no time of release.",
        expected="The count would be firmer; whether the rate would rise the data cannot tell.",
        source="Fish dead at release belong to the tally: common practice, no source.",
    )


def _temperatures(found: SeasonMortality, practices: Sequence[Compared]) -> Advice | None:
    without = sum(line.lake is None for line in found.fished)
    if not without:
        return None
    return Advice(
        act="Write down the lake’s temperature at every event.",
        figure=f"{without} of {counted(len(found.fished), 'event')} with fish {'has' if without == 1 else 'have'} none.",
        expected="Every event would stand among days alike; a curve takes eight of them.",
        source="Temperature is what most studies of black bass tournaments find going with deaths"
        + _extrapolated(found)
        + ".",
    )


def _holding(found: SeasonMortality, practices: Sequence[Compared]) -> Advice | None:
    if any(line.study is not None and line.study.basis == "reference" for line in found.events):
        return None
    held = len(found.studies)
    what = "held fish back without reference fish" if held else "held fish back"
    fish = fish_for_width(0.2, 0.2)
    return Advice(
        act="Hold fish back at one event, with reference fish beside them, to learn what dies later.",
        figure=f"{held} of {counted(len(found.events), 'event')} {what}.",
        expected=(
            f"Were a fifth to die, about {fish} fish held would tell it to within ten points either way, more where the fish "
            "of a pen die together."
        ),
        source=(
            f"In black bass events of the 1990s {percent(0.233)} died after release (Wilde 1998){_extrapolated(found)}. "
            "Ask the agency first: holding fish may need its permit."
        ),
    )


def _expected(name: str, practices: Sequence[Compared]) -> str:
    """What boats of the same event showed of a practice, or that they cannot tell."""
    of_it = next((one for one in practices if one.practice.name == name), None)
    if of_it is None or of_it.odds is None:
        return CANNOT_TELL
    odds = of_it.odds
    said = (
        f"with {of_it.practice.practised} the odds of dying were {times(odds.value)} those of other boats of the same event "
        f"(95{SPACE}% range {times(odds.low)} to {times(odds.high)})"
    )
    if odds.low <= 1.0 <= odds.high:
        return f"The data cannot tell: {said}."
    return f"{said[0].upper()}{said[1:]}: an association, which a change of rule may or may not follow."


def _extrapolated(found: SeasonMortality) -> str:
    return "" if is_bass(found.species) else f", for {found.species or 'other fish'} an extrapolation"


def _lapse(counts: Sequence[tuple[int, int]]) -> Clustered | None:
    """A share over events from ``SOME`` on; None when it is less or nothing is known."""
    if not any(n for _, n in counts):
        return None
    rate = clustered([some for some, _ in counts], [n for _, n in counts], correlation=SAME_DAY)
    return rate if rate.rate >= SOME else None


def _rate(lines: Sequence[SeasonEvent]) -> Clustered:
    return clustered(
        [line.found.dead for line in lines], [line.found.presented for line in lines], correlation=SAME_DAY
    )


def _said(rate: Clustered) -> str:
    seen = f"{percent(rate.rate)}, range {limits(rate)}" if rate.dead else f"none seen, {limits(rate)}"
    return f"{rate.dead:,.0f} of {rate.n:,.0f} fish ({seen})"


def _counted(rate: Clustered, of: str) -> str:
    return f"{rate.dead:,.0f} of {rate.n:,.0f} {of} ({percent(rate.rate)}, range {limits(rate)})"
