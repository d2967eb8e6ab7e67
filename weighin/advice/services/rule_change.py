"""Change an event's rules after its first slip, with a reason: from the next day on, or for the whole event."""

from collections.abc import Mapping
from datetime import datetime

from django.utils import timezone

from weighin.advice.domain.faults import (
    CHANGE_WITHOUT_REASON,
    CHANGED_SINCE_LOOK,
    NO_RULE_CHANGED,
    NOT_REPLAYED,
    NOT_WEIGHED_YET,
)
from weighin.advice.queries.rule_change import Preview, preview
from weighin.advice.services.season_rules import LONGEST_REASON
from weighin.audit.services import writing
from weighin.events.models import Event
from weighin.events.queries.events import first_slip
from weighin.events.services.revision import lock_open_event
from weighin.events.services.rule_sheet import keep_change
from weighin.rules import rulebook
from weighin.rules.faults import Faults, Wrong
from weighin.rules.rulebook import Rulebook
from weighin.rules.values import line
from weighin.standings.queries.standings import standings_of


def look_at_change(event: Event, said: Mapping[str, str], now: datetime | None = None) -> tuple[Rulebook, Preview]:
    """The changed sheet and what it would do; a blank rule is its default, one that is not said stays.

    Raises Faults with keys, and where no rule changes.
    """
    if first_slip(event) is None:
        raise Faults([NOT_WEIGHED_YET.at("")])
    rules = rulebook.read({**event.rule_sheet.written, **said}, event.weight_unit)
    if wrong := rulebook.cut_faults(rules, event.event_days.count()):
        raise Faults(wrong)
    found = preview(standings_of(event), rules, now or timezone.now())
    if not found.changed:
        raise Faults([NO_RULE_CHANGED.at("")])
    return rules, found


def change_rules_after_slips(
    event: Event,
    said: Mapping[str, str],
    by: str,
    reason: str,
    whole: bool,
    seen: int | None = None,
    now: datetime | None = None,
) -> Preview:
    """Keep the change: ``whole`` for every day, else from the next day on. ``seen`` is the event's revision that was
    looked at; the whole event is held meanwhile.

    Raises Faults as ``look_at_change``; ``reason`` where it is blank, ``counts`` where it cannot count from the next day
    on, and where slips do not tell what the sheet would have made of them.
    """
    with writing():
        held = lock_open_event(event)
        rules, found = look_at_change(held, said, now)
        faults = []
        if seen is not None and seen != held.revision:
            faults.append(CHANGED_SINCE_LOOK.at(""))
        try:
            line(reason, LONGEST_REASON)
        except Wrong as error:
            faults.append(error.at("reason"))
        if not reason.strip():
            faults.append(CHANGE_WITHOUT_REASON.at("reason"))
        if not whole and found.not_by_day:
            faults.append(found.not_by_day)
        if found.replay.refused:
            faults.append(NOT_REPLAYED.at("", why=found.replay.refused))
        if faults:
            raise Faults(faults)
        keep_change(held, rules, " ".join(reason.split()), by, None if whole else found.through, now)
    return found
