"""The figures of a care plan, each with how it was worked out, its source and the cautions of its act."""

from dataclasses import dataclass

from django.utils.translation import gettext, gettext_noop, ngettext

from weighin.line.domain.flights import MOST_FLIGHTS
from weighin.livewell.figures.estimate import Estimate
from weighin.livewell.figures.units import litres
from weighin.planning.domain.care_plan import OKLAHOMA_FLIGHTS_FROM, CarePlan
from weighin.planning.domain.degrees import step, warmth
from weighin.planning.domain.plan import BAG_KG, BAG_L, Answer
from weighin.planning.domain.quantities import FISH, ICE, US, VOLUME, shown
from weighin.planning.pages import cautions
from weighin.planning.pages.words import SOME_ICE_KG, between, whole_minutes
from weighin.ui.nouns import counted

COLD = gettext_noop("The lake is below 75 °F, where care steps begin (Kansas; Mississippi): none is called for.")


@dataclass(frozen=True)
class Figure:
    """A figure of the plan: what it is of, how it was worked out, where that stands, and what the act can do."""

    name: str
    figure: str
    how: str
    source: str
    cautions: tuple[tuple[str, str], ...] = ()


def figures_of(plan: CarePlan, answer: Answer | None, units: str) -> list[Figure]:
    """Every figure of a plan; ``answer`` is that of a boat's livewell, where there is one."""
    return [
        _fish(plan, units),
        _bags(plan, answer, units),
        _line(plan),
        _flights(plan),
        _tanks(plan, units),
        _helpers(plan),
        _tank_ice(plan, units),
        *([_livewell_ice(plan, answer, units)] if answer else []),
        _oxygen(plan, units),
        _salt(plan, units),
    ]


def _fish(plan: CarePlan, units: str) -> Figure:
    return Figure(
        gettext("Fish, if every boat has its limit"),
        gettext("%(fish)s, %(weight)s")
        % {"fish": counted(plan.fish, "fish"), "weight": shown(plan.kg * 1000, FISH, units)},
        gettext("%(boats)s with %(limit)s fish of %(each)s.")
        % {
            "boats": counted(plan.asked.boats, "boat"),
            "limit": plan.asked.fish,
            "each": shown(plan.asked.mass_g, FISH, units, 2),
        },
        gettext("The event’s rule sheet and the mean weight above."),
    )


def _bags(plan: CarePlan, answer: Answer | None, units: str) -> Figure:
    said = {
        "called": plan.line.bags,
        "most": plan.bags_most,
        "heavy": shown(BAG_KG * 1000, FISH, units),
        "water": shown(BAG_L, VOLUME, units),
    }
    if plan.bags_a_boat is None:
        how = gettext("One such fish is heavier than the %(heavy)s that %(water)s may hold: use a tub.") % said
        return Figure(gettext("Bags"), gettext("none"), how, gettext("Kansas, K.A.R. 115-7-8."))
    words = [
        ngettext(
            "The line has %(called)s boats at once with bags when they are called; a limit fills one bag of %(water)s "
            "with at most %(heavy)s of fish.",
            "The line has %(called)s boats at once with bags when they are called; a limit fills %(bags)s bags of "
            "%(water)s with at most %(heavy)s of fish each.",
            plan.bags_a_boat,
        )
        % {**said, "bags": plan.bags_a_boat},
        gettext("Never more than %(most)s out at once. Bring spares: bags tear.") % said,
    ]
    if answer and answer.bag:
        words.append(
            gettext(
                "A closed bag falls to 5 mg/L of oxygen in about %(minutes)s min at rest (%(range)s), sooner freshly caught."
            )
            % {"minutes": whole_minutes(answer.bag.at_rest.stated), "range": between(answer.bag.at_rest)}
        )
    return Figure(
        gettext("Bags in use at once"),
        f"{plan.bags}",
        " ".join(words),
        gettext(
            "Water and weight: Kansas, K.A.R. 115-7-8. Most at once: Oklahoma’s guidance, five bags for twenty anglers. "
            "Boats: the line’s simulation."
        ),
        said_of(cautions.HANDS),
    )


def _line(plan: CarePlan) -> Figure:
    asked = plan.asked
    flights = (
        gettext("All boats in one flight")
        if asked.flights == 1
        else gettext("%(flights)s due %(apart)s min apart")
        % {"flights": counted(asked.flights, "flight"), "apart": asked.apart_min}
    )
    return Figure(
        gettext("Longest line"),
        gettext("%(boats)s, %(minutes)s min")
        % {"boats": counted(plan.line.boats_in_line, "boat"), "minutes": f"{plan.line.longest_min:.0f}"},
        gettext(
            "%(flights)s, %(scales)s, %(boat)s min a boat: checked in and not yet weighed, and the longest from check-in to "
            "weighed. Nine invented tournaments in ten stay within."
        )
        % {"flights": flights, "scales": counted(asked.scales, "scale"), "boat": f"{asked.line.boat_min:g}"},
        gettext(
            "Simulation of the line, first come first served; it is held against M/M/c and M/D/1. How boats come is assumed."
        ),
    )


def _flights(plan: CarePlan) -> Figure:
    short = plan.short
    figure = gettext("none found") if short is None else counted(short.flights, "flight")
    words = [short_line_in_words(plan)]
    if short is not None and short.flights > 1:
        words.append(
            gettext(
                "At most %(boats)s a flight; the longest wait is then %(minutes)s min. Launch them as far apart as they are "
                "due, so that each fishes as long."
            )
            % {"boats": counted(short.biggest, "boat"), "minutes": f"{short.longest_min:.0f}"}
        )
    return Figure(
        gettext("Flights for %(most)s minutes") % {"most": f"{plan.asked.line.limit_min:g}"},
        figure,
        " ".join(words),
        gettext(
            "Ten minutes from boat to scales: common practice, no source. Oklahoma’s guidance: flights above %(many)s anglers. "
            "Times: the same simulation."
        )
        % {"many": OKLAHOMA_FLIGHTS_FROM},
        said_of(cautions.BOATS),
    )


def _tanks(plan: CarePlan, units: str) -> Figure:
    asked = plan.asked
    tank = shown(asked.tank_l, VOLUME, units)
    return Figure(
        gettext("Tanks of %(tank)s") % {"tank": tank},
        f"{plan.tanks}",
        gettext(
            "The largest of three counts for %(anglers)s: Oklahoma %(oklahoma)s, Kansas %(kansas)s, and %(load)s for the "
            "%(fish)s of the largest flight at %(full)s a tank. Aerated, recirculated, shaded, along the line. A full tank "
            "weighs %(weighs)s."
        )
        % {
            "anglers": counted(asked.anglers, "angler"),
            "oklahoma": plan.tanks_oklahoma,
            "kansas": plan.tanks_kansas,
            "load": plan.tanks_by_load,
            "fish": shown(plan.flight_kg * 1000, FISH, units),
            "full": shown(plan.tank_kg * 1000, FISH, units),
            "weighs": shown(asked.tank_l * 1000, FISH, units),
        },
        gettext(
            "Oklahoma’s guidance: 100 gal for 20 anglers. Kansas above 75 °F: one for 25 (K.A.R. 115-7-8). Load: one "
            "pound a gallon (Keeping Bass Alive); all of a flight at once is our supposition."
        ),
        said_of(cautions.WATER, cautions.TAP_WATER),
    )


def _helpers(plan: CarePlan) -> Figure:
    how = gettext("One for ten anglers, at the tanks and the line.")
    if not plan.warm:
        how += " " + gettext("Asked for from 75 °F on; below it, plan what your tanks want.")
    return Figure(
        gettext("Helpers"),
        f"{plan.helpers}",
        how,
        gettext("Kansas, above 75 °F (K.A.R. 115-7-8)."),
        said_of(cautions.HEAT, cautions.WEATHER),
    )


def _tank_ice(plan: CarePlan, units: str) -> Figure:
    name = gettext("Ice for the tanks")
    if not plan.warm:
        return Figure(name, gettext("none"), gettext(COLD), gettext("Kansas; Mississippi’s guidance."))
    asked = plan.asked
    return Figure(
        name,
        shown(plan.ice_kg * plan.tanks, ICE, units),
        gettext(
            "%(each)s a tank, to take it from %(lake)s down to %(tank)s; hourly readings say what more it takes. Fish go in "
            "after the ice has melted."
        )
        % {
            "each": shown(plan.ice_kg, ICE, units, 1),
            "lake": warmth(asked.lake_c, units),
            "tank": warmth(plan.tank_c, units),
        },
        gettext(
            "Heat balance of ice and water. At most %(step)s below the lake: the event’s rule sheet (a Mississippi State "
            "summary says 7 °F, the handbook 8 to 10, Oklahoma 10; Kansas 5 to 10 °F and never above 85 °F)."
        )
        % {"step": step(asked.step_c, units)},
        said_of(cautions.ICE),
    )


def _livewell_ice(plan: CarePlan, answer: Answer, units: str) -> Figure:
    asked = answer.question
    low, stated, high = (shown(end, ICE, units) for end in answer.ice_kg.ends)
    name = gettext("Ice in the livewells")
    if answer.ice_kg.stated < SOME_ICE_KG:
        how = gettext("On the middle figures none; up to %(high)s in a livewell that warms fast.") % {"high": high}
        return Figure(name, gettext("none"), how, gettext("Heat balance; targets by lake temperature (Schramm)."))
    return Figure(
        name,
        gettext("%(all)s in all") % {"all": shown(answer.ice_kg.stated * plan.asked.boats, ICE, units)},
        gettext(
            "About %(stated)s a boat, between %(low)s and %(high)s: a livewell of %(volume)s, %(hours)s h aboard, air at %(air)s. "
            "Common practice is two bags of ice before launch and two in a cooler. In steps, never all at once."
        )
        % {
            "stated": stated,
            "low": low,
            "high": high,
            "volume": shown(asked.volume_l, VOLUME, units),
            "hours": f"{asked.hours:g}",
            "air": warmth(asked.air_c, units),
        },
        gettext("Heat balance; targets by lake temperature (Schramm). The warming of your livewells is not measured."),
    )


def _oxygen(plan: CarePlan, units: str) -> Figure:
    flow, use = plan.oxygen_l_per_min, plan.oxygen_mg_per_h
    return Figure(
        gettext("Oxygen for a full tank"),
        gettext("%(flow)s L/min") % {"flow": f"{flow.stated:.1f}"},
        gettext(
            "Between %(low)s and %(high)s, if nothing else gave any: %(fish)s of freshly caught fish use %(use)s g an hour "
            "(%(use_low)s to %(use_high)s) at %(tank)s. %(all)s L an hour for all tanks. Aerators and pumps give a part: hold 5 mg/L or "
            "more, and measure."
        )
        % {
            "low": f"{flow.low:.1f}",
            "high": f"{flow.high:.1f}",
            "fish": shown(plan.tank_kg * 1000, FISH, units),
            **_grams(use),
            "tank": warmth(plan.tank_c, units),
            "all": f"{flow.stated * 60 * plan.tanks:,.0f}",
        },
        gettext(
            "Published curves of resting fish. Three times rest for freshly caught, and 15 % of the gas dissolved (5 to 40), "
            "are ours, no source. 5 mg/L is common practice; a Mississippi State summary says 5.5."
        ),
        said_of(cautions.OXYGEN),
    )


def _grams(use: Estimate) -> dict[str, str]:
    low, stated, high = (f"{end / 1000:.0f}" for end in use.ends)
    return {"use_low": low, "use": stated, "use_high": high}


def _salt(plan: CarePlan, units: str) -> Figure:
    dip_l = litres(10) if units == US else 50.0
    return Figure(
        gettext("Salt for the release tanks"),
        shown(plan.salt_kg * plan.tanks, ICE, units, 1),
        gettext(
            "%(each)s a tank for 0.5 %%, non-iodized; or instead a dip of 3 %% (%(dip)s in %(volume)s) for 10 to 15 seconds."
        )
        % {
            "each": shown(plan.salt_kg, ICE, units, 1),
            "dip": shown(plan.dip_kg(dip_l), ICE, units, 1),
            "volume": shown(dip_l, VOLUME, units),
        },
        gettext("Kansas, above 75 °F. Trials of salt, ice and conditioner disagree."),
        said_of(cautions.PRODUCTS),
    )


def said_of(*chosen: tuple[str, str]) -> tuple[tuple[str, str], ...]:
    """Cautions in the reader's language."""
    return tuple((gettext(bold), gettext(rest)) for bold, rest in chosen)


def short_line_in_words(plan: CarePlan) -> str:
    """The flights that keep the longest wait within the limit."""
    most, short = f"{plan.asked.line.limit_min:g}", plan.short
    if short is None:
        return gettext(
            "Not even %(flights)s flights keep everybody within %(most)s minutes: add a scale, or call boats for their bags."
        ) % {"flights": MOST_FLIGHTS, "most": most}
    if short.flights == 1:
        return gettext("All boats together are weighed within %(most)s minutes of check-in.") % {"most": most}
    return gettext("%(flights)s due %(apart)s minutes apart keep everybody within %(most)s minutes.") % {
        "flights": counted(short.flights, "flight"),
        "apart": short.apart_min,
        "most": most,
    }
