"""The act that an event wants next of who looks at it: the one filled button of its day, its club's page and the way in."""

from collections.abc import Collection, Iterator
from dataclasses import dataclass

from django.urls import reverse
from django.utils import timezone
from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from weighin.accounts.domain.roles import Can
from weighin.events.models import Event, EventDay
from weighin.events.queries.states import Stage, State
from weighin.schedule.domain.hours import hours_of


@dataclass(frozen=True)
class Act:
    """What to do next, and where."""

    words: str | Promise
    url: str


_STANDINGS = (Can.VIEW_EVENT, _("Open the standings"), "standings:live")
_BRIEFING = (Can.VIEW_EVENT, _("Open the briefing"), "planning:briefing")
# By stage: what it takes, the words, the page; the first that somebody can do is theirs
_ACTS: dict[Stage, tuple[tuple[Can, str | Promise, str], ...]] = {
    Stage.PLANNED: ((Can.MANAGE_TEAMS, _("Add the teams"), "roster:teams"), _BRIEFING),
    Stage.ENTRIES_OPEN: (
        (Can.MANAGE_TEAMS, _("Open the desk"), "registration:desk"),
        (Can.RECORD_CARE, _("Open the care plan"), "planning:care_plan"),
        _BRIEFING,
    ),
    Stage.ENTRIES_CLOSED: ((Can.MANAGE_EVENT, _("Open the care plan"), "planning:care_plan"), _BRIEFING),
    Stage.WEIGHING: (
        (Can.RECORD_SLIP, _("Open the scale table"), "stations:scales_table"),
        (Can.RECORD_CARE, _("Add care notes"), "care:notes"),
        _STANDINGS,
    ),
    Stage.PAST: ((Can.RECORD_SLIP, _("Add a slip"), "slips:slips_new"), _BRIEFING),
    Stage.PROVISIONAL: (
        (Can.PUBLISH, _("Publish the official results"), "operations:publish"),
        (Can.HEAR_PROTESTS, _("Open the protests"), "standings:protests"),
        (Can.RECORD_CARE, _("Add care notes"), "care:notes"),
        _STANDINGS,
    ),
    Stage.OFFICIAL: (
        (Can.PUBLISH, _("Close the event"), "operations:close"),
        (Can.TAKE_MONEY, _("Pay the prizes"), "registration:pay_outs"),
        (Can.VIEW_EVENT, _("Open the official results"), "standings:results"),
    ),
    Stage.POSTPONED: ((Can.MANAGE_EVENT, _("Edit the days"), "events:setup"), _BRIEFING),
    Stage.CANCELLED: ((Can.MANAGE_EVENT, _("Add the next event"), "operations:next_event"),),
}
_BEFORE_THE_START = ((Can.RECORD_CARE, _("Check the boats"), "care:ramp"),)
_ON_THE_WATER = (
    (Can.RECORD_SLIP, _("Check boats in"), "checkin:roll"),
    (Can.RECORD_CARE, _("Check the boats"), "care:ramp"),
    (Can.MANAGE_TEAMS, _("Open the desk"), "registration:desk"),
    _STANDINGS,
)


def next_act(event: Event, state: State, cans: Collection[Can]) -> Act | None:
    """What to do next by the event's state, for somebody who can do these; None where nothing is left to do."""
    for can, words, name in _acts(event, state.stage):
        if can in cans:
            return Act(words, reverse(name, args=[event.slug]))
    return None


def _acts(event: Event, stage: Stage) -> Iterator[tuple[Can, str | Promise, str]]:
    if event.closed_at is not None and stage != Stage.CANCELLED:
        yield from _ACTS[Stage.OFFICIAL][2:] if stage == Stage.OFFICIAL else (_STANDINGS,)
    elif stage == Stage.TODAY:
        begun = any(hours_of(event, day).start <= timezone.now() for day in event.event_days.all())
        yield from (() if begun else _BEFORE_THE_START)
        yield from _ON_THE_WATER
    elif stage == Stage.PROVISIONAL and _has_days_left(event):
        yield _STANDINGS
    elif not (event.rehearsal_of_id and stage == Stage.CANCELLED):
        yield from _ACTS[stage]


def _has_days_left(event: Event) -> bool:
    """Whether a day is still to come: nothing is published between two days."""
    left = (day for day in event.event_days.all() if day.status != EventDay.Status.CANCELLED)
    return any(hours_of(event, day).due > timezone.now() for day in left)
