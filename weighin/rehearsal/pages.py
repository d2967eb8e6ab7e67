"""A rehearsal as a page for directors: where it stands, where the line breaks, and what another scale would do."""

from dataclasses import dataclass
from typing import Any

from django.utils.translation import gettext, gettext_lazy

from weighin.events.domain import weighed
from weighin.events.models import Event
from weighin.line.pages.day import day_drawn
from weighin.rehearsal.domain.line import Hour, ways
from weighin.rehearsal.domain.report import report_of
from weighin.rehearsal.models import Rehearsal
from weighin.rehearsal.queries.plan import hour_of
from weighin.rehearsal.queries.seen import rehearsal_of, weighed_so_far
from weighin.roster.models import Entry
from weighin.ui.charts import Drawings
from weighin.ui.nouns import counted

NONE, TOO_LATE, RUNS, BROKEN_OFF, ENDED = "none", "too_late", "runs", "broken_off", "ended"
STATE_WORDS = {
    NONE: gettext_lazy("not rehearsed"),
    TOO_LATE: gettext_lazy("begun"),
    RUNS: gettext_lazy("boats come in"),
    BROKEN_OFF: gettext_lazy("broken off"),
    ENDED: gettext_lazy("ended"),
}


@dataclass(frozen=True)
class Choice:
    """A way to run the line: in words, and what its model says of the same boats."""

    words: str
    report: dict[str, Any]
    rehearsed: bool = False


@dataclass(frozen=True)
class RehearsalPage:
    """``begun``: the event itself has a slip, so the rehearsal is over and is to be wiped."""

    state: str
    begun: bool
    teams: int
    rehearsal: Rehearsal | None = None
    limit: float = 0.0
    report: dict[str, Any] | None = None
    choices: tuple[Choice, ...] = ()
    chart: Drawings | None = None

    @property
    def said(self) -> str:
        """The state in words."""
        return str(STATE_WORDS[self.state])

    @property
    def over(self) -> int:
        """Boats whose fish were in the bag for longer than the limit."""
        return round(self.report["over_minutes_share"] * self.report["boats"]) if self.report else 0


def page_of(event: Event) -> RehearsalPage:
    """The page of an event that is no rehearsal itself."""
    begun = weighed.first(event) is not None
    teams = Entry.everyone.filter(event=event, status=Entry.Status.ENTERED).count()
    rehearsal = rehearsal_of(event)
    if rehearsal is None:
        return RehearsalPage(TOO_LATE if begun else NONE, begun, teams)
    state = RUNS if rehearsal.goes_on else ENDED if rehearsal.ended_at else BROKEN_OFF
    seen, hour = weighed_so_far(rehearsal), hour_of(rehearsal)
    report = rehearsal.report or (report_of(seen, len(seen), hour.limit_min, ()) if seen else None)
    return RehearsalPage(
        state,
        begun,
        teams,
        rehearsal,
        hour.limit_min,
        report,
        _choices(hour, rehearsal) if hour.due else (),
        day_drawn(seen, hour.limit_min),
    )


def _choices(hour: Hour, rehearsal: Rehearsal) -> tuple[Choice, ...]:
    more = hour.with_another_scale
    asked = (
        (gettext("%(scales)s, a bag at check-in"), hour, "as they come"),
        (gettext("%(scales)s, a bag at check-in"), more, "as they come"),
        (gettext("%(scales)s, bags given when called"), hour, "called"),
        (gettext("%(scales)s, bags given when called"), more, "called"),
    )
    return tuple(
        Choice(
            words % {"scales": counted(one.scales, "scale")},
            report_of(ways(one, rehearsal.seed, policy), len(one.due), one.limit_min, ()),  # type: ignore[arg-type]
            place == 0,
        )
        for place, (words, one, policy) in enumerate(asked)
    )
