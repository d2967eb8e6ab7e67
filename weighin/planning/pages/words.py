"""The answer in sentences and figures, in the units people chose."""

from dataclasses import dataclass
from math import ceil

from weighin.livewell.carbon_dioxide import HAULING_LIMIT_MG_L
from weighin.livewell.figures.course import Band
from weighin.livewell.figures.estimate import Estimate
from weighin.livewell.figures.units import DEGREES_F_PER_C
from weighin.livewell.temperature.warming import UNMEASURED_PER_H
from weighin.planning.domain.degrees import step, tenths, warmth
from weighin.planning.domain.plan import BAG_KG, BAG_L, FLOORS_MG_L, Answer, Stop
from weighin.planning.domain.quantities import FISH, ICE, TEMPERATURE, US, VOLUME, figure, shown
from weighin.planning.pages.limit_words import passed_in_words

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


@dataclass(frozen=True)
class IceLine:
    """A row of the ice table; texts are blank where there is nothing to do."""

    clock: str
    found: str
    ice: str
    between: str
    left: str
    changed: bool


@dataclass(frozen=True)
class HourLine:
    """A row of the figures behind the charts."""

    clock: str
    well: str
    figures: tuple[str, ...]


def finding(answer: Answer, system: str) -> str:
    """What matters most of the answer, in two sentences: the limits that it passes first."""
    over = passed_in_words(answer, system)
    return " ".join(over[:2]) if over else f"{_ice_in_short(answer, system)} {_oxygen_in_short(answer)}"


def _ice_in_short(answer: Answer, system: str) -> str:
    if not answer.question.ice:
        return "Without ice."
    stated = answer.ice_kg.stated
    if stated < SOME_ICE_KG:
        return "No ice is needed."
    return f"About {shown(stated, ICE, system, _ice_decimals(answer, system))} of ice over the day."


def _oxygen_in_short(answer: Answer) -> str:
    rest, fresh = answer.oxygen_at_rest, answer.oxygen_freshly_caught
    if fresh.low.lowest >= FLOOR_MG_L:
        return "Oxygen stays above 5 mg/L on every figure we have, for freshly caught fish too."
    if rest.high.lowest < FLOOR_MG_L:
        return "Oxygen falls under 5 mg/L even for fish at rest and the best of pumps."
    if rest.stated.lowest < FLOOR_MG_L:
        return "On the middle figures oxygen falls under 5 mg/L even for fish at rest."
    if fresh.stated.lowest < FLOOR_MG_L:
        return "On the middle figures oxygen holds for fish at rest, and not for freshly caught ones."
    return "On the middle figures oxygen holds; on the worst ones it does not."


def oxygen_finding(answer: Answer) -> str:
    """When the middle figures pass the floor, as the chart's heading."""
    rest, fresh = (b.stated.first_below(FLOOR_MG_L) for b in (answer.oxygen_at_rest, answer.oxygen_freshly_caught))
    if rest is None and fresh is None:
        return "The middle lines stay above 5 mg/L."
    if rest is None:
        return f"At rest the middle line stays above 5 mg/L; freshly caught it is under it {_since(answer, fresh)}."
    return f"The middle line at rest is under 5 mg/L {_since(answer, rest)}, freshly caught {_since(answer, fresh)}."


def carbon_finding(answer: Answer) -> str:
    """When the middle figure passes the hauling advice, as the chart's heading."""
    limit = HAULING_LIMIT_MG_L
    rest, fresh = (b.stated.first_above(limit) for b in (answer.carbon_at_rest, answer.carbon_freshly_caught))
    if rest is None and fresh is None:
        return f"It stays under {limit:.0f} mg/L on the middle figures."
    if rest is None:
        return f"At rest it stays under {limit:.0f} mg/L; freshly caught it passes it {_at(answer, fresh)}."
    return f"It passes {limit:.0f} mg/L {_at(answer, rest)} at rest, {_at(answer, fresh)} freshly caught."


def _since(answer: Answer, hour: float | None) -> str:
    return "" if hour is None else "from the start" if hour == 0 else f"from {clock(answer, hour)} on"


def _at(answer: Answer, hour: float | None) -> str:
    return "" if hour is None else f"at {clock(answer, hour)}"


def clock(answer: Answer, hour: float) -> str:
    """The time of day so many hours after the filling."""
    minute = answer.question.start_minute + round(hour * 60)
    return f"{minute // 60 % 24:02d}:{minute % 60:02d}"


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
        return Fact("Ice for the day", "0", unit, "Planned without ice.")
    low, stated, high = (figure(end, ICE, system, _ice_decimals(answer, system)) for end in answer.ice_kg.ends)
    if answer.ice_kg.high < SOME_ICE_KG:
        hold = warmth(answer.question.hold_c, system)
        return Fact("Ice for the day", "0", unit, f"The well stays below {hold}, where we would begin.")
    measured = answer.question.warming_per_h != UNMEASURED_PER_H
    why = "by your thermometer" if measured else "the warming of your well is not measured"
    says = f"Between {low} and {high} {unit}: {why}. By the hour below."
    gone = answer.ice_gone_h
    if gone is not None:
        says += f" What you carry is used up at {clock(answer, gone)}; the charts suppose that you fetch more."
    elif answer.question.ice_aboard_kg:
        says += " What you carry is enough for the middle figure."
    return Fact("Ice for the day", stated, unit, says)


def _ice_decimals(answer: Answer, system: str) -> int:
    return 0 if ICE.unit(system).from_si(answer.ice_kg.stated) >= 10 else 1


def _drop_fact(answer: Answer, system: str, end: str) -> Fact:
    drop = answer.drop_c
    unit = TEMPERATURE.unit(system).word
    degrees = abs(drop) * (DEGREES_F_PER_C if system == US else 1)
    well = warmth(answer.temperature_c.last, system)
    where = f"The well at {end}: {well}."
    if round(degrees, tenths(system)) == 0:
        return Fact("Well and lake", "0", unit, f"{where} As the lake was at filling.")
    if drop < 0:
        return Fact(
            "Well above the lake", f"{degrees:.{tenths(system)}f}", unit, f"{where} It has warmed since the filling."
        )
    steps = len(answer.plans[1].cooling.steps)
    how = "in one step at filling" if steps == 1 else f"in {steps} steps an hour apart"
    says = f"{where} Down {how}; {step(answer.question.step_c, system)} is the most."
    return Fact("Well below the lake", f"{degrees:.{tenths(system)}f}", unit, says)


def _oxygen_fact(answer: Answer) -> Fact:
    rest, fresh = answer.oxygen_at_rest, answer.oxygen_freshly_caught
    hour = rest.stated.hours[rest.stated.values.index(rest.stated.lowest)]
    says = (
        f"Between {rest.low.lowest:.1f} and {rest.high.lowest:.1f}. Freshly caught, at three times rest: "
        f"{fresh.stated.lowest:.1f}, between {fresh.low.lowest:.1f} and {fresh.high.lowest:.1f}. We keep 5."
    )
    return Fact(f"Lowest oxygen at rest, {clock(answer, hour)}", f"{rest.stated.lowest:.1f}", "mg/L", says)


def _carbon_fact(answer: Answer, end: str) -> Fact:
    rest, fresh = answer.carbon_at_rest, answer.carbon_freshly_caught
    hour = rest.stated.hours[rest.stated.values.index(rest.stated.highest)]
    says = (
        f"Between {rest.low.highest:.0f} and {rest.high.highest:.0f}; freshly caught {fresh.stated.highest:.0f}. "
        f"Hauling advice is to stay under {HAULING_LIMIT_MG_L:.0f}."
    )
    when = end if hour >= answer.question.hours else clock(answer, hour)
    return Fact(f"Most carbon dioxide at rest, {when}", f"{rest.stated.highest:.0f}", "mg/L", says)


def _stop_fact(answer: Answer, end: str) -> Fact:
    rest, fresh, left, _ = answer.stops
    says = (
        f"From water full of oxygen ({rest.start_mg_l:.1f} mg/L) to 5 mg/L: {between(rest.minutes[0])}. "
        f"Freshly caught: {between(fresh.minutes[0])}. From the {left.start_mg_l:.1f} that the plan leaves: "
        f"{between(left.minutes[0])}."
    )
    return Fact(f"Pump stopped at {end}, at rest", whole_minutes(rest.minutes[0].stated), "min", says)


def _bag_facts(answer: Answer, system: str) -> list[Fact]:
    bag = answer.bag
    water, most = shown(BAG_L, VOLUME, system, 0 if system == US else 1), shown(BAG_KG * 1000, FISH, system)
    if bag is None:
        return [Fact("In the bag, at rest", "", "", f"One such fish is heavier than the {most} that {water} may hold.")]
    bags = "One bag" if bag.count == 1 else f"{bag.count} bags, at most {bag.fish} fish in each"
    says = (
        f"{bags}, {water} of water full of oxygen: {between(bag.at_rest)} to 5 mg/L, {between(bag.freshly_caught)} "
        f"freshly caught. Into an aerated tank before that."
    )
    return [Fact("In the bag, at rest", whole_minutes(bag.at_rest.stated), "min", says)]


def whole_minutes(minutes: float) -> str:
    """Minutes rounded down, the cautious side."""
    return f"{int(minutes):,}"


def between(minutes: Estimate) -> str:
    """The range of an estimate of minutes in words."""
    low, high = int(minutes.low), int(minutes.high)
    if minutes.high <= 0:
        return "already below"
    if high == 0:
        return "less than a minute"
    if low == 0:
        return f"up to {high:,}{SPACE}min"
    return f"{low:,}{SPACE}min" if low == high else f"{low:,} to {high:,}{SPACE}min"


def ice_lines(answer: Answer, system: str) -> list[IceLine]:
    """Ice by the hour, with the range that the warming leaves."""

    def ice(kg: float) -> str:
        return figure(kg, ICE, system, 1)

    return [
        IceLine(
            clock=clock(answer, look.hour),
            found=figure(look.found_c, TEMPERATURE, system, tenths(system)),
            ice=ice(look.ice_kg.stated) if look.ice_kg.stated >= SOME_ICE_KG else "",
            between=_ends(ice(look.ice_kg.low), ice(look.ice_kg.high)),
            left=figure(look.left_c, TEMPERATURE, system, tenths(system)),
            changed=look.changed_share > 0,
        )
        for look in answer.icings
    ]


def _ends(low: str, high: str) -> str:
    return "" if low == high else f"{low} to{SPACE}{high}"


def hour_lines(answer: Answer, system: str) -> list[HourLine]:
    """The hours of the day in figures: what the charts draw."""
    hours = [float(hour) for hour in range(ceil(answer.question.hours))] + [answer.question.hours]
    return [
        HourLine(
            clock=clock(answer, hour),
            well=figure(answer.temperature_c.at(hour), TEMPERATURE, system, tenths(system)),
            figures=(
                _range(answer.oxygen_at_rest, hour, 1),
                _range(answer.oxygen_freshly_caught, hour, 1),
                _range(answer.carbon_at_rest, hour, 0),
                _range(answer.carbon_freshly_caught, hour, 0),
            ),
        )
        for hour in hours
    ]


def _range(band: Band, hour: float, decimals: int) -> str:
    low, stated, high = (f"{course.at(hour):.{decimals}f}" for course in (band.low, band.stated, band.high))
    return stated if low == high else f"{stated} ({low} to {high})"


def stop_name(stop: Stop) -> str:
    """Which fish, from which water."""
    fish = "At rest" if stop.times_rest == 1 else "Freshly caught"
    water = "water full of oxygen" if stop.full else "what the plan leaves"
    return f"{fish}, from {water}, {stop.start_mg_l:.1f}{SPACE}mg/L"


def shock(answer: Answer, system: str) -> str:
    """What all the ice aboard would do at once, when that is more than the allowed step; else blank."""
    cold = answer.all_at_once_c
    if cold is None or answer.question.lake_c - cold <= answer.question.step_c + 1e-9:
        return ""
    return (
        f"All {shown(answer.question.ice_aboard_kg or 0, ICE, system, 1)} at once would take the well from "
        f"{warmth(answer.question.lake_c, system)} to {warmth(cold, system)}: a shock."
    )


def weight_of_water(answer: Answer, system: str) -> str:
    """What the well's water weighs."""
    return shown(answer.question.volume_l, ICE, system)


def degree_word(system: str) -> str:
    return TEMPERATURE.unit(system).word


def ice_word(system: str) -> str:
    return ICE.unit(system).word


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
        "warming": f"{warm.stated:.2g} per hour, between {warm.low:.2g} and {warm.high:.2g}",
        "warming_measured": "yes" if warm != UNMEASURED_PER_H else "",
        "transfer": f"{gain.stated:.2g} per hour at 20{SPACE}°C, between {gain.low:.2g} and {gain.high:.2g}",
        "transfer_measured": "yes" if asked.transfer_per_h is not None else "",
    }
