"""Whether a boat may still have slips: after the cut only the teams that made it fish on."""

from collections.abc import Iterable

from weighin.events.models import Event
from weighin.roster.models import Entry
from weighin.rules.ranking import kept_by_cut
from weighin.rules.results import ENTERED, Team
from weighin.rules.tournament import DaySlip, team_results
from weighin.scale.models import WeighSlip
from weighin.scale.queries import current_slips, table_of
from weighin.scale.reading import SlipValues, Table, rules_slip


def missed_cut(event: Event, table: Table, values: SlipValues, without: WeighSlip | None = None) -> str | None:
    """The sentence that refuses a slip after a missed cut, or None. ``without`` is a slip about to be replaced."""
    day = table.rules.cut_after_day
    if day is None or values.day <= day:
        return None
    return refusal(values.boat, day) if values.boat in fish_no_more(event, table, without) else None


def fish_no_more(event: Event, table: Table, without: WeighSlip | None = None) -> frozenset[int]:
    """The entered boats that have missed the cut as the slips stand; none without a cut."""
    day = table.rules.cut_after_day
    if day is None:
        return frozenset()
    teams = [Team(e.boat, e.name, e.status) for e in Entry.objects.filter(event=event)]
    slips = [
        DaySlip(s.entry.boat, s.day, rules_slip(s, table))
        for s in current_slips(event)
        if s.day <= day and (without is None or s.pk != without.pk)
    ]
    kept = kept_by_cut(table.rules, team_results(table.rules, teams, slips))
    entered = frozenset(team.boat for team in teams if team.status == ENTERED)
    return frozenset() if kept is None else entered - kept


def beyond_cut(event: Event) -> frozenset[int]:
    """The boats that have a slip after the cut and have missed it, as the slips stand; none without a cut."""
    if event.rule_sheet.written.get("cut_after_day", "none") == "none":
        return frozenset()
    table = table_of(event)
    day = table.rules.cut_after_day or 0
    later = frozenset(slip.entry.boat for slip in current_slips(event) if slip.day > day)
    return later & fish_no_more(event, table) if later else later


def turned_out(boats: Iterable[int]) -> str:
    """Why a slip is refused that moves the line of the cut over boats that have fished on since."""
    named = ", ".join(map(str, sorted(boats)))
    return f"with this, boat {named} would have missed the cut, but has a slip after it: take that slip out first"


def refusal(boat: int, day: int) -> str:
    """Why a slip is refused after the cut."""
    return f"boat {boat} missed the cut after day {day}: it has no slips after that day, correct the boat or the day"
