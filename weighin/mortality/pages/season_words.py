"""A season's dead fish in sentences, for page, paper and JSON alike."""

from django.utils.translation import gettext, ngettext

from weighin.mortality.domain.words import (
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
from weighin.mortality.queries.season import SeasonEvent, SeasonMortality
from weighin.survival.clusters import CORRELATION
from weighin.survival.missing import bounds
from weighin.survival.nested import SAME_DAY
from weighin.ui.figures import short_day as short_day_said


def title(found: SeasonMortality) -> str:
    """The season in one sentence, one number said in words."""
    rate = found.headline
    if rate is None:
        return gettext("No fish has been brought to the scales this season.")
    if found.dead in (0, found.presented):
        return f"{dead_of(found.dead, found.presented)}."
    return gettext("%(about)s dead by release.") % {"about": about(rate.rate)}


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
        return gettext("%(not_none)s the true rate may still be anything up to %(high)s, %(one_in)s.") % {
            "not_none": not_none(found.presented),
            "high": percent(rate.high),
            "one_in": one_in(rate.high),
        }
    if found.dead == found.presented:
        return gettext("The true rate may be anything from %(low)s upward.") % {"low": percent(rate.low)}
    one = gettext("this one event") if len(found.fished) == 1 else gettext("just these two events")
    whose = gettext("events like these") if found.range_is_of_such_events else one
    return ngettext(
        "%(dead)s of %(presented)s fish was dead by release: %(rate)s seen. For %(whose)s, %(limits)s (95 %% range). Fish "
        "that died unseen are not in it.",
        "%(dead)s of %(presented)s fish were dead by release: %(rate)s seen. For %(whose)s, %(limits)s (95 %% range). Fish "
        "that died unseen are not in it.",
        found.dead,
    ) % {
        "dead": f"{found.dead:,}",
        "presented": f"{found.presented:,}",
        "rate": percent(rate.rate),
        "whose": whose,
        "limits": limits(rate),
    }


def range_explained(found: SeasonMortality) -> str:
    """Why the headline's range is the one it is, with the other one beside it."""
    pooled = found.pooled
    if pooled is None:
        return ""
    fish, wells, events = counted(found.presented, "fish"), found.livewells, len(found.fished)
    if found.dead in (0, found.presented):
        return (
            gettext(
                "%(fish)s in %(livewells)s at %(events)s. As none died, how alike the fish of a livewell or a day are cannot be "
                "seen. It is assumed (correlations of %(correlation)s and %(same_day)s)."
            )
            if found.dead == 0
            else gettext(
                "%(fish)s in %(livewells)s at %(events)s. As all died, how alike the fish of a livewell or a day are cannot be "
                "seen. It is assumed (correlations of %(correlation)s and %(same_day)s)."
            )
        ) % {
            "fish": fish,
            "livewells": counted(wells, "livewell"),
            "events": counted(events, "event"),
            "correlation": f"{CORRELATION:g}",
            "same_day": f"{SAME_DAY:g}",
        }
    if not found.range_is_of_such_events:
        these = pooled.these_events
        return ngettext(
            "The range allows for whole livewells dying together: %(fish)s in %(livewells)s tell about as much as "
            "%(effective_n)s held one by one. One event cannot tell how days differ, so the range says nothing of others.",
            "The range allows for whole livewells dying together: %(fish)s in %(livewells)s tell about as much as "
            "%(effective_n)s held one by one. Two events cannot tell how days differ, so the range says nothing of others.",
            events,
        ) % {"fish": fish, "livewells": counted(wells, "livewell"), "effective_n": f"{these.effective_n:,.0f}"}
    such, these = pooled.such_events, pooled.these_events
    return gettext(
        "The range counts each of the %(events)s events as one, since the fish of a day share its lake, weather and "
        "line: %(fish)s tell about as much as %(effective_n)s held one by one (design effect %(design_effect)s). For "
        "just these %(events)s events it is %(these)s."
    ) % {
        "events": number(events),
        "fish": fish,
        "effective_n": f"{such.effective_n:,.0f}",
        "design_effect": f"{such.design_effect:.1f}",
        "these": limits(these),
    }


def stop_said(found: SeasonMortality) -> str:
    """The season's range against the stop level, which was set for single events."""
    if found.headline is None or found.stop is None:
        return ""
    said = against_stop(found.headline, found.stop)
    return (
        f"{said} " + gettext("The level was not the same at every event; this is the latest.")
        if found.stops_differ
        else said
    )


def events_title(found: SeasonMortality) -> str:
    """How many events lay above the stop level or below it with their whole range, and for how many it is open."""
    rates = [(line.rate, line.stop) for line in found.fished if line.rate]
    sure = sum(rate.low > stop for rate, stop in rates)
    maybe = sum(rate.low <= stop < rate.high for rate, stop in rates)
    below = len(rates) - sure - maybe
    if len(rates) == 1:
        if maybe:
            return gettext("Whether the one event was below the stop level is open.")
        return (
            gettext("The one event was clearly above the stop level.")
            if sure
            else gettext("The one event was clearly below the stop level.")
        )
    both = len(rates) == 2
    for count, all_were, both_were in (
        (
            sure,
            gettext("All %(events)s events were clearly above the stop level."),
            gettext("Both events were clearly above the stop level."),
        ),
        (
            below,
            gettext("All %(events)s events were clearly below the stop level."),
            gettext("Both events were clearly below the stop level."),
        ),
        (
            maybe,
            gettext("For all %(events)s events it is open whether they were below the stop level."),
            gettext("For both events it is open whether they were below the stop level."),
        ),
    ):
        if count == len(rates):
            return (both_were if both else all_were) % {"events": number(count)}
    parts = []
    if sure:
        parts.append(
            ngettext("%(n)s was clearly above the stop level", "%(n)s were clearly above the stop level", sure)
            % {"n": number(sure)}
        )
    if below:
        parts.append(
            ngettext("%(n)s was clearly below the stop level", "%(n)s were clearly below the stop level", below)
            % {"n": number(below)}
        )
    said = (
        gettext("Of %(events)s events %(parts)s; for %(maybe)s it is open.")
        if maybe
        else gettext("Of %(events)s events %(parts)s.")
    )
    return said % {"events": number(len(rates)), "parts": listed(parts), "maybe": number(maybe)}


def event_note(line: SeasonEvent, unit: str) -> str:
    """Day, water and lake of an event in short."""
    parts = [short_day_said(line.event.date), line.event.water.name]
    if line.lake:
        parts.append(line.lake.said(unit))
    return ", ".join(parts)


def study_said(line: SeasonEvent) -> str:
    """What an event's holding study showed, with its fish."""
    study = line.study
    if study is None:
        return ""
    if study.basis == "reference":
        held = gettext(
            "%(dead)s of %(fish)s fish held were dead%(hours)s, %(reference_dead)s of %(reference_fish)s reference fish."
        )
        later = gettext("Delayed mortality beyond the reference fish: %(delayed)s.")
    elif study.basis == "no_reference":
        held = gettext(
            "%(dead)s of %(fish)s fish held were dead%(hours)s; there were no reference fish, so deaths from being held are in it."
        )
        later = gettext("Delayed mortality: %(delayed)s.")
    else:
        held = gettext("%(dead)s of %(fish)s fish held were dead%(hours)s; %(unusable)s.")
        later = gettext("Delayed mortality: %(delayed)s.")
    after = gettext("after %(hours)s hours") % {"hours": listed(study.hours, either=True)}
    held %= {
        "dead": study.tournament.dead,
        "fish": study.tournament.fish,
        "hours": f" {after}" if study.hours else "",
        "reference_dead": study.reference.dead,
        "reference_fish": study.reference.fish,
        "unusable": study.unusable,
    }
    later %= {"delayed": delayed_said(study.delayed, study.basis)}
    return f"{line.event.name}: {held} {later} {study.few_pens}".strip()


def missing_said(found: SeasonMortality) -> list[tuple[str, str]]:
    """What the season's count leaves out, over all events."""
    lines = [line.missing for line in found.events]
    said: list[tuple[str, str]] = []
    if found.provisional:
        said.append(
            (
                ngettext(
                    "%(provisional)s of %(events)s with fish has no official result: the season is provisional.",
                    "%(provisional)s of %(events)s with fish have no official result: the season is provisional.",
                    found.provisional,
                )
                % {
                    "provisional": number(found.provisional).capitalize(),
                    "events": counted(len(found.fished), "event"),
                },
                gettext("Slips may still be corrected or settled there, and the season’s rate with them."),
            )
        )

    def events_with(has: str) -> int:
        return sum(bool(getattr(missing, has)) for missing in lines)

    waiting = sum(missing.waiting_fish for missing in lines)
    if events_with("waiting_days"):
        said.append(
            (
                gettext("%(boats)s with two slips for a day.")
                % {"boats": counted(sum(missing.waiting_days for missing in lines), "boat")},
                gettext("Neither counts until the director settles it: %(fish)s at most are left out.")
                % {"fish": counted(waiting, "fish")}
                + _bend(found, waiting),
            )
        )
    unwritten, slips = sum(m.release_unwritten for m in lines), sum(m.slips for m in lines)
    if unwritten:
        said.append(
            (
                gettext("%(unwritten)s of %(slips)s slips with living fish have no time of release.")
                % {"unwritten": f"{unwritten:,}", "slips": f"{slips:,}"},
                gettext("A fish that died between the table and the water may have been missed among %(fish)s.")
                % {"fish": counted(sum(m.release_fish for m in lines), "fish")},
            )
        )
    unweighed = sum(missing.unweighed for missing in lines)
    if unweighed:
        said.append(
            (
                gettext("%(unweighed)s of %(boats)s entries have no slip.")
                % {"unweighed": f"{unweighed:,}", "boats": f"{sum(m.boats for m in lines):,}"},
                gettext("Fish they may have had aboard are in no count here, dead or alive."),
            )
        )
    no_lake = sum(not line.missing.has_lake for line in found.fished)
    if no_lake:
        said.append(
            (
                gettext("%(no_lake)s of %(fished)s events without a lake temperature.")
                % {"no_lake": number(no_lake).capitalize(), "fished": number(len(found.fished))},
                gettext("They are in the season’s rate but in nothing that compares days by temperature."),
            )
        )
    return said


def _bend(found: SeasonMortality, waiting: int) -> str:
    if not found.presented or not waiting:
        return ""
    ends = bounds(found.dead, found.presented, waiting)
    return " " + gettext("Were they all alive or all dead, the season’s rate would lie %(low)s.") % {
        "low": between(ends.low, ends.high)
    }
