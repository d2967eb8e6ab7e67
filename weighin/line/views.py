"""The line's page: who is called, minutes in bag, hold and resume; and the plan before the day."""

import uuid
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import timedelta
from hashlib import sha256
from typing import Any

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext
from django.views.decorators.cache import cache_control
from django.views.decorators.http import condition, require_http_methods, require_POST, require_safe

from weighin.accounts.domain.roles import Can
from weighin.clubs.access import can_in, cans_in, require
from weighin.events.access import allow
from weighin.events.domain.calendar import Calendar
from weighin.events.models import Event
from weighin.events.queries.events import calendar_of, lake_temperatures, rules_of
from weighin.line.forms import PlanForm, SayForm, TermsForm, new_word
from weighin.line.models import LineWord
from weighin.line.pages import words
from weighin.line.pages.day import day_drawn, day_rows, day_said
from weighin.line.queries import OVER_MINUTES, Line, Standing, day_of, line_of, terms_of
from weighin.line.services.words import say, sentence, set_terms
from weighin.roster.models import Entry
from weighin.ui import figures

Said = LineWord.Said
LAST_WORDS = 12
STEP = 30  # seconds after which the part is told anew though nothing was written: its minutes went on
HALF_DAY = timedelta(hours=12)


@dataclass(frozen=True)
class Row:
    """A boat in the line as the page shows it; ``keys`` are the ids of the words its buttons would say."""

    standing: Standing
    minutes: str
    words: str
    over: bool
    over_words: str
    waits: str
    keys: tuple[uuid.UUID, uuid.UUID]

    @property
    def number(self) -> str:
        """The boat's number as text."""
        return str(self.standing.boat)

    @property
    def since(self) -> str:
        """When the bag was given, for the script that counts on."""
        return self.standing.bag_issued.isoformat() if self.standing.bag_issued else ""


@require_safe
@allow(Can.VIEW_EVENT)
def line(request: HttpRequest, event: Event) -> HttpResponse:
    """The line as it stands."""
    return _page(request, event, _day_asked(request, event))


def _tag(request: HttpRequest, event: Event) -> str:
    now = "" if event.closed_at else int(timezone.now().timestamp() // STEP)
    asked = (event.pk, event.revision, event.name, request.GET.get("day", "")[:4], request.user.pk, now)
    parts = (*asked, *sorted(cans_in(request.user, event.club)))
    return 'W/"' + sha256("\n".join(map(str, parts)).encode()).hexdigest()[:24] + '"'


@require_safe
@allow(Can.VIEW_EVENT)
@cache_control(private=True, no_cache=True)
@condition(etag_func=_tag)
def line_part(request: HttpRequest, event: Event) -> HttpResponse:
    """The part of the page that asks again by itself: 304 while nothing changed, for half a minute at most."""
    return render(request, "line/part.html", _context(request, event, _day_asked(request, event)))


@require_POST
@allow(Can.VIEW_EVENT)
def line_say(request: HttpRequest, event: Event) -> HttpResponse:
    """Say something in the line. Bags are the scales' matter; a line is held and let go by fish care too."""
    form = SayForm(request.POST, auto_id=f"{request.POST.get('said', '')[:20]}_%s")
    of_bags = request.POST.get("said") not in (Said.HOLD, Said.OXYGEN, Said.RESUME)
    if of_bags or not can_in(request.user, event.club, Can.RECORD_CARE):
        require(request.user, event.club, Can.RECORD_SLIP)
    calendar = calendar_of(event)
    day = _day_in(request.POST.get("day", ""), calendar) or day_of(event)
    if form.attempt(
        lambda data: say(
            event,
            day,
            data["said"],
            request.user.get_username(),
            word_id=data["word_id"],
            boat=data["boat"],
            person=data["person"],
            oxygen_minutes=data["oxygen_minutes"],
            remark=data["remark"],
        )
    ):
        kept: LineWord = form.kept
        messages.info(request, f"{sentence(kept)}, {figures.clock(kept.at, calendar.zone)}.")
        return redirect(_address(event, day))
    return _page(request, event, day, form)


@require_http_methods(["GET", "HEAD", "POST"])
@allow(Can.VIEW_EVENT)
def line_plan(request: HttpRequest, event: Event) -> HttpResponse:
    """How long a line, how many bags and scales; and what the line is run by on the day."""
    may_set = can_in(request.user, event.club, Can.RECORD_SLIP) and not event.closed_at
    terms = terms_of(event)
    now = {name: getattr(terms, name) for name in ("scales", "bags", "walk_seconds", "boat_seconds")}
    form = TermsForm(request.POST or None, initial=now)
    if request.method == "POST":
        require(request.user, event.club, Can.RECORD_SLIP)
        if form.attempt(lambda data: set_terms(event, request.user.get_username(), **data)):
            messages.info(request, gettext("The line uses these figures from now on."))
            return redirect("line:line", event.slug)
    first = {
        "boats": str(max(1, event.entries.filter(status=Entry.Status.ENTERED).count())),
        "over": str(OVER_MINUTES),
        "shape": "bunched",
        "boat_minutes": words.plain(terms.boat_seconds / 60),
        "walk": words.plain(terms.walk_seconds / 60),
        "limit": words.plain(float(rules_of(event).care_max_bag_minutes)),
        "bags": "",
    }
    asked = PlanForm({name: request.GET.get(name, value)[:20] for name, value in first.items()}, auto_id="asked_%s")
    context = {
        "event": event,
        "asked": asked,
        "plan": asked.plan(),
        "terms": terms,
        "form": form,
        "may_set": may_set,
    }
    return render(request, "line/plan.html", context)


def _page(request: HttpRequest, event: Event, day: int, refused: SayForm | None = None) -> HttpResponse:
    context = _context(request, event, day, refused)
    found: Line = context["line"]
    ways, weighed = found.ways, found.bag_minutes.weighed
    drawn = {
        "drawn": day_drawn(ways, found.limit, weighed),
        "day_said": day_said(ways, weighed),
        "seen": day_rows(ways, context["calendar"], day),
    }
    return render(request, "line/line.html", {**context, **drawn})


def _context(request: HttpRequest, event: Event, day: int, refused: SayForm | None = None) -> dict[str, Any]:
    calendar = calendar_of(event)
    found = line_of(event, day)
    can_bag = can_in(request.user, event.club, Can.RECORD_SLIP) and not event.closed_at
    can_care = can_in(request.user, event.club, Can.RECORD_CARE) and not event.closed_at
    spoken = LineWord.objects.filter(event=event, day=day).select_related("entry").order_by("-at", "-id")[:LAST_WORDS]
    hold = refused if refused and refused.attempt_of(Said.HOLD) else new_word(day, Said.HOLD)
    resume = refused if refused and refused.attempt_of(Said.RESUME) else new_word(day, Said.RESUME)
    oxygen_due = found.hold.oxygen_due if found.hold else None
    return {
        "event": event,
        "line": found,
        "days": calendar.fished,
        "going_on": _going_on(found, calendar),
        "calendar": calendar,
        "zone": calendar.zone,
        "advice": words.advice(found, calendar.zone, event.closed_at is not None),
        "bags": _rows(found, found.with_bag),
        "waiting": _rows(found, found.waiting),
        "out": _rows(found, found.out),
        "stands_on": words.stands_on(found.service, _going_on(found, calendar)),
        "expected": words.expected_wait(found),
        "today": words.today(found),
        "bag_oxygen": words.bag_oxygen(lake_temperatures(event).get(day)),
        "left_words": words.LEFT,
        "over_now": [one for one in found.with_bag if found.over(one)],
        "oxygen_due": oxygen_due,
        "oxygen_late": oxygen_due is not None and oxygen_due <= found.now,
        "spoken": [(word, sentence(word)) for word in spoken],
        "may_run": can_bag,
        "may_hold": can_bag or can_care,
        "hold_form": hold,
        "hold_now": new_word(day, Said.HOLD),
        "resume_form": resume,
        "oxygen_form": new_word(day, Said.OXYGEN),
        "refused": refused,
        "part": f"{reverse('line:line_part', args=[event.slug])}?day={day}",
    }


def _going_on(found: Line, calendar: Calendar) -> bool:
    """Whether the day is one on which somebody may come in: today's, yesterday's night, or with boats in the line."""
    today = found.now.astimezone(calendar.zone).date()
    in_line = found.waiting or found.with_bag or found.hold
    return bool(in_line) or abs((today - calendar.days[found.day].date).days) <= 1


def _rows(found: Line, standings: Iterable[Standing]) -> list[Row]:
    return [
        Row(
            standing=one,
            minutes=words.minutes_in_bag(one, found.now),
            words=words.bag_words(found, one),
            over=found.over(one),
            over_words=words.over_words(one),
            waits=_waits(found, one),
            keys=(uuid.uuid4(), uuid.uuid4()),
        )
        for one in standings
    ]


def _waits(found: Line, one: Standing) -> str:
    if one.checked_in is None or found.now - one.checked_in > HALF_DAY:
        return ""
    return gettext("waits %(now)s") % {"now": words.about(one.minutes_in_line(found.now))}


def _day_asked(request: HttpRequest, event: Event) -> int:
    asked = request.GET.get("day", "")
    if not asked:
        return day_of(event)
    day = _day_in(asked, calendar_of(event))
    if day is None:
        raise Http404(gettext("There is no day %(asked)s in this event.") % {"asked": asked[:20]})
    return day


def _day_in(asked: str, calendar: Calendar) -> int | None:
    return next((day for day in calendar.days if asked == str(day)), None)


def _address(event: Event, day: int) -> str:
    here = reverse("line:line", args=[event.slug])
    return here if day == day_of(event) else f"{here}?day={day}"
