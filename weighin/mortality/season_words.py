"""A season's dead fish in sentences, for page, paper and JSON alike."""

from weighin.mortality.season import SeasonEvent, SeasonMortality
from weighin.mortality.words import (
    SPACE,
    about,
    against_stop,
    between,
    counted,
    dead_of,
    delayed_said,
    figures,
    limits,
    listed,
    not_none,
    number,
    one_in,
    percent,
)
from weighin.survival.clusters import CORRELATION
from weighin.survival.missing import bounds
from weighin.survival.nested import SAME_DAY


def title(found: SeasonMortality) -> str:
    """The season in one sentence, one number said in words."""
    rate = found.headline
    if rate is None:
        return "No fish has been brought to the scales this season."
    if found.dead in (0, found.presented):
        return f"{dead_of(found.dead, found.presented)}."
    return f"{about(rate.rate)} dead by release."


def big_figure(found: SeasonMortality) -> str:
    """The one big figure without its sign: the rate seen or, with none dead, the upper limit."""
    rate = found.headline
    if rate is None:
        return ""
    return figures(rate.rate if found.dead else rate.high)


def says(found: SeasonMortality) -> str:
    """The count, and the range for events like these."""
    rate = found.headline
    if rate is None:
        return ""
    if found.dead == 0:
        return f"{not_none(found.presented)} the true rate may still be anything up to {percent(rate.high)}, {one_in(rate.high)}."
    if found.dead == found.presented:
        return f"The true rate may be anything from {percent(rate.low)} upwards."
    were = "was" if found.dead == 1 else "were"
    one = "this one event" if len(found.fished) == 1 else "just these two events"
    whose = "events like these" if found.range_is_of_such_events else one
    return (
        f"{found.dead:,} of {found.presented:,} fish {were} dead by release: {percent(rate.rate)} seen. For {whose}, "
        f"{limits(rate)} (95{SPACE}% range). Fish that died unseen are not in it."
    )


def range_explained(found: SeasonMortality) -> str:
    """Why the headline's range is the one it is, with the other one beside it."""
    pooled = found.pooled
    if pooled is None:
        return ""
    fish, wells, events = counted(found.presented, "fish", "fish"), found.livewells, len(found.fished)
    if found.dead in (0, found.presented):
        return (
            f"{fish} in {counted(wells, 'livewell')} at {counted(events, 'event')}. As {'none' if found.dead == 0 else 'all'} "
            f"died, how alike the fish of a livewell or a day are cannot be seen. It is assumed (correlations of {CORRELATION:g} and "
            f"{SAME_DAY:g})."
        )
    if not found.range_is_of_such_events:
        these = pooled.these_events
        return (
            f"The range allows for whole livewells dying together: {fish} in {counted(wells, 'livewell')} tell about as much "
            f"as {these.effective_n:,.0f} held one by one. {'One event' if events == 1 else 'Two events'} "
            "cannot tell how days differ, so the range says nothing of others."
        )
    such, these = pooled.such_events, pooled.these_events
    return (
        f"The range counts each of the {number(events)} events as one, since the fish of a day share its lake, weather and "
        f"line: {fish} tell about as much as {such.effective_n:,.0f} held one by one (design effect "
        f"{such.design_effect:.1f}). For just these {number(events)} events it is {limits(these)}."
    )


def stop_said(found: SeasonMortality) -> str:
    """The season's range against the stop level, which was set for single events."""
    if found.headline is None or found.stop is None:
        return ""
    said = against_stop(found.headline, found.stop, "events" if found.range_is_of_such_events else "fish")
    return f"{said} The level was not the same at every event; this is the latest." if found.stops_differ else said


def events_title(found: SeasonMortality) -> str:
    """How many events lay above the stop level or below it with their whole range, and for how many it is open."""
    rates = [(line.rate, line.stop) for line in found.fished if line.rate]
    sure = sum(rate.low > stop for rate, stop in rates)
    maybe = sum(rate.low <= stop < rate.high for rate, stop in rates)
    below = len(rates) - sure - maybe
    if len(rates) == 1:
        if maybe:
            return "Whether the one event was below the stop level is open."
        return f"The one event was clearly {'above' if sure else 'below'} the stop level."
    everyone = "both" if len(rates) == 2 else f"all {number(len(rates))}"
    for count, side in ((sure, "above"), (below, "below")):
        if count == len(rates):
            return f"{everyone.capitalize()} events were clearly {side} the stop level."
    parts = [
        f"{number(count)} {'was' if count == 1 else 'were'} clearly {side} the stop level"
        for count, side in ((sure, "above"), (below, "below"))
        if count
    ]
    if not parts:
        return f"For {everyone} events it is open whether they were below the stop level."
    said = f"Of {number(len(rates))} events {listed(parts)}"
    return f"{said}; for {number(maybe)} it is open." if maybe else f"{said}."


def event_note(line: SeasonEvent, unit: str) -> str:
    """Day, water and lake of an event in short."""
    parts = [f"{line.event.date.day} {line.event.date:%b}", line.event.water.name]
    if line.lake:
        parts.append(line.lake.said(unit))
    return ", ".join(parts)


def study_said(line: SeasonEvent) -> str:
    """What an event's holding study showed, with its fish."""
    study = line.study
    if study is None:
        return ""
    beside = ""
    if study.basis == "reference":
        beside = f", {study.reference.dead} of {study.reference.fish} reference fish"
    elif study.basis == "no_reference":
        beside = "; there were no reference fish, so deaths from being held are in it"
    else:
        beside = f"; {study.unusable}"
    hours = f" after {listed(study.hours, 'or')} hours" if study.hours else ""
    return (
        f"{line.event.name}: {study.tournament.dead} of {study.tournament.fish} fish held were dead{hours}{beside}. "
        f"Delayed mortality{' beyond the reference fish' if study.basis == 'reference' else ''}: "
        f"{delayed_said(study.delayed, study.basis)}.{f' {study.few_pens}' if study.few_pens else ''}"
    )


def missing_said(found: SeasonMortality) -> list[tuple[str, str]]:
    """What the season's count leaves out, over all events."""
    lines = [line.missing for line in found.events]
    said: list[tuple[str, str]] = []
    if found.provisional:
        said.append(
            (
                f"{number(found.provisional).capitalize()} of {counted(len(found.fished), 'event')} with fish "
                f"{'has' if found.provisional == 1 else 'have'} no official result: the season is provisional.",
                "Slips may still be corrected or settled there, and the season’s rate with them.",
            )
        )

    def events_with(has: str) -> int:
        return sum(bool(getattr(missing, has)) for missing in lines)

    waiting = sum(missing.waiting_fish for missing in lines)
    if events_with("waiting_days"):
        said.append(
            (
                f"{counted(sum(missing.waiting_days for missing in lines), 'boat')} with two slips for a day.",
                f"Neither counts until the director settles it: {counted(waiting, 'fish', 'fish')} at most are left out."
                + _bend(found, waiting),
            )
        )
    unwritten, slips = sum(m.release_unwritten for m in lines), sum(m.slips for m in lines)
    if unwritten:
        said.append(
            (
                f"{unwritten:,} of {slips:,} slips with living fish have no time of release.",
                f"A fish that died between the table and the water may have been missed among "
                f"{counted(sum(m.release_fish for m in lines), 'fish', 'fish')}.",
            )
        )
    unweighed = sum(missing.unweighed for missing in lines)
    if unweighed:
        said.append(
            (
                f"{unweighed:,} of {sum(m.boats for m in lines):,} entries have no slip.",
                "Fish they may have had aboard are in no count here, dead or alive.",
            )
        )
    no_lake = sum(not line.missing.has_lake for line in found.fished)
    if no_lake:
        said.append(
            (
                f"{number(no_lake).capitalize()} of {number(len(found.fished))} events without a lake temperature.",
                "They are in the season’s rate but in nothing that compares days by temperature.",
            )
        )
    return said


def _bend(found: SeasonMortality, waiting: int) -> str:
    if not found.presented or not waiting:
        return ""
    ends = bounds(found.dead, found.presented, waiting)
    return f" Were they all alive or all dead, the season’s rate would lie {between(ends.low, ends.high)}."
