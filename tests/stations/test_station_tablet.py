"""What a tablet is given to work alone for a day, and what asking again costs."""

import json

import pytest
import world
from django.db import connection
from django.test.utils import CaptureQueriesContext
from slips.table import record
from stations.speaking import Speaker, message, new_id

from weighin.accounts.domain.roles import Role
from weighin.audit.database.life import begin_another_life, database_life
from weighin.audit.models import DatabaseLife
from weighin.events.models import Event
from weighin.public.pages.schemas import properties
from weighin.rules import rulebook
from weighin.slips.models import WeighSlip
from weighin.slips.services.slips import SLIP, correct_slip, settle, void_slip


@pytest.fixture
def event(db: None) -> Event:
    return world.event(days=2, rules={"fish_limit": "7", "bag_tare": "0.32"})


@pytest.fixture
def table(event: Event) -> Speaker:
    return Speaker(event)


def test_everything_for_a_day(event: Event, table: Speaker) -> None:
    answer = table.ask()
    assert answer.status_code == 200 and answer["Content-Type"] == "application/json"
    told = answer.json()
    assert set(told) == {
        "event",
        "days",
        "rules",
        "roster",
        "slips",
        "checkins",
        "called",
        "believable",
        "station",
        "revision",
        "life",
        "server_time",
    }
    assert told["event"]["slug"] == event.slug and told["event"]["weight_unit"] == "lb"
    assert [(day["day"], day["date"], day["status"]) for day in told["days"]] == [
        (1, "2026-06-20", "fished"),
        (2, "2026-06-21", "fished"),
    ]
    assert told["days"][0]["start"] == "2026-06-20T06:00:00-05:00"
    assert told["days"][0]["due"] == "2026-06-20T15:00:00-05:00"
    assert rulebook.read(told["rules"], "lb").fish_limit == 7
    assert told["believable"] == {"words": "crappie", "unit": "lb", "lightest": "0.25", "heaviest": "3.5"}
    assert [team["boat"] for team in told["roster"]] == [1, 2, 3, 4]
    assert told["roster"][0]["anglers"] == ["Open table angler 1"]
    assert told["station"] == {"name": "station Table 1", "can": ["care", "checkin", "correct", "weigh"]}
    assert told["revision"] == Event.objects.get(pk=event.pk).revision
    assert told["server_time"][-6:] in ("-05:00", "-06:00")


def test_flights_of_a_night_event_have_their_due_moments(db: None) -> None:
    day = Speaker(world.plain()).ask().json()["days"]
    assert day[0]["flights"] and all(len(due) == 25 for one in day for due in one["flights"].values())


def test_a_teams_note_is_not_told(event: Event, table: Speaker) -> None:
    event.entries.update(note="Call Ash at 555-0100")
    assert "555-0100" not in table.ask().content.decode()


def test_current_slips_both_of_a_doubled_day(event: Event, table: Speaker) -> None:
    first, second, gone, other = message(), message(gross="8.70"), message(boat=2), message(boat=3)
    table.send(first, second, gone, other)
    table.one(message(boat=2, gross="5.00", replaces=gone["id"], reason="misread"))
    void_slip(event.slips.get(pk=other["id"]), "wrong boat", "quill")
    told = table.ask().json()["slips"]
    assert [(slip["boat"], slip["slip"], slip["replaces"]) for slip in told] == [(1, 1, None), (1, 2, None), (2, 5, 3)]
    assert all(set(slip) == {*properties(SLIP), "slip"} for slip in told)


def test_a_slip_as_it_is_told_is_the_slip_as_it_was_sent(event: Event, table: Speaker) -> None:
    """What the tablet reads it can send again: the same slip."""
    sent = message(
        alive=5, dead=2, species={"black_crappie": 4, "other": 1}, big_fish="1.66", big_fish_alive=False,
        largest_weights=["1.71", "1.66"], checked_in="2026-06-20T15:02:10.123456-05:00", excused_minutes=1.25, tare="0.3",
        dead_at_release=1, kept=2, note="two bags",
    )  # fmt: skip
    table.one(sent)
    table.one(message(boat=2, replaces=None))
    for slip in table.ask().json()["slips"]:
        del slip["slip"]
        assert table.one(slip)["state"] == "already"
        assert slip["weighed"].endswith("-05:00")


def test_weights_kept_in_another_spelling_are_told_as_stations_write_them(event: Event, table: Speaker) -> None:
    slip = record(event, gross="9.47 lb", largest_weights="1.5 lb, 1.25")
    (told,) = table.ask().json()["slips"]
    assert (told["gross"], told["largest_weights"]) == ("9.47", ["1.50", "1.25"])
    fix = {
        **told,
        "id": new_id(),
        "replaces": told["slip"],
        "reason": "time was left out",
        "weighed": "2026-06-20T15:10:00Z",
    }
    del fix["slip"]
    assert table.one(fix)["state"] == "kept" and slip.number == 1


def test_unchanged_it_is_304_and_every_write_changes_it(event: Event, table: Speaker) -> None:
    first = table.ask()
    assert first["Cache-Control"] == "private, no-cache"
    with CaptureQueriesContext(
        connection,
    ) as asked:
        again = table.ask(**{"If-None-Match": first["ETag"]})
    # PostgreSQL is asked for its timeline too: a restore by its own tools is another life of the database
    most = 3 if connection.vendor == "sqlite" else 4
    assert again.status_code == 304 and not again.content and len(asked) <= most
    table.one(message())
    changed = table.ask(**{"If-None-Match": first["ETag"]})
    assert changed.status_code == 200 and changed["ETag"] != first["ETag"]
    correct_slip(event.slips.get(), {**words(), "gross": "8.60", "reason": "misread"}, "quill")
    assert table.ask()["ETag"] != changed["ETag"]


def words() -> dict[str, str]:
    return {"day": "1", "boat": "1", "fish": "7", "alive": "7", "dead": "0", "gross": "8.50", "official": "R. Quill"}


def test_stations_of_other_rights_have_other_tags(event: Event, table: Speaker) -> None:
    assert Speaker(event, "Care", ("care",)).ask()["ETag"] != table.ask()["ETag"]


def test_as_many_queries_for_many_boats_as_for_few(db: None) -> None:
    counts = []
    for boats in (3, 60):
        event = world.large(boats, f"Of {boats}")
        table = Speaker(event)
        with CaptureQueriesContext(connection) as asked:
            told = table.ask().json()
        assert len(told["slips"]) == len(told["roster"]) == boats
        counts.append(len(asked))
    assert counts[0] == counts[1]


def test_head_tells_only_the_headers(event: Event, table: Speaker) -> None:
    where = f"/api/events/{event.slug}/station"
    answer = table.client.head(where, headers={"Authorization": f"Bearer {table.token}"})
    assert answer.status_code == 200 and not answer.content and answer["ETag"] == table.ask()["ETag"]


def test_a_member_reads_it_with_a_log_in(event: Event) -> None:
    client = world.member(event.club, Role.CLUB_REVIEWER, "ash")
    told = client.get(f"/api/events/{event.slug}/station").json()
    assert told["station"] == {"name": "ash", "can": []}


def test_an_empty_site_of_slips_is_a_list(table: Speaker) -> None:
    assert json.loads(table.ask().content)["slips"] == []


def test_a_doubled_day_is_told_with_both_until_it_is_settled(event: Event, table: Speaker) -> None:
    first, other = message(), message(gross="8.70")
    assert [answer["state"] for answer in table.send(first, other)] == ["kept", "second"]
    papers = table.ask()
    assert [(slip["id"], slip["slip"]) for slip in papers.json()["slips"]] == [(first["id"], 1), (other["id"], 2)]
    settle(WeighSlip.objects.select_related("event", "entry").get(number=2), "the second reading", "quill")
    later = table.ask(**{"If-None-Match": papers["ETag"]})
    assert later.status_code == 200
    assert [(slip["id"], slip["slip"]) for slip in later.json()["slips"]] == [(other["id"], 2)]


@pytest.mark.database
def test_another_life_of_the_database_is_told(event: Event, table: Speaker) -> None:
    """PostgreSQL's tools bring back key and revision alike; the table is made anew."""
    for what in ("station", "ramp"):
        before = table.ask(what)
        assert table.ask(what).json()["life"] == before.json()["life"] and len(before.json()["life"]) == 32
        begin_another_life()
        after = table.ask(what, **{"If-None-Match": before["ETag"]})
        assert after.status_code == 200 and after.json()["life"] != before.json()["life"]
    if connection.vendor == "postgresql":
        life = database_life()
        with connection.cursor() as cursor:
            cursor.execute("CREATE TEMPORARY TABLE aside AS SELECT * FROM audit_databaselife")
            with connection.schema_editor() as editor:
                editor.delete_model(DatabaseLife)
                editor.create_model(DatabaseLife)
            cursor.execute("INSERT INTO audit_databaselife SELECT * FROM aside")
        assert database_life() != life
