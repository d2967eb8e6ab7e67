"""Teams without a boat number wait for one: on the list, in no standings and in no file; and how a team is reached."""

from io import StringIO

import pytest
import world
from django.core.management import call_command

from weighin.accounts.domain.roles import Role
from weighin.audit.models import HistoryEntry
from weighin.events.models import Event
from weighin.operations.queries.ledgers import ledger_of
from weighin.reports.queries.event_json import event_document, whole_event
from weighin.roster.domain.contacts import ContactValues
from weighin.roster.models import Contact, Entry
from weighin.roster.parsing.entries import EntryValues
from weighin.roster.services.teams import change_entry, enter_team, enter_teams, remove_entry
from weighin.rules.faults import Faults

pytestmark = pytest.mark.django_db
WAITS = EntryValues(None, "Alder & Birch", ("Ann Alder", "Bob Birch"), paid=True)
REACHED = ContactValues("555-0171", "Kay Quillon 555-0172", "ann@example.org")


@pytest.fixture
def event() -> Event:
    return world.event("Waiting", 2, [world.slip(boat="1")])


def test_it_is_entered_without_a_number_and_is_in_no_standings_and_no_file(event: Event) -> None:
    before = event_document(whole_event(event))
    entry = enter_team(event, WAITS, "mara")
    assert entry.waits and str(entry) == "Alder & Birch"
    event.refresh_from_db()
    assert event_document(whole_event(event)) == before
    out, err = StringIO(), StringIO()
    call_command("export_event", event.slug, "--format", "csv", stdout=out, stderr=err)
    assert "Alder" not in out.getvalue() and "Alder & Birch" in err.getvalue()
    assert not ledger_of(event).faults
    line = HistoryEntry.objects.get(act="entry.added", subject="waiting team")
    assert line.sentence == "Alder & Birch, entered"


def test_it_gets_its_number_and_is_sealed_from_then_on(event: Event) -> None:
    entry = enter_team(event, WAITS, "mara")
    change_entry(entry, EntryValues(9, "Alder & Birch", ("Ann Alder", "Bob Birch"), paid=True), "mara")
    assert event.entries.get(boat=9).paid and not ledger_of(event).faults
    Entry.everyone.filter(boat=9).update(name="Altered")
    assert ledger_of(event).faults


def test_it_is_changed_ruled_out_and_taken_out_while_it_waits(event: Event) -> None:
    entry = enter_team(event, WAITS, "mara")
    change_entry(entry, EntryValues(None, "Alder & Cedar", ("Ann Alder",), status="withdrawn"), "mara")
    assert Entry.everyone.get(pk=entry.pk).status == "withdrawn"
    assert world.member(event.club).get(f"/results/{event.slug}/standings/").status_code in (200, 404)
    remove_entry(Entry.everyone.get(pk=entry.pk), "mara")
    assert Entry.everyone.filter(event=event).count() == 2 and not ledger_of(event).faults


def test_several_wait_beside_each_other_and_names_are_held_against_them(event: Event) -> None:
    enter_teams(event, [WAITS, EntryValues(None, "Cedar", ("Cal Cedar",))], "mara")
    with pytest.raises(Faults) as found:
        enter_team(event, EntryValues(5, "alder &  BIRCH", ("Ann Alder",)), "mara")
    assert {fault.code for fault in found.value.faults} == {"team_taken_waiting", "angler_taken_waiting"}


def test_the_event_is_removed_and_made_again_with_them(event: Event) -> None:
    fresh = world.bare_event("Fresh", event.season)
    enter_team(fresh, WAITS, "mara")
    director = world.member(event.club)
    director.post(f"/events/{fresh.slug}/setup/remove/", {"name": "Fresh", "reason": "made twice"})
    assert not Event.objects.filter(pk=fresh.pk).exists()


def test_the_list_shows_it_and_leads_to_its_page(event: Event) -> None:
    entry = enter_team(event, WAITS, "mara", REACHED)
    desk = world.member(event.club, Role.DESK_OFFICIAL)
    page = desk.get(f"/events/{event.slug}/teams/").content.decode()
    address = f"/events/{event.slug}/teams/waiting/{entry.pk}/"
    assert address in page and "1 team has no boat number yet" in page
    form = desk.get(address).content.decode()
    assert "555-0171" in form and "no boat number yet" in form
    said = {"act": "change", "boat": "12", "name": "Alder & Birch", "angler_1": "Ann Alder", "status": "entered"}
    answer = desk.post(address, said, follow=True)
    assert "Boat 12, Alder &amp; Birch, is saved." in answer.content.decode()
    assert not Contact.objects.exists()
    answer = desk.post(f"/events/{event.slug}/teams/12/", said | {"email": "no address"})
    assert "email" in answer.context["form"].errors
