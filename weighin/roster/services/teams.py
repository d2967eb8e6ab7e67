"""Enter teams, change them, take them out."""

from collections.abc import Iterable, Sequence
from typing import Any

from django.db.models import ProtectedError, RestrictedError

from weighin.audit.domain.aside import PERSONAL, changed_aside, listed
from weighin.audit.domain.changes import changes, in_words
from weighin.audit.services import log_history, writing
from weighin.clubs.models import Season
from weighin.events.models import Event
from weighin.events.queries.seals import Seals
from weighin.events.services.revision import lock_open_event, raise_revision, raise_revision_of_due_times
from weighin.roster.domain import payments
from weighin.roster.domain.closing import require_entries_open
from weighin.roster.domain.contacts import ContactValues
from weighin.roster.domain.faults import (
    BOAT_HAS_RECORDS,
    BOAT_ON_SLIPS,
    OF_BOAT,
    OF_TEAM,
    TEAM_LOOKS_LIKE,
    TEAM_LOOKS_LIKE_WAITING,
    TEAM_TAKEN,
    TEAM_TAKEN_WAITING,
)
from weighin.roster.domain.weighed import is_on_slips
from weighin.roster.models import Angler, Contact, Entry, Team
from weighin.roster.parsing.contacts import contact_faults
from weighin.roster.parsing.entries import FIELDS, EntryRow, entry_faults, known_people
from weighin.roster.queries import CHANGED, SUBJECT, WAITING, next_number, roster_seals
from weighin.roster.services.contacts import keep_contact
from weighin.roster.services.fees import keep_fees
from weighin.rules.faults import Fault, Faults
from weighin.rules.look_alikes import folded_name, look_of


def team_faults(event: Event, row: EntryRow, contact: ContactValues | None = None) -> list[Fault]:
    """What is wrong with a team that would be entered now, at its fields, whether entries are open or not."""
    return [*_faults(event, [row]), *_faults_in_season(event, [row]), *_faults_of_one(event, row, contact)]


def _faults_of_one(event: Event, row: EntryRow, contact: ContactValues | None) -> list[Fault]:
    return [*_same_team(event, row.name), *(contact_faults(contact) if contact else [])]


def enter_team(event: Event, row: EntryRow, by: str, contact: ContactValues | None = None, late: str = "") -> Entry:
    """Enter one team; ``late`` is why, where entries are closed. Raises Faults with field names, also for a team name that
    the event has already."""
    with writing():
        again = _faults_of_one(event, row, contact)
        try:
            entered = enter_teams(event, [row], by, [contact] if contact else [], late=late)
        except Faults as found:
            raise Faults([*found.faults, *again]) from None
        _refuse(again)
    return entered[0]


def add_entries(event: Event, rows: Iterable[EntryRow], by: str) -> dict[int, Entry]:
    """As ``enter_teams``; the entries by boat."""
    return {entry.boat: entry for entry in enter_teams(event, rows, by)}


def enter_teams(
    event: Event,
    rows: Iterable[EntryRow],
    by: str,
    contacts: Sequence[ContactValues] = (),
    namesakes: bool = False,
    late: str = "",
) -> list[Entry]:
    """Enter many teams at once, all or none, in their order. The number of queries does not grow with the teams.

    ``contacts`` stand in the order of the rows. With ``namesakes`` two teams may have anglers of one name: two people.
    ``late`` is why they are entered though entries are closed. Raises Faults; a message about one of several teams names its boat, or the team where it has no number yet.
    """
    entered = list(rows)
    with writing():
        held = lock_open_event(event)
        if not late:
            require_entries_open(held)
        _refuse([*_faults(held, entered, namesakes=namesakes), *_faults_in_season(held, entered)])
        teams = _teams_named(held.season, [row.name for row in entered])
        entries = [
            Entry(event=held, number=number, team=teams[folded_name(row.name)], **_values(row))
            for number, row in enumerate(entered, start=next_number(held))
        ]
        for entry, row in zip(entries, entered, strict=True):
            keep_fees(entry, row.paid, row.big_fish_pot)
        Entry.objects.bulk_create(entries, batch_size=500)
        Angler.objects.bulk_create(
            [angler for row, entry in zip(entered, entries, strict=True) for angler in _anglers(entry, row.anglers)],
            batch_size=500,
        )
        Contact.objects.bulk_create(
            [
                Contact(entry=entry, **vars(contact))
                for entry, contact in zip(entries, contacts, strict=False)
                if contact.known
            ],
            batch_size=500,
        )
        if entries:
            if not payments.said_of_new(held, entries, by):
                raise_revision(held)
            _note_entered(held, entered, by, late)
    return entries


def change_entry(entry: Entry, row: EntryRow, by: str, contact: ContactValues | None = None, why: str = "") -> None:
    """Change a team in an event, and with a ``contact`` how it is reached; the history says ``why``. Raises Faults with
    field names.

    A boat that stands on slips keeps its number: the slips are chained with it.
    """
    with writing():
        held = lock_open_event(entry.event)
        mine = Entry.everyone.prefetch_related("anglers").get(pk=entry.pk)
        before = {**{name: getattr(mine, name) for name in FIELDS}, "anglers": [a.name for a in mine.anglers.all()]}
        faults = _faults(held, [row], besides=mine) + _boat_on_slips(mine, row.boat)
        if look_of(row.name) != look_of(mine.name):
            faults += _same_team(held, row.name, besides=mine.pk)
        faults += contact_faults(contact) if contact else []
        _refuse(faults + _faults_in_season(held, [row], besides=mine.team_id))
        old_team = mine.team_id
        mine.team = _teams_named(held.season, [row.name])[folded_name(row.name)]
        for name, value in _values(row).items():
            setattr(mine, name, value)
        keep_fees(mine, row.paid, row.big_fish_pot)
        mine.save()
        payments.said_of(held, mine, (before["paid"], before["big_fish_pot"]), by)
        after = {**{name: getattr(mine, name) for name in FIELDS}, "anglers": _written(row.anglers)}
        if after["anglers"] != before["anglers"]:
            mine.anglers.all().delete()
            Angler.objects.bulk_create(_anglers(mine, row.anglers))
        Team.objects.filter(pk=old_team, entries__isnull=True).delete()
        found = changes(before, after)
        if found:
            raise_revision_of_due_times(held)
            sentence = f"{_called(before['boat'], before['name'])}: {in_words(found, PERSONAL)}"
            sentence += f" ({why})" if why else ""
            aside = changed_aside(found)
            plain = {name: values for name, values in found.items() if name not in PERSONAL}
            details = {"changed": plain, **({"why": why} if why else {})}
            _note(held, CHANGED, sentence, mine, by, details, aside, before["boat"])
        if contact is not None:
            keep_contact(mine, contact, by)


def remove_entry(entry: Entry, by: str) -> None:
    """Take a team out that was entered by mistake. Raises Faults once something is written of it."""
    with writing():
        held = lock_open_event(entry.event)
        require_entries_open(held)
        team = entry.team_id
        try:
            Entry.everyone.get(pk=entry.pk).delete()
        except (ProtectedError, RestrictedError):
            raise Faults([BOAT_HAS_RECORDS.at("", boat=entry.boat)]) from None
        Team.objects.filter(pk=team, entries__isnull=True).delete()
        raise_revision(held)
        _note(held, "entry.removed", f"{_called(entry.boat, entry.name)}, removed", entry, by, {})


def rename_flight(event: Event, old: str, new: str) -> Seals:
    """Move the teams of a flight to its new name; their seals for the history."""
    Entry.everyone.filter(event=event, flight_name=old).update(flight_name=new)
    return roster_seals(event.pk, event.entries.filter(flight_name=new).values_list("boat", flat=True))


def _faults(
    event: Event, rows: Sequence[EntryRow], besides: Entry | None = None, namesakes: bool = False
) -> list[Fault]:
    """Faults of the rows beside the entries there are and beside each other."""
    others, anglers = Entry.everyone.filter(event=event), Angler.objects.filter(entry__event=event)
    if besides:
        others, anglers = others.exclude(pk=besides.pk), anglers.exclude(entry=besides)
    boats = dict(others.exclude(boat=None).values_list("boat", "name"))
    people = known_people(() if namesakes else anglers.values_list("name", "entry__boat", "entry__name"))
    flights = set(event.flights.values_list("name", flat=True))
    faults = []
    for row in rows:
        found = entry_faults(row, boats, people, flights)
        if len(rows) > 1:
            of = OF_TEAM if row.boat is None else OF_BOAT
            found = [of.at(fault.field, boat=row.boat, team=row.name, wrong=fault.said) for fault in found]
        faults += found
        if row.boat is not None:
            boats.setdefault(row.boat, row.name)
        if not namesakes:
            people.update(known_people((name, row.boat, row.name) for name in row.anglers if name.strip()))
    return faults


def _same_team(event: Event, name: str, besides: int = 0) -> list[Fault]:
    look = look_of(name)
    others = Entry.everyone.filter(event=event).exclude(pk=besides)
    entry = next((one for one in others if look_of(one.name) == look), None)
    if entry is None:
        return []
    taken = TEAM_TAKEN_WAITING if entry.waits else TEAM_TAKEN
    return [taken.at("name", boat=entry.boat, team=entry.name)]


def _faults_in_season(event: Event, rows: Sequence[EntryRow], besides: int = 0) -> list[Fault]:
    """Teams that a reader takes for a team of the season, which it is not: its points would go to another one."""
    teams = event.season.teams.exclude(pk=besides).values_list("folded_name", "name")
    there = {look_of(name): (folded, name) for folded, name in teams}
    faults = []
    for row in rows:
        folded, name = there.get(look_of(row.name), ("", ""))
        if name and folded != folded_name(row.name):
            looks = TEAM_LOOKS_LIKE if row.boat is not None else TEAM_LOOKS_LIKE_WAITING
            faults.append(looks.at("name", boat=row.boat, name=row.name.strip(), team=name))
    return faults


def _boat_on_slips(entry: Entry, boat: int | None) -> list[Fault]:
    """The ledger chains slips with their boat number, so it stays once it stands on one."""
    if entry.waits or boat == entry.boat:
        return []
    if is_on_slips(entry):
        return [BOAT_ON_SLIPS.at("boat", boat=entry.boat)]
    return []


def _teams_named(season: Season, names: Iterable[str]) -> dict[str, Team]:
    """The season's teams by folded name; those that are new are made as written."""
    wanted = {folded_name(name): " ".join(name.split()) for name in names}
    teams = {team.folded_name: team for team in Team.objects.filter(season=season)}
    new = [Team(season=season, folded_name=folded, name=name) for folded, name in wanted.items() if folded not in teams]
    Team.objects.bulk_create(new, batch_size=500)
    return teams | {team.folded_name: team for team in new}


def _values(row: EntryRow) -> dict[str, Any]:
    kept = {name: getattr(row, name) for name in FIELDS if name not in ("paid", "big_fish_pot")}
    return kept | {"name": row.name.strip(), "note": row.note.strip()}


def _written(anglers: Sequence[str]) -> list[str]:
    return [name.strip() for name in anglers if name.strip()]


def _anglers(entry: Entry, anglers: Sequence[str]) -> list[Angler]:
    """The anglers on their lines; a blank line between two stays blank."""
    return [
        Angler(entry=entry, position=position, name=name.strip())
        for position, name in enumerate(anglers, start=1)
        if name.strip()
    ]


def _note_entered(event: Event, rows: Sequence[EntryRow], by: str, late: str) -> None:
    if len(rows) == 1:
        row = rows[0]
        details = {**_values(row), "paid": row.paid, "big_fish_pot": row.big_fish_pot}
        aside = {"anglers": _written(row.anglers), "note": listed(details.pop("note"))}
        sentence = f"{_called(row.boat, row.name.strip())}, entered"
        if late:
            sentence, details["late"] = f"{sentence} late: {late}", late
        _note(event, "entry.added", sentence, row, by, details, aside)
        return
    boats = sorted(row.boat for row in rows if row.boat is not None)
    sentence = f"{len(rows)} teams entered"
    if boats:
        sentence += f", boats {boats[0]} to {boats[-1]}"
    if len(boats) < len(rows):
        sentence += f", {len(rows) - len(boats)} without a boat number"
    log_history(
        by, "entry.added", sentence, club_id=event.season.club_id, event_id=event.pk, details={"boats": boats},
        bound=roster_seals(event.pk, boats),
    )  # fmt: skip


def _note(
    event: Event,
    act: str,
    sentence: str,
    entry: Entry | EntryRow,
    by: str,
    details: dict[str, Any],
    aside: dict[str, list[str]] | None = None,
    was: int | None = None,
) -> None:
    boats = {boat for boat in (entry.boat, was) if boat is not None}
    log_history(
        by,
        act,
        sentence,
        club_id=event.season.club_id,
        event_id=event.pk,
        subject=WAITING if entry.boat is None else f"{SUBJECT}{entry.boat}",
        details=details,
        personal=aside,
        bound=roster_seals(event.pk, boats),
    )


def _called(boat: int | None, name: str) -> str:
    return name if boat is None else f"Boat {boat}, {name}"


def _refuse(faults: list[Fault]) -> None:
    if faults:
        raise Faults(faults)
