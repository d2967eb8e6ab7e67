"""Keep a plan that was read without faults: the whole event in one transaction, or nothing."""

from django.utils.translation import gettext

from weighin.audit.services import log_history, writing
from weighin.care.models import CareNote, SentNote
from weighin.checkin.models import CheckIn, DueNotice
from weighin.checkin.services.check_ins import CHECK_IN
from weighin.clubs.models import Club
from weighin.clubs.services.clubs import club_named, season_named, water_named
from weighin.events.domain.faults import NAME_OF_REHEARSALS
from weighin.events.domain.rehearsal_mark import MARK, is_marked
from weighin.events.models import Event, EventDay, Flight, RuleSheet
from weighin.events.queries.seals import Seals, event_seals
from weighin.events.queries.slugs import free_slug
from weighin.holding.models import StudyPen
from weighin.holding.services.pens import FINISHED_PEN
from weighin.line.models import LineTerms, LineWord
from weighin.records.domain.messages import Sender
from weighin.records.services.door import write_many
from weighin.registration.models import Draw
from weighin.registration.queries.till import has_money
from weighin.roster.models import Entry, Seen
from weighin.roster.queries import roster_seals
from weighin.roster.services.event_scope import EVENT
from weighin.roster.services.teams import add_entries
from weighin.rules.faults import Fault, Faults, Said
from weighin.signup.models import SignUp
from weighin.slips.models import WeighSlip
from weighin.slips.queries.ledger import slips_seal
from weighin.slips.services.slips import SLIP
from weighin.standings.models import Protest
from weighin.tanks.models import FloaterWalk, KeptFish, Release, Treatment
from weighin.tanks.services.readings import TANK_READING
from weighin.workbooks.domain.faults import EVENT_HAS_DRAW, EVENT_HAS_SLIPS, EVENT_IS_HERE, WORKBOOK_OF_ANOTHER_CLUB
from weighin.workbooks.domain.plan import Plan


def existing_event(plan: Plan) -> Event | None:
    """The event of the plan's club, season and name, if there is one already (case does not matter)."""
    return Event.everyone.filter(
        season__club__name__iexact=plan.event.club,
        season__name__iexact=plan.event.season,
        name__iexact=plan.event.event,
    ).first()


def stays(event: Event) -> Said | None:
    """Why an event cannot be brought in again; None where it can: only before its first slip, before a station sent
    anything, and before something is written of it that no workbook holds."""
    kept = (
        *(WeighSlip, CheckIn, DueNotice, LineWord, LineTerms, SentNote, Treatment),
        *(StudyPen, Release, FloaterWalk, KeptFish, Seen, SignUp, Protest),
    )
    if has_money(event) or any(model._default_manager.filter(event=event).exists() for model in kept):
        return EVENT_HAS_SLIPS.says(name=event.name)
    draw = Draw.objects.current().filter(event=event).order_by("number").first()
    if draw is None:
        return None
    return EVENT_HAS_DRAW.says(name=event.name, number=draw.number, purpose=draw.get_purpose_display())


def may_replace(event: Event) -> bool:
    """Whether an event can be brought in again."""
    return stays(event) is None


def keep_event(plan: Plan, by: str, *, club: Club | None = None, replace: bool = False) -> Event:
    """Keep the event. ``club`` binds it to a club: the workbook must name that one.

    Raises Faults when the event exists already and may not be replaced, or when the club is another.
    """
    with writing():
        if club is not None and club.name.casefold() != plan.event.club.casefold():
            message = WORKBOOK_OF_ANOTHER_CLUB.says(club=plan.event.club, here=club)
            raise Faults([Fault("club", message)])
        if is_marked(plan.event.event):
            raise Faults([NAME_OF_REHEARSALS.at("event", mark=MARK)])
        old = existing_event(plan)
        before = _refuse_or_clear(old, replace) if old is not None else {}
        event = _keep_head(plan, by, old)
        entries = add_entries(event, plan.entries, by)
        context = EVENT.lock(event.pk)
        write_many(SLIP, context, map(vars, plan.slips), Sender(by))
        write_many(CHECK_IN, context, plan.checkins, Sender(by))
        write_many(TANK_READING, context, plan.tanks, Sender(by))
        write_many(FINISHED_PEN, context, plan.pens, Sender(by))
        _keep_care(event, plan, entries)
        log_history(
            by,
            "event.imported",
            gettext("%(event)s imported from a workbook: %(teams)s teams, %(slips)s slips, %(notes)s care notes")
            % {
                "event": event.name,
                "teams": len(plan.entries),
                "slips": len(plan.slips),
                "notes": len(plan.notes),
            },
            club_id=event.season.club_id,
            event_id=event.pk,
            subject=event.slug,
            details={"replaced": old is not None},
            # The teams that came in were bound as they were entered
            bound={
                **dict.fromkeys(before.keys() - roster_seals(event.pk).keys()),
                **event_seals(event.pk),
                **slips_seal(event),
            },
        )
    return event


def _refuse_or_clear(old: Event, replace: bool) -> Seals:
    """Take away what stood in the event; the seals of its teams."""
    why = stays(old)
    if why is not None:
        raise Faults([Fault("event", why)])
    if not replace:
        raise Faults([EVENT_IS_HERE.at("event", name=old.name)])
    before = roster_seals(old.pk)
    entries = Entry.everyone.filter(event=old)
    for rows in (old.care_notes, old.tank_readings, old.holding_pens, entries, old.flights, old.event_days):
        rows.all().delete()
    RuleSheet.objects.filter(event=old).delete()
    return before


def _keep_head(plan: Plan, by: str, old: Event | None) -> Event:
    said = plan.event
    club = club_named(said.club, by)
    season = season_named(club, said.season, by)
    event = old or Event(slug=free_slug(said.event, said.date))
    event.season, event.water = season, water_named(club, said.water, by)
    event.name = said.event
    for name in (
        "date", "weight_unit", "start_time", "due_time", "time_zone", "handling", "elevation_ft", "lake_temp", "entry_fee",
        "added_money", "permit", "note",
    ):  # fmt: skip
        setattr(event, name, getattr(said, name))
    event.revision += 1
    event.save()
    EventDay.objects.bulk_create(EventDay(event=event, **vars(day)) for day in plan.days)
    Flight.objects.bulk_create(Flight(event=event, **vars(flight)) for flight in plan.flights)
    RuleSheet.objects.create(event=event, written=plan.rules.written())
    return event


def _keep_care(event: Event, plan: Plan, entries: dict[int, Entry]) -> None:
    CareNote.objects.bulk_create(
        (
            CareNote(event=event, entry=entries[values["boat"]], **{k: v for k, v in values.items() if k != "boat"})
            for values in plan.notes
        ),
        batch_size=500,
    )
