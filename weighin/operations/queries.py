"""The event's day in one look: how far it is, and what needs somebody."""

from dataclasses import dataclass, field

from django.urls import reverse

from weighin.accounts.roles import Can
from weighin.events.models import Event, EventDay
from weighin.mortality.catches import catch_of
from weighin.mortality.panel import is_over
from weighin.mortality.stop_level import StopLevel, stop_level
from weighin.operations.lake import lake_needs
from weighin.reports.event_json import WholeEvent, whole_event
from weighin.scale.models import WeighSlip
from weighin.standings.document import stands
from weighin.standings.models import OfficialResult
from weighin.standings.queries import official_results


@dataclass
class Day:
    """What the event's page shows."""

    whole: WholeEvent
    days: list[EventDay]
    weighed: int
    boats: int
    official: OfficialResult | None
    changed_since: bool
    latest: list[WeighSlip]
    lacking_care: list[tuple[int, int]]
    watched: StopLevel | None
    needs: list[tuple[str, str]] = field(default_factory=list)

    @property
    def all_weighed(self) -> bool:
        """Every entered boat has its slip, and no two slips wait for the director."""
        return 0 < self.boats == self.weighed and not self.whole.standings.waiting


def day_of(event: Event, cans: set[Can]) -> Day:
    """Everything the event's page says, with a constant number of queries."""
    whole = whole_event(event)
    standings = whole.standings
    official = next(iter(official_results(event)), None)
    slips = [slip for found in standings.slips.values() for slip in found]
    noted = {(row.day, row.entry.boat) for row in whole.care if row.note is not None}
    day = Day(
        whole=whole,
        days=list(event.event_days.all()),
        weighed=len(standings.weighed),
        boats=len(standings.entered),
        official=official,
        changed_since=official is not None and not stands(official, standings, whole.ledger),
        latest=sorted(slips, key=lambda slip: slip.position, reverse=True)[:5],
        lacking_care=sorted({(s.day, s.entry.boat) for s in slips} - noted),
        watched=stop_level(event, standings.rules, [catch_of(slip) for slip in standings.counting], is_over(event)),
    )
    day.needs = _needs(event, day, cans)
    return day


def _needs(event: Event, day: Day, cans: set[Can]) -> list[tuple[str, str]]:
    """What waits for this member: a sentence and the address to act at."""
    needs = []
    if day.watched and day.watched.warns and not day.watched.is_over:
        needs.append((day.watched.short, f"{reverse('mortality:event', args=[event.slug])}#stop-level"))
    needs += lake_needs(event, cans)
    for slips in day.whole.standings.waiting:
        boat = slips[0].entry.boat
        if Can.MANAGE_EVENT in cans:
            needs.append(
                (
                    f"Boat {boat} has two slips for day {slips[0].day}: which one counts?",
                    reverse("scale:slip", args=[event.slug, slips[0].number]),
                )
            )
    if not day.whole.standings.entries and Can.MANAGE_TEAMS in cans:
        needs.append(("No team is entered: enter the teams.", reverse("roster:teams_new", args=[event.slug])))
    elif not day.latest and Can.RECORD_SLIP in cans and not event.closed_at:
        needs.append(
            (
                "No slip is kept: write the first one when the scales open.",
                reverse("scale:slips_new", args=[event.slug]),
            )
        )
    if day.changed_since and Can.PUBLISH in cans:
        needs.append(
            (
                "Something changed since the official result: publish the next version, or put it right.",
                reverse("standings:results", args=[event.slug]),
            )
        )
    elif day.all_weighed and day.official is None and Can.PUBLISH in cans:
        needs.append(
            (
                "Every boat is weighed: publish the official result when protests are over.",
                reverse("standings:results", args=[event.slug]),
            )
        )
    if day.lacking_care and Can.RECORD_CARE in cans:
        count = len(day.lacking_care)
        needs.append(
            (
                f"{count} weighed {'boat lacks its' if count == 1 else 'boats lack their'} fish-care note.",
                reverse("fishcare:notes", args=[event.slug]),
            )
        )
    return needs
