"""The event's day in one look: how far it is, and what needs somebody."""

from dataclasses import dataclass, field
from datetime import datetime

from django.db.models import prefetch_related_objects
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext, ngettext

from weighin.accounts.domain.roles import Can
from weighin.events.models import Event, EventDay
from weighin.events.queries.states import BEFORE, Stage, State
from weighin.line.queries import Line, line_of
from weighin.mortality.pages.event_report import is_over as fish_are_over
from weighin.mortality.queries.catches import event_catches
from weighin.mortality.queries.stop_level import StopLevel, stop_level
from weighin.operations.queries.day_tasks import day_tasks
from weighin.operations.queries.open_questions import PUBLISH, open_questions, second_slips
from weighin.reports.queries.event_json import WholeEvent, whole_event
from weighin.safekeeping.queries.backups import Copy, can_drill, copies, drilled, event_today, warnings
from weighin.schedule.queries.notices import told_of
from weighin.schedule.queries.permits import next_due
from weighin.schedule.queries.states import state_of
from weighin.slips.models import WeighSlip
from weighin.standings.models import OfficialResult
from weighin.standings.queries.days import DayCount, days_of, days_said, fished, is_over
from weighin.standings.queries.document import stands
from weighin.standings.queries.protests import open_cases
from weighin.standings.queries.standings import official_results
from weighin.ui.nouns import counted

WEEKS_AHEAD = BEFORE - {Stage.TODAY}  # no slip is missing yet


@dataclass
class Day:
    """What the event's page shows."""

    whole: WholeEvent
    days: list[EventDay]
    official: OfficialResult | None
    changed_since: bool
    latest: list[WeighSlip]
    lacking_care: list[tuple[int, int]]
    counts: list[DayCount]
    watched: StopLevel | None
    state: State
    notice: str
    permit_next: str
    line: Line
    needs: list[tuple[str, str]] = field(default_factory=list)
    backups: list[Copy] = field(default_factory=list)
    drill: tuple[datetime, str, bool] | None = None
    can_drill: bool = True

    @property
    def several(self) -> bool:
        """Whether the event has more than one day: then days are counted, not boats of the whole event."""
        return len(self.days) > 1

    @property
    def latest_count(self) -> DayCount | None:
        """The newest day with a slip, else the first."""
        return next((one for one in reversed(self.counts) if one.begun), next(iter(self.counts), None))

    @property
    def said(self) -> str:
        """Which day is today, and how each day stands."""
        return days_said(self.counts, self.whole.standings.table.calendar.zone, timezone.now())


def day_of(event: Event, cans: set[Can]) -> Day:
    """Everything the event's page says, with a constant number of queries."""
    prefetch_related_objects([event], "event_days", "flights")  # the roll, the line and the questions each ask for them
    whole = whole_event(event)
    standings = whole.standings
    official = next(iter(official_results(event)), None)
    slips = standings.current
    noted = {(row.day, row.entry.boat) for row in whole.care if row.note is not None}
    state = state_of(event)
    day = Day(
        whole=whole,
        days=list(event.event_days.all()),
        official=official,
        changed_since=official is not None and not stands(official, standings, whole.ledger),
        latest=sorted(slips, key=lambda slip: slip.position, reverse=True)[:5],
        lacking_care=sorted({(s.day, s.entry.boat) for s in slips} - noted),
        counts=days_of(standings),
        state=state,
        notice=told_of(event),
        permit_next=next_due(event) if state.stage in BEFORE else "",
        line=line_of(event),
        watched=stop_level(event, standings.rules, event_catches(event, standings.counting), fish_are_over(event)),
    )
    if Can.MANAGE_EVENT in cans:
        day.backups, day.drill, day.can_drill = copies(), drilled(), can_drill()
    day.needs = _needs(event, day, cans)
    return day


def _needs(event: Event, day: Day, cans: set[Can]) -> list[tuple[str, str]]:
    """What waits for this member: a sentence and the address to act at."""
    needs = []
    if day.watched and day.watched.warns and not day.watched.is_over:
        needs.append((day.watched.short, f"{reverse('mortality:event', args=[event.slug])}#stop-level"))
    now = timezone.now()
    if Can.MANAGE_EVENT in cans and event.closed_at is None and event_today(now, event):
        needs += [(sentence, f"{event.get_absolute_url()}#backups") for sentence in warnings(now)]
    needs += day_tasks(event, cans, day.line)
    opened = len(open_cases(event)) if Can.HEAR_PROTESTS in cans else 0
    if opened:
        words = ngettext(
            "%(n)s protest is open: write the ruling.", "%(n)s protests are open: write the rulings.", opened
        )
        needs.append((words % {"n": opened}, reverse("standings:protests", args=[event.slug])))
    if Can.PUBLISH in cans and event.closed_at is None:
        needs += [(f"{q.words} {q.settle}.", q.at) for q in second_slips(event, day.whole.standings)]
    if not day.whole.standings.entries and Can.MANAGE_TEAMS in cans:
        needs.append((gettext("No team is entered: add the teams."), reverse("roster:teams", args=[event.slug])))
    elif not day.latest and Can.RECORD_SLIP in cans and not event.closed_at and day.state.stage not in WEEKS_AHEAD:
        needs.append(
            (
                gettext("No slip yet: add the first one when the scales open."),
                reverse("slips:slips_new", args=[event.slug]),
            )
        )
    if day.changed_since and Can.PUBLISH in cans:
        needs.append(
            (
                gettext("Figures changed since the official results: publish the next version, or correct them."),
                reverse("operations:publish", args=[event.slug]),
            )
        )
    elif Can.PUBLISH in cans and day.official is None and not event.closed_at and is_over(day.counts, timezone.now()):
        count = len(open_questions(event, PUBLISH, day.whole.standings))
        all_in = all(one.is_in for one in fished(day.counts))
        if not count:
            words = (
                gettext("Every boat is weighed: publish the official result when protests are over.")
                if all_in
                else gettext("The event is over: publish the official result when protests are over.")
            )
        elif all_in:
            words = ngettext(
                "Every boat is weighed: %(n)s question is open before the result can be published.",
                "Every boat is weighed: %(n)s questions are open before the result can be published.",
                count,
            )
        else:
            words = ngettext(
                "The event is over: %(n)s question is open before the result can be published.",
                "The event is over: %(n)s questions are open before the result can be published.",
                count,
            )
        needs.append((words % {"n": count}, reverse("operations:publish", args=[event.slug])))
    if day.lacking_care and Can.RECORD_CARE in cans:
        count = len(day.lacking_care)
        boats = counted(count, "weighed boat-day" if len(fished(day.counts)) > 1 else "weighed boat")
        lacks = ngettext("%(boats)s has no care note.", "%(boats)s have no care note.", count)
        needs.append((lacks % {"boats": boats}, reverse("care:notes", args=[event.slug])))
    return needs
