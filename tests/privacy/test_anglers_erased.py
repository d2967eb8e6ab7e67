"""An angler's name goes; results, slips, ledger, money and the count of anglers stay."""

from contextlib import suppress
from io import StringIO

import pytest
import world
from django.core.management import call_command

from weighin.audit.models import HistoryEntry, KeptAside
from weighin.audit.services import writing
from weighin.events.models import Event
from weighin.operations.queries.ledgers import ledger_of
from weighin.privacy.queries.mentions import mentions
from weighin.reports.queries.event_json import event_document, whole_event
from weighin.roster.domain.contacts import ContactValues
from weighin.roster.models import Angler, Contact
from weighin.roster.parsing.entries import EntryValues
from weighin.roster.queries import named_anglers
from weighin.roster.services.contacts import keep_contact
from weighin.roster.services.erasing import erase_anglers
from weighin.roster.services.teams import change_entry, enter_team
from weighin.standings.services import publish_result, set_closed

pytestmark = pytest.mark.django_db


@pytest.fixture
def event() -> Event:
    teams = [
        {"boat": "7", "team": "The pair", "angler_1": "Mara Quennell", "angler_2": "Ines Quarrie", "note": "Mara Quennell 555-0142"},
        {"boat": "8", "team": "Others", "angler_1": "Kit Quayle", "note": "Trailer"},
    ]  # fmt: skip
    found = world.event("Erased", teams, [world.slip(boat="7"), world.slip(boat="8", gross="7.00")])
    publish_result(found, "test")
    set_closed(found, True, "test", accounted=True)
    found.refresh_from_db()
    return found


def erase(event: Event, name: str) -> int:
    with writing():
        found = Angler.objects.filter(entry__event=event, name=name)
        return erase_anglers(event, found, lambda words: name in words, "mara")


def test_the_name_goes_and_the_result_stays(event: Event) -> None:
    before = event_document(whole_event(event))
    revision, counted = event.revision, named_anglers(event)
    assert erase(event, "Mara Quennell") == 1
    names = list(
        Angler.objects.filter(entry__event=event).order_by("entry__boat", "position").values_list("name", flat=True)
    )
    assert names == ["Angler 1 of boat 7", "Ines Quarrie", "Kit Quayle"]
    event.refresh_from_db()
    assert event.revision == revision + 1
    assert event_document(whole_event(event)) == before
    assert named_anglers(event) == counted
    assert not ledger_of(event).faults


def test_notes_that_tell_of_the_person_go_and_others_stay(event: Event) -> None:
    erase(event, "Mara Quennell")
    assert list(event.entries.values_list("boat", "note")) == [(7, ""), (8, "Trailer")]


def test_how_the_team_is_reached_goes_with_the_name(event: Event) -> None:
    set_closed(event, False, "test", reason="a phone number")
    for boat, emergency in ((7, "Kay 555-0143"), (8, "Mara Quennell 555-0142")):
        keep_contact(event.entries.get(boat=boat), ContactValues("555-0142", emergency, "a@example.org"), "mara")
    assert "555-0143" not in str(list(HistoryEntry.objects.values_list("sentence", "details")))
    told = [one.text for one in mentions(event.club, "Mara Quennell") if one.field == "emergency"]
    assert told == ["Mara Quennell 555-0142"]
    erase(event, "Ines Quarrie")
    assert list(Contact.objects.values_list("entry__boat", flat=True)) == [8]
    erase(event, "Mara Quennell")
    assert not Contact.objects.exists()


def test_a_team_that_waits_for_its_number_is_erased_too(db: None) -> None:
    event = world.bare_event("Pairs")
    for team in ("Alders", "Birches"):
        enter_team(event, EntryValues(None, team, (f"Mara {team}",)), "mara")
    assert erase(event, "Mara Alders") == 1
    names = set(Angler.objects.values_list("name", flat=True))
    assert "Mara Birches" in names and "Mara Alders" not in names


def test_the_history_says_that_and_for_which_boat_and_no_name(event: Event) -> None:
    erase(event, "Mara Quennell")
    line = HistoryEntry.objects.get(act="names.erased")
    assert line.sentence == "1 angler’s name erased, boat 7: a person asked for it"
    assert line.event_id == event.pk and line.actor == "mara" and "Quennell" not in str(line.details)


def test_words_beside_the_history_go_too(db: None) -> None:
    event = world.bare_event("Pairs")
    pair = EntryValues(7, "The pair", ("Mara Quennell", "Ines Quarrie"))
    entry = enter_team(event, pair, "mara")
    change_entry(entry, EntryValues(7, "The pair", ("Mara Quennell", "Kit Quayle")), "mara")
    assert erase(event, "Mara Quennell") == 1
    assert set(KeptAside.objects.values_list("words", flat=True)) == {"Ines Quarrie", "Kit Quayle"}


def test_the_mark_says_nothing_of_the_former_name(event: Event) -> None:
    before = Angler.objects.get(name="Mara Quennell")
    erase(event, "Mara Quennell")
    after = Angler.objects.get(pk=before.pk)
    assert after.mark != before.mark and after.salt != before.salt and after.erased_on is not None


def test_the_ledger_holds_and_says_that_names_were_erased(event: Event) -> None:
    assert "names of it were erased" not in told()
    erase(event, "Mara Quennell")
    erase(event, "Kit Quayle")
    assert "nothing altered" in told() and "2 anglers' names of it were erased; its history says by whom" in told()


def test_a_name_put_back_behind_the_site_s_back_is_found(event: Event) -> None:
    erase(event, "Mara Quennell")
    Angler.objects.filter(name="Angler 1 of boat 7").update(name="Mara Quennell")
    assert any("boat 7" in fault for fault in ledger_of(event).faults)


def told() -> str:
    said = StringIO()
    with suppress(SystemExit):
        call_command("check_ledger", stdout=said)
    return said.getvalue()


def test_every_angler_has_a_salt_of_their_own(event: Event) -> None:
    salts = list(Angler.objects.values_list("salt", flat=True))
    assert len(set(salts)) == len(salts) == 3 and all(len(salt) == 32 for salt in salts)
