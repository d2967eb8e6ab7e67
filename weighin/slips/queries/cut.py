"""Whether a boat may still have slips: after the cut only the teams that made it fish on."""

from collections.abc import Iterable
from dataclasses import replace

from django.utils.translation import gettext

from weighin.checkin.queries.arrivals import arrivals_of
from weighin.events.domain.table import Table
from weighin.events.models import Event
from weighin.roster.models import Entry
from weighin.roster.queries import reading_table
from weighin.rules.faults import Listed, Said
from weighin.rules.results import ENTERED, Team
from weighin.rules.tournament import DaySlip, fish_on
from weighin.slips.domain.faults import MISSED_CUT, TURNS_OUT_BOAT
from weighin.slips.domain.values import rules_slip
from weighin.slips.models import WeighSlip
from weighin.slips.queries.slips import current_slips, first_readings


def missed_cut(event: Event, table: Table, boat: int, day: int) -> Said | None:
    """The sentence that refuses a boat's first slip of a day after a missed cut, or None.

    A second slip of the boat and day is never refused, nor is what corrects, settles or takes out a slip: do not ask
    for those.
    """
    last = table.rules.cut_after_day
    if last is None or day <= last or boat not in fish_no_more(event, table):
        return None
    another = WeighSlip.objects.current().filter(event=event, entry__boat=boat, day=day).exists()
    return None if another else refusal(boat, last)


def fish_no_more(event: Event, table: Table) -> frozenset[int]:
    """The entered boats that have missed the cut as the slips stand and by the first readings; none without a cut."""
    day = table.rules.cut_after_day
    if day is None:
        return frozenset()
    table = replace(table, arrivals=arrivals_of(event))  # the desk's table knows of none
    teams = [Team(e.boat, e.name, e.status) for e in Entry.objects.filter(event=event)]
    current, first = (
        [DaySlip(slip.entry.boat, slip.day, rules_slip(slip, table)) for slip in found if slip.day <= day]
        for found in (current_slips(event), first_readings(event, day))
    )
    entered = frozenset(team.boat for team in teams if team.status == ENTERED)
    return entered - fish_on(table.rules, teams, current, first)


def has_cut(event: Event) -> bool:
    """Whether the rule sheet has a cut; asked before every slip, so it reads no rules."""
    return bool(event.rule_sheet.written.get("cut_after_day", "none") != "none")


def beyond_cut(event: Event) -> frozenset[int]:
    """The boats that have a slip after the cut and have missed it, as the slips stand; none without a cut."""
    if not has_cut(event):
        return frozenset()
    table = reading_table(event)
    day = table.rules.cut_after_day or 0
    later = frozenset(slip.entry.boat for slip in current_slips(event) if slip.day > day)
    return later & fish_no_more(event, table) if later else later


def turned_out(boats: Iterable[int]) -> Said:
    """Why a boat's first slip of a day is refused that moves the line of the cut over boats that have fished on since."""
    return TURNS_OUT_BOAT.says(boats=Listed(tuple(sorted(boats))))


def refusal(boat: int, day: int) -> Said:
    """Why a slip is refused after the cut."""
    return MISSED_CUT.says(boat=boat, day=day)


def stays_said(boat: int, day: int) -> str:
    """That a boat fishes on although the line of the cut moved over it after it had gone out."""
    stays = gettext(
        "boat %(boat)s made the cut after day %(day)s by the first readings, but not as the slips stand: "
        "it stays among those that fish on"
    )
    return stays % {"boat": boat, "day": day}
