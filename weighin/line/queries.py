"""Where every boat of a day stands between check-in and scales, and how long bags were out."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, time, timedelta
from statistics import median
from typing import Literal

from django.db.models import Case, Q, When
from django.utils import timezone

from weighin.checkin.models import CheckIn
from weighin.events.domain.calendar import Calendar
from weighin.events.models import Event
from weighin.events.queries.events import calendar_of, rules_of
from weighin.line.domain import forecast, learning
from weighin.line.domain.day import Way
from weighin.line.domain.learning import Service, Weighing
from weighin.line.models import LineTerms, LineWord
from weighin.roster.models import Entry
from weighin.roster.queries import crew_of, named_anglers
from weighin.slips.models import WeighSlip

Place = Literal["waiting", "bag", "scales", "out"]
Said = LineWord.Said
MINUTE = timedelta(minutes=1)
OF_A_BAG = (Said.BAG_ISSUED, Said.AT_SCALES, Said.BAG_BACK)
CONTESTANTS_A_BAG = 4  # Oklahoma agency guidance: at most five bags for twenty contestants
SCALES, WALK_SECONDS, BOAT_SECONDS = 1, 60, 150  # common practice, no source
OVER_MINUTES = 45  # boats come in over so long until somebody says otherwise; common practice, no source


@dataclass(frozen=True)
class Standing:
    """A boat that is not weighed yet: where it stands, and since when.

    ``place`` is waiting (checked in, no bag), bag (has one), scales (somebody said so) or out (taken out of the line).
    """

    boat: int
    team: str
    flight: str
    place: Place
    checked_in: datetime | None
    bag_issued: datetime | None = None
    at_scales: datetime | None = None
    issued_by: str = ""

    def minutes_in_bag(self, now: datetime) -> float:
        """Minutes since the bag was given; 0 without one."""
        return 0.0 if self.bag_issued is None else max(0.0, (now - self.bag_issued) / MINUTE)

    def minutes_in_line(self, now: datetime) -> float:
        """Minutes since check-in; 0 where no time was noted."""
        return 0.0 if self.checked_in is None else max(0.0, (now - self.checked_in) / MINUTE)


@dataclass(frozen=True)
class Hold:
    """A line that is held: since when, by whom, who lets it go on, and when oxygen is to be looked at."""

    since: datetime
    by: str
    resumes: str
    note: str
    oxygen_due: datetime | None


@dataclass(frozen=True)
class Terms:
    """What the line is run by: of the event, else the defaults (``chosen`` False)."""

    scales: int
    bags: int
    walk_seconds: int
    boat_seconds: int
    chosen: bool = False


@dataclass(frozen=True)
class BagMinutes:
    """Minutes in the bag of the boats weighed on a day whose bag has a time, on the slip or in the line."""

    boats: int
    weighed: int
    middle: float | None
    longest: float | None
    over: int
    limit: float


@dataclass(frozen=True)
class Line:
    """The line of one day at one moment; ``waiting`` is in the order in which bags go out, ``ways`` those of the
    boats weighed, in the order of weighing."""

    day: int
    now: datetime
    waiting: tuple[Standing, ...]
    bags: tuple[Standing, ...]
    at_scales: tuple[Standing, ...]
    out: tuple[Standing, ...]
    hold: Hold | None
    terms: Terms
    service: Service
    limit: float
    last_weighed: datetime | None
    bag_minutes: BagMinutes
    ways: tuple[Way, ...]

    @property
    def with_bag(self) -> tuple[Standing, ...]:
        """Every boat with a bag out, those at the scales first, then by when the bag was given."""
        return (*self.at_scales, *self.bags)

    def over(self, standing: Standing) -> bool:
        """Whether its fish have been in the bag for longer than the rule sheet's limit."""
        return standing.minutes_in_bag(self.now) > self.limit

    @property
    def next_bag(self) -> forecast.Word:
        """Whether the next bag is to be given now, by today's minutes."""
        return forecast.word(
            now=0.0,
            bags_out=self._bags_out(),
            scales=self.terms.scales,
            service=self.service,
            walk_min=self.terms.walk_seconds / 60,
            limit_min=self.limit,
            bags=self.terms.bags,
        )

    @property
    def wait_for_weight(self) -> float:
        """Minutes that the next boat to check in may expect to wait until it is weighed."""
        found = forecast.forecast(
            now=0.0,
            bags_out=self._bags_out(),
            scales=self.terms.scales,
            service=self.service,
            walk_min=self.terms.walk_seconds / 60,
            ahead=len(self.waiting),
        )
        return found.in_bag

    def _bags_out(self) -> list[forecast.BagOut]:
        walk = self.terms.walk_seconds / 60
        return [
            forecast.BagOut(
                ready=walk - one.minutes_in_bag(self.now),
                began=None if one.at_scales is None else (one.at_scales - self.now) / MINUTE,
            )
            for one in self.with_bag
        ]


def day_of(event: Event, now: datetime | None = None) -> int:
    """The day whose line is shown: today's, else the last one that was fished before today, else the first."""
    calendar = calendar_of(event)
    return _day(calendar, now or timezone.now())


def line_of(event: Event, day: int | None = None, now: datetime | None = None, as_of: datetime | None = None) -> Line:
    """The line of a day as it stands ``now``: eight queries at most, whatever the number of boats.

    With ``as_of`` the minutes in bags are those of the slips that were current then.
    """
    now = now or timezone.now()
    calendar = calendar_of(event)
    day = _day(calendar, now) if day is None else day
    entries = {entry.pk: entry for entry in event.entries.all()}
    words = list(LineWord.objects.filter(event=event, day=day).order_by("at", "id"))
    slips = list(WeighSlip.objects.filter(event=event, day=day).select_related("replaced_by").order_by("position"))
    terms = terms_of(event)
    limit = float(rules_of(event).care_max_bag_minutes)
    came = _checked_in(event, day)
    last = _last_of_each(words)
    current = [slip for slip in slips if _current(slip)]
    then = current if as_of is None else WeighSlip.objects.current_at(as_of).filter(event=event, day=day)
    weighed = {slip.entry_id for slip in current}
    received = {slip.entry_id: slip.received_at for slip in slips}
    shown = [
        standing
        for pk, entry in entries.items()
        if pk not in weighed
        and (pk in came or pk in last)
        and (standing := _standing(entry, came.get(pk), _live(last.get(pk, []), received.get(pk)))) is not None
    ]
    return Line(
        day=day,
        now=now,
        waiting=_in_order(one for one in shown if one.place == "waiting"),
        bags=tuple(sorted((one for one in shown if one.place == "bag"), key=lambda one: (one.bag_issued, one.boat))),
        at_scales=tuple(
            sorted((one for one in shown if one.place == "scales"), key=lambda one: (one.at_scales, one.boat))
        ),
        out=_in_order(one for one in shown if one.place == "out"),
        hold=_hold(words),
        terms=terms,
        service=_service(slips, last, terms, came),
        limit=limit,
        last_weighed=max((slip.weighed for slip in current if slip.weighed), default=None),
        bag_minutes=_bag_minutes(then, last, limit),
        ways=_ways(then, last, came, {pk: entry.boat for pk, entry in entries.items()}, calendar, day),
    )


def terms_of(event: Event) -> Terms:
    """What the event's line is run by; until somebody says otherwise one bag for four contestants, rounded up, and what
    the club's event before it was run by."""
    earlier = Q(event__season__club=event.season.club_id, event__date__lt=event.date, event__rehearsal_of=None)
    own_first = Case(When(event=event, then=0), default=1)
    kept = LineTerms.objects.filter(Q(event=event) | earlier).order_by(own_first, "-event__date", "-id").first()
    if kept is not None and kept.event_id == event.pk:
        return Terms(kept.scales, kept.bags, kept.walk_seconds, kept.boat_seconds, chosen=True)
    anglers = sum(map(crew_of, named_anglers(event, fishing=True).values()))
    bags = max(2, -(-anglers // CONTESTANTS_A_BAG))
    if kept is not None:
        return Terms(kept.scales, bags, kept.walk_seconds, kept.boat_seconds)
    return Terms(SCALES, bags, WALK_SECONDS, BOAT_SECONDS)


def for_slip(event: Event, boat: int, calendar: Calendar, day: int) -> dict[str, str]:
    """What the line knows for the slip of a boat that has a bag: ``boat`` and ``bag_issued``; empty without one."""
    words = LineWord.objects.filter(event=event, day=day, entry__boat=boat, said__in=(*OF_A_BAG, Said.LEFT))
    issued, _ = _bag(list(words.order_by("at", "id")))
    if issued is None:
        return {}
    return {"boat": str(boat), "bag_issued": calendar.write(day, issued.at.replace(microsecond=0))}


def _day(calendar: Calendar, now: datetime) -> int:
    today = now.astimezone(calendar.zone)
    fished = calendar.fished or sorted(calendar.days)
    begun = [number for number in fished if calendar.days[number].date <= today.date()]
    # Of a night event the small hours are still the evening's day
    if begun and calendar.days[begun[-1]].date == today.date() and len(begun) > 1:
        before = calendar.days[begun[-2]]
        if before.night and (today.date() - before.date).days == 1 and today.time() < calendar.days[begun[-1]].start:
            return begun[-2]
    return begun[-1] if begun else next(iter(fished), 1)


def _checked_in(event: Event, day: int) -> dict[int, datetime]:
    """When each boat came in, by entry: the first time noted, else when a lateness alone was written down."""
    found: dict[int, datetime] = {}
    for line in CheckIn.objects.current().filter(event=event, day=day).order_by("number"):
        if line.checked_in is not None:
            found.setdefault(line.entry_id, line.checked_in)
        elif line.minutes_late is not None:
            found.setdefault(line.entry_id, line.received_at)
    return found


def _last_of_each(words: Iterable[LineWord]) -> dict[int, list[LineWord]]:
    of_each: dict[int, list[LineWord]] = {}
    for word in words:
        if word.entry_id is not None:
            of_each.setdefault(word.entry_id, []).append(word)
    return of_each


def _live(words: Sequence[LineWord], weighed_at: datetime | None) -> list[LineWord]:
    """The words since the boat's last slip: one that was taken out leaves it in line without the bag it had."""
    return [word for word in words if weighed_at is None or word.at > weighed_at]


def _bag(words: Sequence[LineWord]) -> tuple[LineWord | None, LineWord | None]:
    """The words of the bag that is out, and of its coming to the scales."""
    issued = scales = None
    for word in words:
        if word.said == Said.BAG_ISSUED:
            issued, scales = word, None
        elif word.said == Said.AT_SCALES:
            scales = word
        elif word.said in (Said.BAG_BACK, Said.LEFT):
            issued = scales = None
    return issued, scales


def _standing(entry: Entry, came: datetime | None, words: Sequence[LineWord]) -> Standing | None:
    issued, scales = _bag(words)
    moved = [word.said for word in words if word.said in (Said.LEFT, Said.RETURNED, Said.BAG_ISSUED)]
    place: Place = "waiting"
    if issued is not None:
        place = "scales" if scales is not None else "bag"
    elif moved and moved[-1] == Said.LEFT:
        place = "out"
    elif came is None or entry.status != Entry.Status.ENTERED:
        return None
    return Standing(
        entry.boat,
        entry.name,
        entry.flight_name,
        place,
        came,
        issued.at if issued else None,
        scales.at if scales else None,
        issued.recorded_by if issued else "",
    )


def _in_order(found: Iterable[Standing]) -> tuple[Standing, ...]:
    return tuple(sorted(found, key=lambda one: (one.checked_in is None, one.checked_in, one.boat)))


def _hold(words: Iterable[LineWord]) -> Hold | None:
    held: LineWord | None = None
    looked: datetime | None = None
    for word in words:
        if word.said == Said.HOLD:
            held, looked = word, word.at
        elif word.said == Said.OXYGEN:
            looked = word.at
        elif word.said == Said.RESUME:
            held = None
    if held is None or looked is None:
        return None
    due = looked + timedelta(minutes=held.oxygen_minutes) if held.oxygen_minutes else None
    return Hold(held.at, held.recorded_by, held.person, held.note, due)


def _current(slip: WeighSlip) -> bool:
    return not slip.void and getattr(slip, "replaced_by", None) is None


def _service(
    slips: Iterable[WeighSlip], words: dict[int, list[LineWord]], terms: Terms, came: dict[int, datetime]
) -> Service:
    """Minutes a boat today, from slips that were written when the boat was weighed by a clock that was right."""
    walk = timedelta(seconds=terms.walk_seconds)
    weighings = []
    start: datetime | None = None
    for slip in slips:
        if slip.replaces_id is not None or slip.weighed is None or slip.clock_off is not None:
            continue
        start = start or slip.weighed
        issued, scales = _bag([word for word in words.get(slip.entry_id, ()) if word.at <= slip.received_at])
        given = slip.bag_issued or (issued.at if issued else None)
        stood = given + walk if given else slip.checked_in or came.get(slip.entry_id)
        began = scales.at if scales and scales.at < slip.weighed else None
        weighings.append(
            Weighing(
                done=(slip.weighed - start) / MINUTE,
                ready=None if stood is None or stood > slip.weighed else (stood - start) / MINUTE,
                began=None if began is None else (began - start) / MINUTE,
            )
        )
    return learning.learned(learning.measured_minutes(weighings, terms.scales), terms.boat_seconds / 60)


def _ways(
    slips: Iterable[WeighSlip],
    words: dict[int, list[LineWord]],
    came: dict[int, datetime],
    boats: dict[int, int],
    calendar: Calendar,
    day: int,
) -> tuple[Way, ...]:
    """Each boat that checked in (else by its slip), had a bag and was weighed, by its first slip that counts, in the
    order of weighing."""
    if day not in calendar.days:
        return ()
    begins = datetime.combine(calendar.days[day].date, time(0), calendar.zone).astimezone(UTC)
    found: dict[int, Way] = {}
    for slip in slips:
        arrived = came.get(slip.entry_id) or slip.checked_in
        given, end = _bag_times(slip, words)
        if arrived and given and end and slip.weighed and end >= given:
            came_at, bag_at, done, out = ((at - begins) / MINUTE for at in (arrived, given, slip.weighed, end))
            found.setdefault(slip.entry_id, Way(boats[slip.entry_id], came_at, bag_at, done, out))
    return tuple(sorted(found.values(), key=lambda way: way.weighed))


def _bag_times(slip: WeighSlip, words: dict[int, list[LineWord]]) -> tuple[datetime | None, datetime | None]:
    """When the bag of a slip was given, by the slip or in the line, and when its fish left it."""
    issued, _ = _bag([word for word in words.get(slip.entry_id, ()) if word.at <= slip.received_at])
    return slip.bag_issued or (issued.at if issued else None), slip.bag_emptied or slip.weighed


def _bag_minutes(slips: Iterable[WeighSlip], words: dict[int, list[LineWord]], limit: float) -> BagMinutes:
    current = list(slips)
    minutes = []
    for slip in current:
        given, end = _bag_times(slip, words)
        if given is not None and end is not None and end >= given:
            minutes.append((end - given) / MINUTE)
    return BagMinutes(
        boats=len(minutes),
        weighed=len(current),
        middle=median(minutes) if minutes else None,
        longest=max(minutes, default=None),
        over=sum(one > limit for one in minutes),
        limit=limit,
    )
