"""What a briefing says of one day of an event, from its water, temperature, times and rules."""

from collections.abc import Mapping
from dataclasses import replace

from django.utils.translation import gettext

from weighin.events.domain.measured import minutes
from weighin.events.models import Event, EventDay, Handling
from weighin.events.queries.events import calendar_of, rules_of
from weighin.livewell.carbon_dioxide import HAULING_LIMIT_MG_L
from weighin.livewell.figures.units import fahrenheit
from weighin.livewell.temperature.cooling import ROUNDING
from weighin.planning import queries as for_event
from weighin.planning.domain.briefing import Briefing, Line
from weighin.planning.domain.degrees import warmth
from weighin.planning.domain.limits import within
from weighin.planning.domain.plan import Answer, work_out
from weighin.planning.domain.quantities import ELEVATION, FISH, ICE, VOLUME, shown
from weighin.planning.domain.species import fish_of, marks_of
from weighin.planning.forms.planner import PlannerForm
from weighin.planning.pages.cautions import cautions_for
from weighin.planning.pages.limit_words import INSTEAD, changed_in_words, refusal
from weighin.planning.pages.words import SOME_ICE_KG, between, clock, whole_minutes
from weighin.rules.faults import Together
from weighin.rules.rulebook import Rulebook
from weighin.rules.sheet import keys
from weighin.rules.values import plain
from weighin.rules.words.sheet import sections_in_words
from weighin.ui import figures

IN_SHORT = (keys.FISH, keys.DEAD_FISH, keys.SHORT_FISH, keys.OVER_THE_LIMIT, keys.LATE)
HAULING_MG_L = f"{HAULING_LIMIT_MG_L:.0f}"


def briefing_of(event: Event, number: int | None = None) -> Briefing | None:
    """The briefing of a day, of the first that was not cancelled when ``number`` is left out; None without such a day."""
    days = [day for day in event.event_days.all() if day.status != EventDay.Status.CANCELLED]
    day = next((each for each in days if number is None or each.number == number), None)
    if day is None:
        return None
    rules = rules_of(event)
    units = for_event.units_of(event)
    values = for_event.planner_values(event, day)
    form = livewell_of(event, values, units)
    known = event.handling == Handling.HOLD_RELEASE and "lake" in values and form.is_valid()
    instead = instead_of_holding(form, rules, units) if known else None
    answer = form.answer if known and instead is None else None
    return Briefing(
        event=event,
        day=day,
        days=tuple(each.number for each in days),
        finding=instead[0] if instead else _finding(event, answer, units),
        times=_times(event, day),
        figures=_figures(answer, rules, units) if answer else tuple(instead[1]) if instead else (),
        supposed=_supposed(answer, units, "air" in values) if answer else "",
        care=_care(event, rules, answer, by_length=instead is not None),
        rules=_in_short(rules),
        cautions=cautions_for(event.handling, rules),
    )


def livewell_of(event: Event, values: Mapping[str, str], units: str) -> PlannerForm:
    """The plan of a boat's livewell from ``values``, filled once and its water never changed."""
    return PlannerForm({}, first={**values, "change": "never"}, units=units, step_c=for_event.step_of(event))


def instead_of_holding(form: PlannerForm, rules: Rulebook, units: str) -> tuple[str, list[Line]] | None:
    """Why fish are measured and released today instead of being held: by the rule sheet, or since the lake is too warm.

    ``form`` has been read.
    """
    lake_c, from_f = form.written["lake"].si, rules.measured_lengths_above
    if from_f is not None and fahrenheit(lake_c) >= float(from_f) - ROUNDING:
        finding = gettext("The lake is at %(lake_c)s: today fish are measured and released at once.") % {
            "lake_c": warmth(lake_c, units)
        }
        return finding, [
            Line(
                gettext("Why"),
                gettext("The rule sheet says so from %(from_f)s °F on. No fish is held.") % {"from_f": plain(from_f)},
            )
        ]
    if form.refused is None:
        return None
    finding, (why, instead) = refusal(form.refused.question, units)
    return f"{finding} {gettext(INSTEAD)}", [Line(gettext("Why"), why), Line(gettext("Instead"), instead)]


def _finding(event: Event, answer: Answer | None, units: str) -> str:
    if event.handling == Handling.IMMEDIATE_RELEASE:
        return gettext("Every fish is measured and goes back at once.")
    if event.handling == Handling.HARVEST:
        return gettext("The fish are kept: this is no live-release day.")
    if answer is None:
        return gettext("Cold, aerated water, few fish aboard and a short time in the bag keep fish alive.")
    asked = answer.question
    lake, hold = warmth(asked.lake_c, units), warmth(asked.hold_c, units)
    if answer.ice_kg.stated < SOME_ICE_KG:
        return gettext(
            "The lake is at %(lake)s: no ice is needed. Few fish aboard, the pump on, a short time in the bag."
        ) % {"lake": lake}
    if asked.hold_c > asked.lake_c + ROUNDING:
        return gettext(
            "The lake is at %(lake)s: ice only when the livewell passes %(hold)s, and the pump never stops."
        ) % {
            "lake": lake,
            "hold": hold,
        }
    return gettext("The lake is at %(lake)s: hold the livewell at %(hold)s, and the pump never stops.") % {
        "lake": lake,
        "hold": hold,
    }


def _times(event: Event, day: EventDay) -> tuple[Line, ...]:
    calendar = calendar_of(event)
    this = calendar.days[day.number]
    names = sorted({name for name, number in calendar.flights if number in (None, day.number)})
    due = [(name, calendar.flights.get((name, day.number), calendar.flights.get((name, None)))) for name in names]
    flights = ", ".join(
        gettext("flight %(name)s %(at)s") % {"name": name, "at": figures.clock(at)}
        for name, at in due
        if at is not None
    )
    return (
        Line(gettext("Start"), figures.clock(this.start)),
        Line(
            gettext("Due"),
            gettext("%(flights)s; all others %(due)s") % {"flights": flights, "due": figures.clock(this.due)}
            if flights
            else figures.clock(this.due),
        ),
    )


def _figures(answer: Answer, rules: Rulebook, units: str) -> tuple[Line, ...]:
    asked = answer.question
    rest, fresh = answer.stops[0], answer.stops[1]
    lines = [
        Line(
            gettext("The lake"),
            gettext(
                "%(lake_c)s at %(shown)s: full water holds %(lake_mg_l)s mg/L of oxygen. We keep %(care_min_do)s or more."
            )
            % {
                "lake_c": warmth(asked.lake_c, units),
                "shown": shown(asked.elevation_m, ELEVATION, units),
                "lake_mg_l": f"{asked.lake_mg_l:.1f}",
                "care_min_do": plain(rules.care_min_do),
            },
        ),
        _ice(answer, units),
        Line(
            gettext("If the pump stops"),
            gettext(
                "From full water to 5 mg/L: %(minutes)s with fish at rest, %(fresh_minutes)s freshly caught. Check it often."
            )
            % {"minutes": between(rest.minutes[0]), "fresh_minutes": between(fresh.minutes[0])},
        ),
        _changes(answer),
    ]
    return (*lines, _bag(answer, rules)) if answer.bag else tuple(lines)


def _bag(answer: Answer, rules: Rulebook) -> Line:
    """How long a closed bag lasts beside what the rules allow, which is longer only where tanks stand along the line."""
    assert answer.bag is not None
    lasts, most = answer.bag.at_rest, plain(rules.care_max_bag_minutes)
    said = {"lasts": whole_minutes(lasts.stated), "range": between(lasts), "most": most}
    if lasts.low >= float(rules.care_max_bag_minutes):
        words = gettext(
            "The water of a closed bag falls to 5 mg/L in about %(lasts)s min at rest (%(range)s), sooner freshly caught. The "
            "rules allow %(most)s minutes."
        )
    else:
        words = gettext(
            "The water of a closed bag falls to 5 mg/L in about %(lasts)s min at rest (%(range)s), sooner freshly caught: no "
            "longer outside aerated water. The rules’ %(most)s minutes from bag to scales count on aerated tanks along the line, "
            "with the bag standing in them open or perforated. Without tanks fish stay in the livewell until the boat is called."
        )
    return Line(gettext("In the bag"), words % said)


def _ice(answer: Answer, units: str) -> Line:
    low, stated, high = (shown(end, ICE, units) for end in answer.ice_kg.ends)
    looks = [look for look in answer.icings if look.ice_kg.stated >= SOME_ICE_KG]
    if not looks and answer.ice_kg.high < SOME_ICE_KG:
        return Line(gettext("Ice"), gettext("None is called for on these figures."))
    if not looks:
        most = shown(answer.ice_kg.high, ICE, units, 1)
        return Line(
            gettext("Ice"),
            gettext("None on the middle figures; up to %(most)s in a livewell that warms fast.") % {"most": most},
        )
    first = looks[0]
    words = (
        gettext("About %(stated)s, between %(low)s and %(high)s: %(first)s at %(clock)s, then a little every hour.")
        if len(looks) > 1
        else gettext("About %(stated)s, between %(low)s and %(high)s: %(first)s at %(clock)s.")
    ) % {
        "stated": stated,
        "low": low,
        "high": high,
        "first": shown(first.ice_kg.stated, ICE, units, 1),
        "clock": clock(answer, first.hour),
    }
    never = gettext("Never all at once. Ice of tap water carries chlorine: in sealed bottles.")
    return Line(gettext("Ice"), f"{words} {never}")


def _changes(answer: Answer) -> Line:
    """Both sides of changing the water with their figures, and what keeps within the hauling advice."""
    asked = answer.question
    never = work_out(replace(asked, change_every_h=None, vented=False)).carbon_at_rest.stated.highest
    planned = answer.carbon_at_rest.stated.highest
    said = {"never": f"{never:.0f}", "advice": HAULING_MG_L, "water": _water(answer), "planned": f"{planned:.0f}"}
    if asked.change_every_h is None and not asked.vented:
        words = gettext(
            "Filled once and never changed (common practice) it comes to about %(never)s mg/L at rest; hauling advice is under "
            "%(advice)s."
        )
        return Line(gettext("Carbon dioxide"), words % said)
    words = (
        gettext(
            "Filled once and never changed (common practice) it comes to about %(never)s mg/L at rest, over the %(advice)s of "
            "hauling advice; with %(water)s to %(planned)s."
        )
        if never >= HAULING_LIMIT_MG_L
        else gettext(
            "Filled once and never changed (common practice) it comes to about %(never)s mg/L at rest, under the %(advice)s of "
            "hauling advice; with %(water)s to %(planned)s."
        )
    ) % said
    if planned >= HAULING_LIMIT_MG_L:
        better = within(asked)
        if better:
            words += " " + gettext("Still too much: %(changed)s.") % {"changed": changed_in_words(better.blanks)}
        else:
            words += " " + gettext("Still too much: hold fewer fish.")
    words += " " + gettext("Freshly caught fish give off more.")
    return Line(gettext("Carbon dioxide"), words)


def _water(answer: Answer) -> str:
    """How the plan's water is renewed."""
    asked = answer.question
    parts = []
    if asked.change_every_h:
        hours = f"{asked.change_every_h:g}".replace(".5", "½")
        parts.append(gettext("half of it changed every %(hours)s h") % {"hours": hours})
    if asked.vented:
        parts.append(gettext("the lid open"))
    return Together(tuple(parts)).shown()


def _supposed(answer: Answer, units: str, air_known: bool) -> str:
    asked = answer.question
    air = (
        warmth(asked.air_c, units)
        if air_known
        else gettext("%(air_c)s (not recorded; supposed)") % {"air_c": warmth(asked.air_c, units)}
    )
    return gettext(
        "For a livewell of %(shown)s with %(fish)s fish of %(asked_mass_g)s, filled at the start, the air at %(air)s, the "
        "pump running without a break. Ranges are those of published curves and of warming and pumps that nobody "
        "measured on your boat: plan your own livewell, and measure."
    ) % {
        "shown": shown(asked.volume_l, VOLUME, units),
        "fish": asked.fish,
        "asked_mass_g": shown(asked.mass_g, FISH, units, 1),
        "air": air,
    }


def _care(event: Event, rules: Rulebook, answer: Answer | None, by_length: bool) -> tuple[Line, ...]:
    marks = marks_of(rules.species)
    key = (Line(gettext("Which fish"), marks),) if marks else ()
    if event.handling == Handling.HARVEST:
        return (
            Line(
                gettext("At the table"),
                gettext("Keep the fish cool and clean. Kept and given-away fish are recorded."),
            ),
            *key,
        )
    air = gettext("No fish is out of the water for more than 20 to 30 seconds. Wet hands; no dry towel, no hot deck.")
    nets = gettext(
        "Rubber or knotless nets. A deep hook is cut off short, not pulled, and that fish is culled early where the law "
        "allows culling. Say how many fish were culled: dead ones count as dead."
    )
    if event.handling == Handling.IMMEDIATE_RELEASE or by_length:
        deep = _deep(rules)
        return (
            Line(
                gettext("On the water"),
                gettext("Measure wet, mouth closed and flat on the board. %(air)s %(nets)s%(deep)s")
                % {"air": air, "nets": nets, "deep": deep},
            ),
            *key,
        )
    aboard = (
        gettext("Few fish aboard")
        if rules.boat_limit is None
        else gettext("At most %(boat_limit)s fish aboard at once") % {"boat_limit": rules.boat_limit}
    )
    held = rules.care_max_held_minutes
    renewed = bool(answer and (answer.question.change_every_h or answer.question.vented))
    if answer is None or not renewed:
        fill = gettext("Fill once with the cool water of the morning")
    elif answer.ice_kg.stated >= SOME_ICE_KG:
        fill = gettext("Fill with the cool water of the morning; later %(water)s, and iced again") % {
            "water": _water(answer)
        }
    else:
        fill = gettext("Fill with the cool water of the morning; later %(water)s") % {"water": _water(answer)}
    return (
        Line(
            gettext("At the ramp"),
            gettext(
                "The pump runs, the lid shuts, a thermometer works, no fish is aboard. %(fill)s; with the lake at %(ice_from)s "
                "°F or warmer, ice goes in; the livewell at most %(care_max_cooling_f)s °F below the lake."
            )
            % {
                "fill": fill,
                "ice_from": _ice_from(rules, answer),
                "care_max_cooling_f": plain(rules.care_max_cooling_f),
            },
        ),
        Line(
            gettext("On the water"),
            (
                gettext(
                    "%(aboard)s; cull only where the law allows it, and early. The pump without a break, not on a timer (common "
                    "practice). %(air)s %(nets)s%(heat)s%(deep)s"
                )
                % {"aboard": aboard, "air": air, "nets": nets, "heat": _heat(rules, answer), "deep": _deep(rules)}
            )
            + (
                " " + gettext("No fish is held longer than %(held)s.") % {"held": minutes(held)}
                if held is not None
                else ""
            ),
        ),
        Line(
            gettext("At check-in"),
            gettext(
                "Wait for a bag: you get one only when the line can take it. Two gallons of water in it, at most 15 lb of "
                "fish (Kansas), and into the tanks along the line."
            ),
        ),
        Line(
            gettext("At the table"),
            gettext(
                "Alive, unless the rules say otherwise: stays upright unaided, beats its gills evenly, tries to swim off when "
                "touched; judged in aerated water, before it leaves sight. Any difference is settled before the fish are "
                "released."
            ),
        ),
        *key,
        Line(
            gettext("Release"),
            gettext(
                "From a tank or by boat, where it is at least 3 ft deep, the water circulates and the bottom is hard (Kansas); "
                "dead fish are counted again and go where the agency says."
            ),
        ),
    )


def _ice_from(rules: Rulebook, answer: Answer | None) -> str:
    """From which lake temperature ice goes in, °F: the rule sheet's, for walleye their own where it is lower."""
    kind = fahrenheit(answer.question.care_c) if answer else float(rules.care_warm_f)
    return plain(rules.care_warm_f) if kind >= float(rules.care_warm_f) else f"{kind:.0f}"


def _heat(rules: Rulebook, answer: Answer | None) -> str:
    kind = fish_of(rules.species)
    if answer is None or answer.question.lake_c < kind.heat_from_c - ROUNDING:
        return ""
    return f" {gettext(kind.heat[0])} " + gettext("Hold fewer.")


def _deep(rules: Rulebook) -> str:
    if rules.deep_fish_kept_ft is None:
        return ""
    return " " + gettext(
        "Fish from %(deep_fish_kept_ft)s ft or deeper are kept where the law allows it, not released: from deep water few live."
    ) % {"deep_fish_kept_ft": plain(rules.deep_fish_kept_ft)}


def _in_short(rules: Rulebook) -> tuple[Line, ...]:
    """The parts of the rule sheet that matter on the water."""
    return tuple(Line(name, " ".join(sentences)) for name, sentences in sections_in_words(rules, IN_SHORT))
