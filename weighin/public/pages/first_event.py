"""From an account to a published result: the steps of a club's first event, each with its page and whether it is done."""

from collections.abc import Collection
from dataclasses import dataclass, replace

from django.urls import reverse
from django.utils.translation import gettext

from weighin.clubs.models import Club
from weighin.events.models import Event
from weighin.events.queries.events import club_events, listed
from weighin.events.queries.states import Stage
from weighin.stations.models import Station
from weighin.ui.ways import can_of

OF_A_CLUB = ("events:club", "clubs:seasons_new", "clubs:waters_new", "clubs:edit", "events:new")


@dataclass(frozen=True)
class Step:
    """One step: what to do and why, its page (empty before it can be opened), and ``done``, ``next`` or ``later``."""

    words: str
    why: str
    url: str = ""
    state: str = "later"


def steps_for_all() -> list[Step]:
    """The steps for who has not signed in: the first one is next."""
    first, *others = _steps()
    return [replace(first[0], url=reverse("accounts:sign_in"), state="next"), *(step for step, _, _ in others)]


def steps_of(club: Club, cans: Collection[str]) -> tuple[list[Step], Event | None]:
    """The steps of the club by what is kept of it, with the pages that somebody with ``cans`` may open; and the event of
    which they are, the coming one, else the newest."""
    rows = listed(club_events(club).select_related("rule_sheet"))
    row = next(iter(sorted((row for row in rows if row.ahead), key=lambda row: row.event.date) or rows), None)
    done = [True, True, club.seasons.exists(), club.waters.exists(), row is not None]
    if row is not None:
        done += [
            bool(row.event.rule_sheet.written) or row.begun,
            row.teams > 0,
            row.begun or Station.objects.filter(event=row.event).exists(),
            row.begun,
            row.state.stage is Stage.OFFICIAL,
        ]
    steps = _steps()
    marks = [*done, *[False] * len(steps)][: len(steps)]
    first = marks.index(False) if False in marks else len(steps)
    found = []
    for at, (step, todo, kept) in enumerate(steps):
        name = kept if marks[at] else todo
        slug = club.slug if name in OF_A_CLUB else row.event.slug if row is not None else ""
        asked = can_of(name, 1) if slug and name else None
        url = reverse(name, args=[slug]) if slug and name and (asked is None or asked in cans) else ""
        found.append(replace(step, url=url, state="done" if marks[at] else "next" if at == first else "later"))
    return found, row.event if row is not None else None


def _steps() -> list[tuple[Step, str, str]]:
    """Each step with the page on which it is done, and the page where what was done stands."""
    return [
        (
            Step(
                gettext("Sign in"),
                gettext("A director invites you by a link. On an empty site you set up the first director yourself."),
            ),
            "",
            "",
        ),
        (
            Step(gettext("Have a club"), gettext("All pages of an event belong to its club.")),
            "",
            "events:club",
        ),
        (
            Step(gettext("Add a season"), gettext("Points and fish of its events are added up.")),
            "clubs:seasons_new",
            "clubs:edit",
        ),
        (
            Step(gettext("Add a lake"), gettext("Its elevation goes into the oxygen figures.")),
            "clubs:waters_new",
            "clubs:edit",
        ),
        (
            Step(
                gettext("Add an event"),
                gettext("Its name, date, start and due time. Get your agency’s permit first where one is needed."),
            ),
            "events:new",
            "operations:day",
        ),
        (
            Step(gettext("Set the rules"), gettext("Limit, penalties, prizes. The first slip locks them.")),
            "events:rules",
            "events:rules",
        ),
        (
            Step(gettext("Add the teams"), gettext("One by one, or import a list.")),
            "roster:teams",
            "roster:teams",
        ),
        (
            Step(
                gettext("Pair a tablet"),
                gettext("It keeps slips without a network. You can also weigh on this device."),
            ),
            "stations:stations",
            "stations:stations",
        ),
        (
            Step(
                gettext("Weigh the first boat"),
                gettext("Fish alive and dead, and the weight. The score explains itself."),
            ),
            "stations:scales_table",
            "slips:slips",
        ),
        (
            Step(
                gettext("Publish the result"),
                gettext("The page lists what is still open. Then everyone can read the result."),
            ),
            "operations:publish",
            "standings:results",
        ),
    ]
