"""The care plan of a day: its form, what it comes to, and when flights would be due."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, time, timedelta

from django.utils.translation import gettext

from weighin.events.models import Event, EventDay, Handling
from weighin.events.queries.events import rules_of
from weighin.line.domain.flights import Flights, sizes
from weighin.planning import queries as for_event
from weighin.planning.domain.care_plan import CarePlan
from weighin.planning.domain.species import fish_of
from weighin.planning.forms.care_plan import CarePlanForm
from weighin.planning.pages import cautions
from weighin.planning.pages.briefing import instead_of_holding, livewell_of
from weighin.planning.pages.care_figures import Figure, figures_of, said_of, short_line_in_words
from weighin.ui import figures
from weighin.ui.nouns import counted


@dataclass(frozen=True)
class Due:
    """A flight of the plan: its place, boats, and the time of day at which it is due."""

    flight: int
    boats: int
    due: str


@dataclass(frozen=True)
class CarePlanPage:
    """What a care plan says of a day. Without ``figures`` the finding says why, and ``reasons`` what instead."""

    finding: str
    reasons: tuple[str, ...] = ()
    figures: tuple[Figure, ...] = ()
    due: tuple[Due, ...] = ()


def care_form(event: Event, day: EventDay, given: Mapping[str, str]) -> CarePlanForm:
    """The form of a day: what was ``given``, else what the event says."""
    return CarePlanForm(
        given,
        for_event.care_plan_values(event, day),
        units=for_event.units_of(event),
        species=fish_of(rules_of(event).species).curve,
        step_c=for_event.step_of(event),
    )


def care_page(event: Event, day: EventDay, form: CarePlanForm) -> CarePlanPage | None:
    """The plan of a form; None while something is to be put right."""
    if event.handling == Handling.IMMEDIATE_RELEASE:
        return CarePlanPage(gettext("Every fish is measured and goes back at once: there is nothing to hold."))
    if event.handling == Handling.HARVEST:
        return CarePlanPage(gettext("The fish are kept: this is no live-release day."))
    if not form.is_valid() or form.plan is None:
        return None
    units = form.units
    values = for_event.planner_values(event, day)
    livewell = livewell_of(
        event, {**values, **{name: str(form.written[name]) for name in ("fish", "each", "lake")}}, units
    )
    answer = None
    if livewell.is_valid():
        instead = instead_of_holding(livewell, rules_of(event), units)
        if instead:
            return CarePlanPage(instead[0], tuple(line.words for line in instead[1]))
        answer = livewell.answer
    plan, due = form.plan, form.cleaned_data["due"]
    return CarePlanPage(
        _finding(plan),
        figures=tuple(figures_of(plan, answer, units)),
        due=_due(plan.short, plan.asked.boats, due) if plan.short else (),
    )


def _finding(plan: CarePlan) -> str:
    named = {
        "boats": counted(plan.asked.boats, "boat"),
        "bags": counted(plan.bags or 0, "bag"),
        "tanks": counted(plan.tanks, "tank"),
    }
    need = gettext("%(boats)s: plan for %(bags)s and %(tanks)s.") % named
    return f"{need} {short_line_in_words(plan)}"


def _due(short: Flights, boats: int, last: time) -> tuple[Due, ...]:
    """The due times of flights, the last at its own."""
    end = datetime.combine(datetime(2000, 1, 2), last)
    return tuple(
        Due(
            place + 1,
            many,
            figures.clock((end - timedelta(minutes=short.apart_min * (short.flights - 1 - place))).time()),
        )
        for place, many in enumerate(sizes(boats, short.flights))
    )


def law() -> tuple[str, str]:
    """What comes before every figure here."""
    return said_of(cautions.LAW)[0]
