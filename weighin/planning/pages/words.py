"""The answer in sentences and figures, in the units people chose."""

from dataclasses import dataclass
from datetime import time

from django.utils.translation import gettext, ngettext

from weighin.livewell.carbon_dioxide import HAULING_LIMIT_MG_L
from weighin.livewell.figures.estimate import Estimate
from weighin.livewell.figures.units import DEGREES_F_PER_C
from weighin.livewell.temperature.warming import UNMEASURED_PER_H
from weighin.planning.domain.degrees import step, tenths, warmth
from weighin.planning.domain.plan import BAG_KG, BAG_L, FLOORS_MG_L, Answer, Stop
from weighin.planning.domain.quantities import FISH, ICE, TEMPERATURE, US, VOLUME, figure, shown
from weighin.planning.pages.limit_words import passed_in_words
from weighin.ui import figures

FLOOR_MG_L = FLOORS_MG_L[0]
SPACE = "\u00a0"
SOME_ICE_KG = 0.02  # less is not worth opening the lid for


@dataclass(frozen=True)
class Fact:
    """A name, a figure with its unit, and the sentence that says what it means."""

    name: str
    figure: str
    unit: str
    says: str


def finding(answer: Answer, system: str) -> str:
    """What matters most of the answer, in two sentences: the limits that it passes first."""
    over = passed_in_words(answer, system)
    return " ".join(over[:2]) if over else f"{_ice_in_short(answer, system)} {_oxygen_in_short(answer)}"


def _ice_in_short(answer: Answer, system: str) -> str:
    if not answer.question.ice:
        return gettext("Without ice.")
    stated = answer.ice_kg.stated
    if stated < SOME_ICE_KG:
        return gettext("No ice is needed.")
    return gettext("About %(shown)s of ice over the day.") % {
        "shown": shown(stated, ICE, system, _ice_decimals(answer, system))
    }


def _oxygen_in_short(answer: Answer) -> str:
    rest, fresh = answer.oxygen_at_rest, answer.oxygen_freshly_caught
    if fresh.low.lowest >= FLOOR_MG_L:
        return gettext("Oxygen stays above 5 mg/L on every figure we have, for freshly caught fish too.")
    if rest.high.lowest < FLOOR_MG_L:
        return gettext("Oxygen falls under 5 mg/L even for fish at rest and the best of pumps.")
    if rest.stated.lowest < FLOOR_MG_L:
        return gettext("On the middle figures oxygen falls under 5 mg/L even for fish at rest.")
    if fresh.stated.lowest < FLOOR_MG_L:
        return gettext("On the middle figures oxygen holds for fish at rest, and not for freshly caught ones.")
    return gettext("On the middle figures oxygen holds; on the worst ones it does not.")


def oxygen_finding(answer: Answer) -> str:
    """When the middle figures pass the floor, as the chart's heading."""
    rest, fresh = (b.stated.first_below(FLOOR_MG_L) for b in (answer.oxygen_at_rest, answer.oxygen_freshly_caught))
    if rest is None and fresh is None:
        return gettext("The middle lines stay above 5 mg/L.")
    if rest is None:
        return gettext("At rest the middle line stays above 5 mg/L; freshly caught it is under it %(at_rest)s.") % {
            "at_rest": _since(answer, fresh)
        }
    return gettext("The middle line at rest is under 5 mg/L %(at_rest)s, freshly caught %(freshly_caught)s.") % {
        "at_rest": _since(answer, rest),
        "freshly_caught": _since(answer, fresh),
    }


def carbon_finding(answer: Answer) -> str:
    """When the middle figure passes the hauling advice, as the chart's heading."""
    limit = HAULING_LIMIT_MG_L
    rest, fresh = (b.stated.first_above(limit) for b in (answer.carbon_at_rest, answer.carbon_freshly_caught))
    if rest is None and fresh is None:
        return gettext("It stays under %(limit)s mg/L on the middle figures.") % {"limit": f"{limit:.0f}"}
    if rest is None:
        return gettext("At rest it stays under %(limit)s mg/L; freshly caught it passes it %(at_rest)s.") % {
            "limit": f"{limit:.0f}",
            "at_rest": _at(answer, fresh),
        }
    return gettext("It passes %(limit)s mg/L %(at_rest)s at rest, %(freshly_caught)s freshly caught.") % {
        "limit": f"{limit:.0f}",
        "at_rest": _at(answer, rest),
        "freshly_caught": _at(answer, fresh),
    }


def _since(answer: Answer, hour: float | None) -> str:
    return (
        ""
        if hour is None
        else gettext("from the start")
        if hour == 0
        else gettext("from %(clock)s on") % {"clock": clock(answer, hour)}
    )


def _at(answer: Answer, hour: float | None) -> str:
    return "" if hour is None else gettext("at %(clock)s") % {"clock": clock(answer, hour)}


def clock(answer: Answer, hour: float) -> str:
    """The time of day so many hours after the filling."""
    minute = answer.question.start_minute + round(hour * 60)
    return figures.clock(time(minute // 60 % 24, minute % 60))


def facts(answer: Answer, system: str) -> list[Fact]:
    """What you need, one line each."""
    end = clock(answer, answer.question.hours)
    return [
        _ice_fact(answer, system),
        _drop_fact(answer, system, end),
        _oxygen_fact(answer),
        _carbon_fact(answer, end),
        _stop_fact(answer, end),
        *_bag_facts(answer, system),
    ]


def _ice_fact(answer: Answer, system: str) -> Fact:
    unit = ICE.unit(system).word
    if not answer.question.ice:
        return Fact(gettext("Ice for the day"), "0", unit, gettext("Planned without ice."))
    low, stated, high = (figure(end, ICE, system, _ice_decimals(answer, system)) for end in answer.ice_kg.ends)
    if answer.ice_kg.high < SOME_ICE_KG:
        hold = warmth(answer.question.hold_c, system)
        return Fact(
            gettext("Ice for the day"),
            "0",
            unit,
            gettext("The livewell stays below %(hold)s, where we would begin.") % {"hold": hold},
        )
    says = (
        gettext("Between %(low)s and %(high)s %(unit)s: by your thermometer. By the hour below.")
        if answer.question.warming_per_h != UNMEASURED_PER_H
        else gettext(
            "Between %(low)s and %(high)s %(unit)s: the warming of your livewell is not measured. By the hour below."
        )
    ) % {"low": low, "high": high, "unit": unit}
    gone = answer.ice_gone_h
    if gone is not None:
        says += " " + gettext("What you carry is used up at %(clock)s; the charts suppose that you fetch more.") % {
            "clock": clock(answer, gone)
        }
    elif answer.question.ice_aboard_kg:
        says += " " + gettext("What you carry is enough for the middle figure.")
    return Fact(gettext("Ice for the day"), stated, unit, says)


def _ice_decimals(answer: Answer, system: str) -> int:
    return 0 if ICE.unit(system).from_si(answer.ice_kg.stated) >= 10 else 1


def _drop_fact(answer: Answer, system: str, end: str) -> Fact:
    drop = answer.drop_c
    unit = TEMPERATURE.unit(system).word
    degrees = abs(drop) * (DEGREES_F_PER_C if system == US else 1)
    well = warmth(answer.temperature_c.last, system)
    where = gettext("The livewell at %(end)s: %(well)s.") % {"end": end, "well": well}
    if round(degrees, tenths(system)) == 0:
        return Fact(gettext("Livewell and lake"), "0", unit, f"{where} " + gettext("As the lake was at filling."))
    if drop < 0:
        return Fact(
            gettext("Livewell above the lake"),
            f"{degrees:.{tenths(system)}f}",
            unit,
            f"{where} " + gettext("It has warmed since the filling."),
        )
    steps = len(answer.plans[1].cooling.steps)
    down = ngettext(
        "Down in one step at filling; %(most)s is the most.",
        "Down in %(steps)s steps an hour apart; %(most)s is the most.",
        steps,
    ) % {"steps": steps, "most": step(answer.question.step_c, system)}
    says = f"{where} {down}"
    return Fact(gettext("Livewell below the lake"), f"{degrees:.{tenths(system)}f}", unit, says)


def _oxygen_fact(answer: Answer) -> Fact:
    rest, fresh = answer.oxygen_at_rest, answer.oxygen_freshly_caught
    hour = rest.stated.hours[rest.stated.values.index(rest.stated.lowest)]
    says = gettext(
        "Between %(lowest)s and %(high_lowest)s. Freshly caught, at three times rest: %(stated_lowest)s, between "
        "%(low_lowest)s and %(fresh_high)s. We keep 5."
    ) % {
        "lowest": f"{rest.low.lowest:.1f}",
        "high_lowest": f"{rest.high.lowest:.1f}",
        "stated_lowest": f"{fresh.stated.lowest:.1f}",
        "low_lowest": f"{fresh.low.lowest:.1f}",
        "fresh_high": f"{fresh.high.lowest:.1f}",
    }
    return Fact(
        gettext("Lowest oxygen at rest, %(clock)s") % {"clock": clock(answer, hour)},
        f"{rest.stated.lowest:.1f}",
        "mg/L",
        says,
    )


def _carbon_fact(answer: Answer, end: str) -> Fact:
    rest, fresh = answer.carbon_at_rest, answer.carbon_freshly_caught
    hour = rest.stated.hours[rest.stated.values.index(rest.stated.highest)]
    says = gettext(
        "Between %(highest)s and %(high_highest)s; freshly caught %(stated_highest)s. Hauling advice is to stay under %(hauling_limit_mg_l)s."
    ) % {
        "highest": f"{rest.low.highest:.0f}",
        "high_highest": f"{rest.high.highest:.0f}",
        "stated_highest": f"{fresh.stated.highest:.0f}",
        "hauling_limit_mg_l": f"{HAULING_LIMIT_MG_L:.0f}",
    }
    when = end if hour >= answer.question.hours else clock(answer, hour)
    return Fact(
        gettext("Most carbon dioxide at rest, %(when)s") % {"when": when}, f"{rest.stated.highest:.0f}", "mg/L", says
    )


def _stop_fact(answer: Answer, end: str) -> Fact:
    rest, fresh, left, _ = answer.stops
    says = gettext(
        "From water full of oxygen (%(start_mg_l)s mg/L) to 5 mg/L: %(minutes)s. Freshly caught: %(fresh_minutes)s. From "
        "the %(left_start_mg_l)s that the plan leaves: %(left_minutes)s."
    ) % {
        "start_mg_l": f"{rest.start_mg_l:.1f}",
        "minutes": between(rest.minutes[0]),
        "fresh_minutes": between(fresh.minutes[0]),
        "left_start_mg_l": f"{left.start_mg_l:.1f}",
        "left_minutes": between(left.minutes[0]),
    }
    return Fact(
        gettext("Pump stopped at %(end)s, at rest") % {"end": end}, whole_minutes(rest.minutes[0].stated), "min", says
    )


def _bag_facts(answer: Answer, system: str) -> list[Fact]:
    bag = answer.bag
    water, most = shown(BAG_L, VOLUME, system, 0 if system == US else 1), shown(BAG_KG * 1000, FISH, system)
    if bag is None:
        return [
            Fact(
                gettext("In the bag, at rest"),
                "",
                "",
                gettext("One such fish is heavier than the %(most)s that %(water)s may hold.")
                % {"most": most, "water": water},
            )
        ]
    says = ngettext(
        "One bag, %(water)s of water full of oxygen: %(at_rest)s to 5 mg/L, %(fresh)s freshly caught. Into an aerated tank before "
        "that.",
        "%(bags)s bags, at most %(fish)s fish in each, %(water)s of water full of oxygen: %(at_rest)s to 5 mg/L, %(fresh)s freshly "
        "caught. Into an aerated tank before that.",
        bag.count,
    ) % {
        "bags": bag.count,
        "fish": bag.fish,
        "water": water,
        "at_rest": between(bag.at_rest),
        "fresh": between(bag.freshly_caught),
    }
    return [Fact(gettext("In the bag, at rest"), whole_minutes(bag.at_rest.stated), "min", says)]


def whole_minutes(minutes: float) -> str:
    """Minutes rounded down, the cautious side."""
    return f"{int(minutes):,}"


def between(minutes: Estimate) -> str:
    """The range of an estimate of minutes in words."""
    low, high = int(minutes.low), int(minutes.high)
    if minutes.high <= 0:
        return gettext("already below")
    if high == 0:
        return gettext("less than a minute")
    if low == 0:
        return gettext("up to %(high)s min") % {"high": f"{high:,}"}
    return (
        f"{low:,}{SPACE}min"
        if low == high
        else gettext("%(low)s to %(high)s min") % {"low": f"{low:,}", "high": f"{high:,}"}
    )


def stop_name(stop: Stop) -> str:
    """Which fish, from which water."""
    fish = gettext("At rest") if stop.times_rest == 1 else gettext("Freshly caught")
    water = gettext("water full of oxygen") if stop.full else gettext("what the plan leaves")
    return gettext("%(fish)s, from %(water)s, %(start_mg_l)s mg/L") % {
        "fish": fish,
        "water": water,
        "start_mg_l": f"{stop.start_mg_l:.1f}",
    }


def shock(answer: Answer, system: str) -> str:
    """What all the ice aboard would do at once, when that is more than the allowed step; else blank."""
    cold = answer.all_at_once_c
    if cold is None or answer.question.lake_c - cold <= answer.question.step_c + 1e-9:
        return ""
    return gettext("All %(shown)s at once would take the livewell from %(lake_c)s to %(cold)s: a shock.") % {
        "shown": shown(answer.question.ice_aboard_kg or 0, ICE, system, 1),
        "lake_c": warmth(answer.question.lake_c, system),
        "cold": warmth(cold, system),
    }


def weight_of_water(answer: Answer, system: str) -> str:
    """What the well's water weighs."""
    return shown(answer.question.volume_l, ICE, system)


def in_a_row(answer: Answer | None, system: str) -> tuple[str, ...]:
    """An answer in five figures: ice, well, lowest oxygen, most carbon dioxide, minutes with the pump stopped."""
    if answer is None:
        return ()
    return (
        figure(answer.ice_kg.stated, ICE, system, _ice_decimals(answer, system)).removesuffix(".0"),
        figure(answer.temperature_c.last, TEMPERATURE, system, tenths(system)),
        f"{answer.oxygen_at_rest.stated.lowest:.1f}",
        f"{answer.carbon_at_rest.stated.highest:.0f}",
        whole_minutes(answer.stop_at_rest.minutes[0].stated),
    )


def unknown(answer: Answer) -> dict[str, str]:
    """The coefficients used, with their ends, and whether they were measured."""
    asked = answer.question
    warm, gain = asked.warming_per_h, answer.transfer_per_h
    return {
        "warming": gettext("%(stated)s per hour, between %(low)s and %(high)s")
        % {"stated": f"{warm.stated:.2g}", "low": f"{warm.low:.2g}", "high": f"{warm.high:.2g}"},
        "warming_measured": "yes" if warm != UNMEASURED_PER_H else "",
        "transfer": gettext("%(stated)s per hour at 20 °C, between %(low)s and %(high)s")
        % {"stated": f"{gain.stated:.2g}", "low": f"{gain.low:.2g}", "high": f"{gain.high:.2g}"},
        "transfer_measured": "yes" if asked.transfer_per_h is not None else "",
    }
