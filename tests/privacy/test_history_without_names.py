"""The history holds no angler's name and no note of a team: marks stand for them, and an earlier version's are moved."""

from dataclasses import replace

import pytest
import world
from django.db import connection

from weighin.audit.database.names_aside import put_names_aside
from weighin.audit.domain.aside import mark_of
from weighin.audit.models import AppendOnlyError, HistoryEntry, KeptAside
from weighin.audit.queries import words_aside
from weighin.audit.services import log_history
from weighin.events.models import Event
from weighin.events.services.deletion import remove_event
from weighin.roster.parsing.entries import EntryValues
from weighin.roster.services.teams import change_entry, enter_team

pytestmark = pytest.mark.django_db
PAIR = EntryValues(7, "Lindell & Amaro", ("Mara Quennell", "Ines Quarrie"), note="Call 555-0142")


@pytest.fixture
def event() -> Event:
    return world.bare_event("Pairs")


def written() -> str:
    return "\n".join(f"{entry.sentence} {entry.details}" for entry in HistoryEntry.objects.all())


def test_names_and_notes_stand_beside_the_history(event: Event) -> None:
    entry = enter_team(event, PAIR, "mara")
    change_entry(entry, replace(PAIR, anglers=("Mara Quennell", "Kit Quayle"), note="Call 555-0177"), "mara")
    for words in ("Quennell", "Quarrie", "Quayle", "555-0142", "555-0177"):
        assert words not in written()
    beside = words_aside(HistoryEntry.objects.all())
    assert [sorted(aside) for aside in beside.values()] == [
        ["anglers", "note"],
        ["anglers", "anglers_before", "note", "note_before"],
    ]
    page = world.member(event.club).get(f"/events/{event.slug}/history/").content.decode()
    assert "Anglers: Mara Quennell, Kit Quayle" in page and "Note before: Call 555-0142" in page


def test_a_mark_is_of_its_words_and_tells_nobody_what_they_are(event: Event) -> None:
    enter_team(event, PAIR, "mara")
    enter_team(event, replace(PAIR, boat=8, name="Others", anglers=("Kit Quayle",)), "mara")
    rows = list(KeptAside.objects.all())
    assert all(row.mark == mark_of(row.salt, row.words) for row in rows)
    assert len({row.mark for row in rows}) == len(rows) == 5  # the same note twice has two marks


def test_erased_words_are_said_to_be_erased(event: Event) -> None:
    enter_team(event, PAIR, "mara")
    KeptAside.objects.filter(words="Ines Quarrie").delete()
    page = world.member(event.club).get(f"/events/{event.slug}/history/").content.decode()
    assert "Anglers: Mara Quennell, erased" in page


def test_what_an_earlier_version_wrote_is_moved_aside_once(event: Event) -> None:
    where = {"club_id": event.season.club_id, "event_id": event.pk}
    log_history(
        "mara", "entry.added", "Boat 7, X: Y, entered", details={"anglers": ["Mara Quennell"], "note": ""}, **where
    )
    found = {"anglers": [["Mara Quennell"], ["Kit Quayle"]], "paid": [False, True], "note": ["", "Call 555-0142"]}
    said = "anglers is ['Kit Quayle'], was ['Mara Quennell']; paid is yes, was no; note is Call 555-0142, was blank"
    log_history("mara", "entry.changed", f"Boat 7, X: Y: {said}", details={"changed": found}, **where)
    log_history("mara", "event.changed", "Entry fee", details={"changed": {"fee": ["1", "2"]}}, **where)
    assert put_names_aside(HistoryEntry, KeptAside, connection) == 2
    assert put_names_aside(HistoryEntry, KeptAside, connection) == 0
    added, changed, other = HistoryEntry.objects.order_by("pk")
    assert added.sentence == "Boat 7, X: Y, entered" and list(added.details) == ["aside"]
    assert changed.sentence == "Boat 7, X: Y: anglers changed; paid is yes, was no; note changed"
    assert changed.details["changed"] == {"paid": [False, True]}
    assert words_aside([changed])[changed.pk] == {
        "anglers": ["Kit Quayle"],
        "anglers_before": ["Mara Quennell"],
        "note": ["Call 555-0142"],
    }
    assert other.details == {"changed": {"fee": ["1", "2"]}}
    for words in ("Quennell", "Quayle", "555-0142"):
        assert words not in written()
    with pytest.raises(AppendOnlyError):
        HistoryEntry.objects.update(sentence="")


def test_the_lock_is_back_after_the_move(event: Event) -> None:
    log_history("mara", "entry.added", "Boat 7, entered", details={"anglers": ["Mara Quennell"]})
    put_names_aside(HistoryEntry, KeptAside, connection)
    with pytest.raises(Exception, match="only ever added"), connection.cursor() as cursor:
        cursor.execute("UPDATE audit_historyentry SET sentence = ''")


def test_removing_an_event_takes_the_names_of_its_history(event: Event) -> None:
    enter_team(event, PAIR, "mara")
    assert KeptAside.objects.exists()
    remove_event(event, event.name, "made twice", "mara")
    assert not KeptAside.objects.exists()
