"""What a briefing says of one day of an event, from its water, temperature, times and rules."""

from dataclasses import dataclass
from decimal import Decimal

from weighin.events.calendar import write_clock
from weighin.events.models import Event, EventDay, Handling
from weighin.events.queries import calendar_of, rules_of
from weighin.fishcare.briefing.cautions import cautions_for
from weighin.fishcare.planner import for_event
from weighin.fishcare.planner.forms import PlannerForm
from weighin.fishcare.planner.plan import Answer
from weighin.fishcare.planner.quantities import ELEVATION, FISH, ICE, VOLUME, shown
from weighin.fishcare.planner.what_if import alternatives
from weighin.fishcare.planner.words import between, clock, warmth, whole_minutes
from weighin.fishcare.words import minutes
from weighin.livewell.oxygen import saturation_mg_l
from weighin.rules.rulebook import Rulebook
from weighin.rules.values import plain
from weighin.rules.words import sheet_in_words

IN_SHORT = ("Fish", "Dead fish", "Short fish", "Over the limit", "Late")
HEAT_F = Decimal(80)


@dataclass(frozen=True)
class Line:
    """A line of the briefing: what it is about, and its sentences."""

    label: str
    words: str


@dataclass(frozen=True)
class Briefing:
    """One day's briefing. ``finding`` is what matters most; ``permit`` is for members only."""

    event: Event
    day: EventDay
    days: tuple[int, ...]
    finding: str
    times: tuple[Line, ...]
    figures: tuple[Line, ...]
    supposed: str
    care: tuple[Line, ...]
    rules: tuple[Line, ...]
    cautions: tuple[tuple[str, str], ...]


def briefing_of(event: Event, number: int | None = None) -> Briefing | None:
    """The briefing of a day, of the first that was not cancelled when ``number`` is left out; None without such a day."""
    days = [day for day in event.event_days.all() if day.status != EventDay.Status.CANCELLED]
    day = next((each for each in days if number is None or each.number == number), None)
    if day is None:
        return None
    rules = rules_of(event)
    units = for_event.units_of(event)
    values = for_event.planner_values(event, day)
    form = PlannerForm({}, first=values, units=units)
    held = event.handling == Handling.HOLD_RELEASE
    answer = form.answer if held and "lake" in values and form.is_valid() else None
    return Briefing(
        event=event,
        day=day,
        days=tuple(each.number for each in days),
        finding=_finding(event, answer, units),
        times=_times(event, day),
        figures=_figures(answer, rules, units) if answer else (),
        supposed=_supposed(answer, units, "air" in values) if answer else "",
        care=_care(event, rules, answer),
        rules=_in_short(rules),
        cautions=cautions_for(event.handling, rules.species),
    )


def _finding(event: Event, answer: Answer | None, units: str) -> str:
    if event.handling == Handling.IMMEDIATE_RELEASE:
        return "Every fish is measured and goes back at once."
    if event.handling == Handling.HARVEST:
        return "The fish are kept: this is no live-release day."
    if answer is None:
        return "Cold, aerated water, few fish aboard and a short time in the bag keep fish alive."
    lake = warmth(answer.question.lake_c, units)
    if answer.ice_kg.stated < 0.02:
        return f"The lake is at {lake}: no ice is needed. Few fish aboard, the pump on, a short time in the bag."
    return f"The lake is at {lake}: hold the well at {warmth(answer.question.hold_c, units)}, and the pump never stops."


def _times(event: Event, day: EventDay) -> tuple[Line, ...]:
    calendar = calendar_of(event)
    this = calendar.days[day.number]
    names = sorted({name for name, number in calendar.flights if number in (None, day.number)})
    due = [(name, calendar.flights.get((name, day.number), calendar.flights.get((name, None)))) for name in names]
    flights = ", ".join(f"flight {name} {write_clock(at)}" for name, at in due if at is not None)
    return (
        Line("Start", write_clock(this.start)),
        Line("Due", f"{flights}; all others {write_clock(this.due)}" if flights else write_clock(this.due)),
    )


def _figures(answer: Answer, rules: Rulebook, units: str) -> tuple[Line, ...]:
    asked = answer.question
    rest, fresh = answer.stops[0], answer.stops[1]
    full = saturation_mg_l(asked.lake_c, asked.pressure_mmhg)
    lines = [
        Line(
            "The lake",
            f"{warmth(asked.lake_c, units)} at {shown(asked.elevation_m, ELEVATION, units)}: full water holds {full:.1f} mg/L of "
            f"oxygen. We keep {plain(rules.care_min_do)} or more.",
        ),
        _ice(answer, units),
        Line(
            "If the pump stops",
            f"From full water to 5 mg/L: {between(rest.minutes[0])} with fish at rest, {between(fresh.minutes[0])} freshly "
            "caught. Look at it often.",
        ),
        _changes(answer),
    ]
    if answer.bag:
        lines.append(
            Line(
                "In the bag",
                f"Full water falls to 5 mg/L in about {whole_minutes(answer.bag.at_rest.stated)} min at rest "
                f"({between(answer.bag.at_rest)}), sooner freshly caught: walk straight to an aerated tank. The rules allow "
                f"{plain(rules.care_max_bag_minutes)} minutes.",
            )
        )
    return tuple(lines)


def _ice(answer: Answer, units: str) -> Line:
    low, stated, high = (shown(end, ICE, units) for end in answer.ice_kg.ends)
    if answer.ice_kg.high < 0.02:
        return Line("Ice", "None is called for on these figures.")
    first = next(look for look in answer.icings if look.ice_kg.high >= 0.02)
    return Line(
        "Ice",
        f"About {stated}, between {low} and {high}: {shown(first.ice_kg.stated, ICE, units, 1)} at {clock(answer, first.hour)}, then "
        f"a little every hour. Never all at once.",
    )


def _changes(answer: Answer) -> Line:
    """Both sides of changing the water, with their figures."""
    other = next(each.answer for each in alternatives(answer.question) if "change" in each.blanks)
    never = answer.carbon_at_rest.stated.highest
    if other is None:
        return Line("Carbon dioxide", f"Never changing the water it comes to about {never:.0f} mg/L at rest.")
    half = other.carbon_at_rest.stated.highest
    return Line(
        "Carbon dioxide",
        f"About {never:.0f} mg/L at rest if the water is never changed (common practice), {half:.0f} with half of it changed "
        "every 2½ h (the handbook). Hauling advice is under 20.",
    )


def _supposed(answer: Answer, units: str, air_known: bool) -> str:
    asked = answer.question
    air = warmth(asked.air_c, units) if air_known else f"{warmth(asked.air_c, units)} (not written down; supposed)"
    return (
        f"For a well of {shown(asked.volume_l, VOLUME, units)} with {asked.fish} fish of {shown(asked.mass_g, FISH, units, 1)}, "
        f"filled at the start, the air at {air}, the pump running without a break. Ranges are those of published curves and of "
        "warming and pumps that nobody measured on your boat: plan your own well, and measure."
    )


def _care(event: Event, rules: Rulebook, answer: Answer | None) -> tuple[Line, ...]:
    if event.handling == Handling.HARVEST:
        return (Line("At the table", "Keep the fish cool and clean. Kept and given-away fish are written down."),)
    air = "No fish is out of the water for more than 20 to 30 seconds. Wet hands; no dry towel, no hot deck."
    if event.handling == Handling.IMMEDIATE_RELEASE:
        return (Line("On the water", f"Measure wet, mouth closed and flat on the board. {air}"),)
    aboard = "Few fish aboard" if rules.boat_limit is None else f"At most {rules.boat_limit} fish aboard at once"
    held = rules.care_max_held_minutes
    return (
        Line(
            "At the ramp",
            "The pump runs, the lid shuts, a thermometer works, no fish is aboard. Fill once with the cool water of the morning; "
            "with the lake at "
            f"{plain(rules.care_warm_f)} °F or warmer, ice goes in; the well at most {plain(rules.care_max_cooling_f)} °F below the lake.",
        ),
        Line(
            "On the water",
            f"{aboard}; cull only where the law allows it, and early. The pump without a break, not on a timer (common practice). {air}"
            + (" Near 80 °F white crappie have almost no room left to recover: hold fewer." if _is_hot(answer) else "")
            + (f" No fish is held longer than {minutes(held)}." if held is not None else ""),
        ),
        Line(
            "At check-in",
            "Wait for a bag: it is handed out only when the line can take it. Two gallons of water in it, at most 15 lb of fish "
            "(Kansas), and into the tanks along the line.",
        ),
        Line(
            "At the table",
            "Alive, unless the rules say otherwise: stays upright unaided, beats its gills evenly, tries to swim off when touched; judged in "
            "aerated water, before it leaves sight. Any difference is settled before the fish are released.",
        ),
        Line(
            "Release",
            "From a tank or by boat, where it is at least 3 ft deep; dead fish are counted again and go where the agency says.",
        ),
    )


def _is_hot(answer: Answer | None) -> bool:
    if answer is None or answer.question.species == "walleye":
        return False
    return Decimal(str(answer.question.lake_c)) * 9 / 5 + 32 >= HEAT_F - Decimal("0.001")


def _in_short(rules: Rulebook) -> tuple[Line, ...]:
    """The parts of the rule sheet that matter on the water."""
    return tuple(Line(name, " ".join(sentences)) for name, sentences in sheet_in_words(rules) if name in IN_SHORT)
