"""Protests with their rulings, the time for them, and what an event's result is by now: live, provisional or official."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any, Literal

from django.utils import timezone

from weighin.events.models import Event
from weighin.standings.models import OfficialResult, Posting, Protest, ProtestTime, Ruling

State = Literal["live", "provisional", "official"]
MINUTES = 30  # common practice, no source: 15 or 30


@dataclass(frozen=True)
class Case:
    """A protest that counts, and the ruling on it if there is one."""

    protest: Protest
    ruling: Ruling | None

    @property
    def number(self) -> int:
        """The number that people call it by."""
        return self.protest.case


@dataclass(frozen=True)
class ResultState:
    """What the result is. ``posted`` and ``until`` (the end of the time for protests) are None while it is live.

    A version that was made official without a posting was posted in that moment, and nobody could protest after it.
    ``open`` and ``ruled`` count protests.
    """

    state: State
    version: int | None
    posted: datetime | None
    until: datetime | None
    open: int
    ruled: int

    @property
    def takes_protests(self) -> bool:
        """Whether the time for protests runs now."""
        return self.state == "provisional" and self.until is not None and timezone.now() < self.until


def minutes_of(event: Event) -> int:
    """For how many minutes protests are taken: as said of the event, else of the club's event that it was last said of."""
    said = ProtestTime.objects.filter(event=event).order_by("-id").first()
    if said is None:
        of_club = ProtestTime.objects.filter(event__season__club=event.season.club_id, event__rehearsal_of=None)
        said = of_club.order_by("-id").first()
    return MINUTES if said is None else said.minutes


def latest_posting(event: Event) -> Posting | None:
    """The provisional result as it was posted last."""
    return Posting.objects.filter(event=event).order_by("-id").first()


def cases_of(event: Event) -> list[Case]:
    """Every protest that counts, by number; two queries whatever their number."""
    rulings = {ruling.case: ruling for ruling in Ruling.objects.current().filter(event=event)}
    protests = Protest.objects.current().filter(event=event).select_related("entry").order_by("case")
    return [Case(protest, rulings.get(protest.case)) for protest in protests]


def open_cases(event: Event) -> list[Case]:
    """The protests on which nothing is ruled yet."""
    return [case for case in cases_of(event) if case.ruling is None]


def result_state(event: Event, cases: Sequence[Case] | None = None) -> ResultState:
    """What the event's result is now; four queries, two where its ``cases`` are there already."""
    official = OfficialResult.objects.filter(event=event).only("version", "published_at").first()
    posting = Posting.objects.filter(event=event).only("posted_at", "minutes").order_by("-id").first()
    cases = cases_of(event) if cases is None else cases
    waiting = sum(case.ruling is None for case in cases)
    posted = posting.posted_at if posting else official.published_at if official else None
    until = posting.posted_at + timedelta(minutes=posting.minutes) if posting else posted
    state: State = "official" if official else "provisional" if posting else "live"
    return ResultState(state, official.version if official else None, posted, until, waiting, len(cases) - waiting)


def state_part(state: ResultState) -> dict[str, Any]:
    """The state as the public JSON gives it: counts, names and words of protests are not in it."""
    return {
        "state": state.state,
        "version": state.version,
        "posted": state.posted and state.posted.isoformat(),
        "protests_until": state.until and state.until.isoformat(),
    }
