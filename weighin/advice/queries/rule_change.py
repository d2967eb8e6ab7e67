"""A change of an event's rules after its first slip: whom it would move, and whether it can count from the next day on."""

from dataclasses import dataclass, replace
from datetime import datetime

from weighin.advice.domain.faults import (
    CHANGES_CHECKS,
    CHANGES_DAYS_WEIGHED,
    DAY_GOING_ON,
    NO_LATER_DAY,
    RULES_OF_WHOLE_EVENT,
)
from weighin.advice.domain.other_sheet import OtherSheet
from weighin.advice.queries.replay import EventReplay, replayed
from weighin.audit.domain.changes import Changes, changes
from weighin.care.queries.care import care_rows
from weighin.rules.faults import Fault, FieldName, Together
from weighin.rules.rulebook import Rulebook
from weighin.rules.sheets.changes import OF_WHOLE_EVENT
from weighin.standings.queries.days import WEIGHED_BY, DayCount, days_of, fished
from weighin.standings.queries.other_rules import scored_otherwise
from weighin.standings.queries.standings import Standings


@dataclass(frozen=True)
class Preview:
    """What a change would do. ``replay`` is the event as it stands now, had the change counted from the start; ``through``
    the last day begun, None before the first; ``not_by_day`` why the change cannot count from the day after it."""

    changed: Changes
    replay: EventReplay
    through: int | None
    not_by_day: Fault | None


def preview(standings: Standings, rules: Rulebook, now: datetime) -> Preview:
    """Look at ``rules`` in the place of the event's own."""
    days = fished(days_of(standings))
    begun = [day for day in days if has_begun(day, now)]
    changed = changes(standings.rules.written(), rules.written())
    return Preview(
        changed=changed,
        replay=replayed(standings, OtherSheet(rules.written())),
        through=begun[-1].number if begun else None,
        not_by_day=_not_by_day(standings, rules, changed, days, begun, now),
    )


def has_begun(day: DayCount, now: datetime) -> bool:
    """Whether a day is fished already: its start is past, or a slip of it is kept."""
    return day.begun or now >= day.start


def _not_by_day(
    standings: Standings, rules: Rulebook, changed: Changes, days: list[DayCount], begun: list[DayCount], now: datetime
) -> Fault | None:
    if len(begun) == len(days):
        return NO_LATER_DAY.at("counts")
    for day in begun:
        if not day.is_in and now <= day.due + WEIGHED_BY:
            return DAY_GOING_ON.at("counts", day=day.number, weighed=len(day.weighed), boats=len(day.boats))
    whole = tuple(FieldName(key) for key in changed if key in OF_WHOLE_EVENT)
    if whole:
        return RULES_OF_WHOLE_EVENT.at("counts", keys=Together(whole))
    before = {day.number: standings.rules for day in begun}
    slips = scored_otherwise(standings, before, rules)
    if slips:
        boats = Together(tuple(dict.fromkeys(slip.entry.boat for slip in slips)))
        return CHANGES_DAYS_WEIGHED.at("counts", n=len(slips), boats=boats)
    checked = _checked_otherwise(standings, rules, set(before))
    return CHANGES_CHECKS.at("counts", boats=Together(checked)) if checked else None


def _checked_otherwise(standings: Standings, rules: Rulebook, days: set[int]) -> tuple[int, ...]:
    """The boats whose checks of fish care on these days would come out otherwise."""
    before, after = (
        care_rows(standings.event, replace(standings.table, rules=sheet), standings.current)
        for sheet in (standings.rules, rules)
    )
    pairs = zip(before, after, strict=True)
    return tuple(dict.fromkeys(one.entry.boat for one, two in pairs if one.day in days and one.care != two.care))
