"""The tanks' page and its forms: alarms in words, readings kept once, changed with their history, taken out with a reason."""

from datetime import UTC, datetime, timedelta
from io import BytesIO
from typing import Any

import pytest
import world
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone
from openpyxl import load_workbook
from tanks.shore import acts, again, faults, page, send, text

from weighin.accounts.domain.roles import Role
from weighin.audit.models import HistoryEntry
from weighin.events.models import Event
from weighin.reports.writers.event_workbook import write_event_workbook
from weighin.tanks.models import TankReading, Treatment

READING = {
    "day": "1", "tank": "Line tank", "temp": "78", "shows": "F", "do": "6.4", "fish_lb": "40", "volume_gal": "100",
    "time": "14:10",
}  # fmt: skip
TREATMENT = {"day": "1", "tank": "Line tank", "what": "salt", "product": "Stock salt", "dose": "4 lb", "started": "14:00", "label_seen": "yes"}  # fmt: skip


@pytest.fixture
def event(db: None) -> Event:
    found = world.event()
    Event.objects.filter(pk=found.pk).update(lake_temp="82 F", elevation_ft="740")
    found.refresh_from_db()
    return found


@pytest.fixture
def carer(event: Event) -> Client:
    return world.member(event.club, Role.FISH_CARE_OFFICIAL, "lunt")


def write(carer: Client, event: Event, **changed: str) -> None:
    answer = send(carer, event, "tanks:tanks_new", **{**READING, **changed})
    assert answer.status_code == 302, faults(answer)


def at(monkeypatch: pytest.MonkeyPatch, moment: datetime) -> None:
    monkeypatch.setattr("weighin.events.queries.care_context.timezone.now", lambda: moment)


def test_the_page_says_how_the_tanks_stand(event: Event, carer: Client) -> None:
    assert "No tank is read yet." in text(page(carer, event, "tanks:tanks"))
    write(carer, event, temp="77", ph="7.6", total_ammonia="0.4")
    said = text(page(carer, event, "tanks:tanks"))
    assert "Line tank is within its limits." in said and "80 % of the 8.0 that water at 77 °F and 740 ft" in said
    assert "40 % of 100 gal at one pound a gallon: room for 60 lb more." in said
    assert "5 °F below the lake at 82 °F." in said and "Caution from 0.05." in said
    # Emerson et al. 1975 at 25 °C and pH 7.6: 2.2 %
    assert "2.2 % of 0.4 mg/L total ammonia nitrogen is un-ionised at pH 7.6" in said


def test_an_alarm_is_said_in_words_with_what_to_do(event: Event, carer: Client) -> None:
    write(carer, event, tank="Release boat", temp="77")
    write(carer, event, temp="77", do="4.4", time="14:40")
    answer = page(carer, event, "tanks:tanks")
    said = text(answer)
    assert "Line tank needs attention now." in said
    assert "Oxygen is 4.4 mg/L, below the 5 to keep. More air or oxygen now" in said
    assert [tank.name for tank, _ in answer.context["tanks"]] == ["Line tank", "Release boat"]
    assert 'class="stop"' in answer.content.decode()
    # A later, better reading ends it
    write(carer, event, temp="77", do="6.9", time="14:50")
    assert "Both tanks are within their limits." in text(page(carer, event, "tanks:tanks"))


def test_cautions_stand_where_the_act_is(event: Event, carer: Client) -> None:
    said = text(page(carer, event, "tanks:tanks"))
    for words in ("drain a tank, never lift it", "Keep plugged-in equipment out of reach", "Oxygen feeds fire", "non-iodized", "permit come before"):  # fmt: skip
        assert words in said, words
    assert "Electricity near water." in text(page(carer, event, "tanks:tanks_new"))
    put_in = text(page(carer, event, "tanks:treatments_new"))
    for words in ("No drug and no anesthetic", "may not be fit to eat", "no dry ice", "keep brine out of the lake"):
        assert words in put_in, words


def test_a_reading_is_kept_as_written_with_its_history(event: Event, carer: Client) -> None:
    before = event.revision
    write(
        carer,
        event,
        temp="25.5",
        shows="C",
        ph="7.60",
        total_ammonia="0.4",
        salt_percent="0.50",
        note="second stone in",
    )
    row = TankReading.objects.get()
    assert (row.temp, row.ph, row.salt_percent, row.note) == ("25.5 C", "7.60", "0.50", "second stone in")
    assert row.time == datetime(2026, 6, 20, 19, 10, tzinfo=UTC)
    event.refresh_from_db()
    entry = HistoryEntry.objects.filter(event_id=event.pk).latest("id")
    assert event.revision == before + 1
    assert (entry.act, entry.actor, entry.sentence) == (
        "tank.written",
        "lunt",
        "Tank reading written: Line tank, day 1",
    )
    assert entry.details["after"]["temp"] == "25.5 C"


def test_a_temperature_may_bring_its_own_unit(event: Event, carer: Client) -> None:
    write(carer, event, temp="77 F", shows="C")
    assert TankReading.objects.get().temp == "77 F"


@pytest.mark.parametrize(
    ("wrong", "field", "said"),
    [
        ({"temp": "78", "shows": ""}, "temp", "has no unit"),
        ({"temp": "78", "shows": "C"}, "temp", "outside the range of water"),
        ({"do": "17"}, "do", "% of what such water holds"),
        ({"do": "-1"}, "do", "too small"),
        ({"volume_gal": "0"}, "volume_gal", "0 gal holds no fish"),
        ({"ph": "3.9"}, "ph", "from 4 to 11"),
        ({"ph": "15"}, "ph", "too large"),
        ({"salt_percent": "6"}, "salt_percent", "from 0 to 5"),
        ({"total_ammonia": "lots"}, "total_ammonia", "is not a number"),
        ({"fish_lb": "7,5"}, "fish_lb", "has a comma"),
        ({"time": "25:00"}, "time", "write it as 6:00 AM or 2:42 PM"),
        ({"time": ""}, "time", "missing"),
        ({"tank": ""}, "tank", "missing"),
        ({"day": "4"}, "day", "there is no day 4".capitalize()),
        ({"temp": "", "do": "", "fish_lb": ""}, "temp", "nothing is read yet".capitalize()),
        ({"note": "x" * 501}, "note", "501 characters"),
    ],
)
def test_what_cannot_be_is_refused_at_its_field_and_nothing_is_lost(
    event: Event, carer: Client, wrong: dict[str, str], field: str, said: str
) -> None:
    sent = {**READING, **wrong}
    answer = send(carer, event, "tanks:tanks_new", **sent)
    found = faults(answer)
    assert set(found) == {field} and said in found[field], found
    assert not TankReading.objects.exists()
    form = answer.context["form"]
    assert {name: form[name].value() for name in sent} == sent


def test_every_fault_is_named_at_once(event: Event, carer: Client) -> None:
    answer = send(
        carer, event, "tanks:tanks_new", day="1", tank="", temp="hot", do="99", ph="1", time="whenever", volume_gal="0"
    )
    assert set(faults(answer)) == {"tank", "temp", "do", "ph", "time", "volume_gal"}


def test_a_form_that_is_sent_twice_keeps_one_reading(event: Event, carer: Client) -> None:
    sent = again(page(carer, event, "tanks:tanks_new"), **READING)
    for _ in range(2):
        assert send(carer, event, "tanks:tanks_new", **sent).status_code == 302
    assert TankReading.objects.count() == 1 and acts(event).count("tank.written") == 1
    # The same form with other figures is another matter: it is not written over, and says so
    answer = send(carer, event, "tanks:tanks_new", **{**sent, "do": "5.9"})
    assert "was saved already with other figures" in text(answer) and TankReading.objects.get().do == "6.4"


def test_reading_a_tank_again_brings_its_name_and_volume_along(event: Event, carer: Client) -> None:
    write(carer, event)
    form = page(carer, event, "tanks:tanks_new", tank="LINE  tank").context["form"]
    assert [form[name].value() for name in ("tank", "volume_gal", "fish_lb", "do")] == ["Line tank", "100", "40", None]


def test_a_blank_time_is_now_while_the_day_goes_on(
    event: Event, carer: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    at(monkeypatch, datetime(2026, 6, 20, 19, 42, 31, tzinfo=UTC))
    assert "Blank: the time when it is saved." in text(page(carer, event, "tanks:tanks_new"))
    write(carer, event, time="")
    assert TankReading.objects.get().time == datetime(2026, 6, 20, 19, 42, tzinfo=UTC)
    at(monkeypatch, datetime(2026, 6, 20, 20, 42, tzinfo=UTC))
    assert "The last reading is 60 min old." in text(page(carer, event, "tanks:tanks"))


def test_a_reading_is_changed_and_the_history_tells_before_and_after(event: Event, carer: Client) -> None:
    write(carer, event)
    row = TankReading.objects.get()
    opened = page(carer, event, "tanks:tank_reading", row.pk)
    assert send(carer, event, "tanks:tank_reading", row.pk, **again(opened, do="5.4")).status_code == 302
    row.refresh_from_db()
    entry = HistoryEntry.objects.filter(event_id=event.pk).latest("id")
    assert row.do == "5.4" and row.temp == "78 F" and entry.act == "tank.changed"
    assert (entry.details["before"]["do"], entry.details["after"]["do"]) == ("6.4", "5.4")
    # Kept again without a change it leaves no entry
    assert (
        send(
            carer, event, "tanks:tank_reading", row.pk, **again(page(carer, event, "tanks:tank_reading", row.pk))
        ).status_code
        == 302
    )
    assert acts(event)[-2:] == ["tank.written", "tank.changed"]


def test_two_people_at_one_reading_do_not_write_over_each_other(event: Event, carer: Client) -> None:
    write(carer, event)
    row = TankReading.objects.get()
    mine = again(page(carer, event, "tanks:tank_reading", row.pk), do="5.4")
    send(
        carer, event, "tanks:tank_reading", row.pk, **again(page(carer, event, "tanks:tank_reading", row.pk), do="6.1")
    )
    answer = send(carer, event, "tanks:tank_reading", row.pk, **mine)
    assert "Somebody else changed this meanwhile" in text(answer) and "6.1 mg/L" in text(answer)
    row.refresh_from_db()
    assert row.do == "6.1" and answer.context["form"]["do"].value() == "5.4"
    assert send(carer, event, "tanks:tank_reading", row.pk, **again(answer)).status_code == 302
    row.refresh_from_db()
    assert row.do == "5.4"


def test_a_reading_is_taken_out_with_a_reason_only(event: Event, carer: Client) -> None:
    write(carer, event)
    row = TankReading.objects.get()
    answer = send(carer, event, "tanks:tank_reading", row.pk, act="take_out")
    assert "Write why it is void" in text(answer) and TankReading.objects.exists()
    # What the page shows of the reading is still there to be changed
    assert answer.context["form"]["do"].value() == "6.4"
    assert (
        send(carer, event, "tanks:tank_reading", row.pk, act="take_out", **{"out-reason": "wrong tank"}).status_code
        == 302
    )
    entry = HistoryEntry.objects.filter(event_id=event.pk).latest("id")
    assert not TankReading.objects.exists() and entry.act == "tank.taken_out" and "wrong tank" in entry.sentence
    assert entry.details["before"]["do"] == "6.4"
    assert page(carer, event, "tanks:tank_reading", row.pk).status_code == 404


def test_a_closed_event_shows_readings_and_takes_none(event: Event, carer: Client) -> None:
    write(carer, event)
    Event.objects.filter(pk=event.pk).update(closed_at=timezone.now())
    said = text(page(carer, event, "tanks:tanks"))
    assert "The event is closed." in said and "Add a reading" not in said and "6.4" in said
    answer = send(carer, event, "tanks:tanks_new", **READING)
    assert "is closed" in text(answer) and TankReading.objects.count() == 1
    assert answer.context["form"]["do"].value() == "6.4"


@pytest.mark.parametrize("role", [Role.WEIGH_OFFICIAL, Role.CLUB_REVIEWER])
def test_other_members_read_and_write_nothing(event: Event, carer: Client, role: Role) -> None:
    write(carer, event)
    reader = world.member(event.club, role, role)
    shown = page(reader, event, "tanks:tanks")
    assert "Line tank" in text(shown) and "Add a reading" not in text(shown)
    assert "/readings/" not in shown.content.decode() and "/new/" not in shown.content.decode()
    pk = TankReading.objects.get().pk
    for name, args in (("tanks_new", ()), ("tank_reading", (pk,)), ("treatments_new", ())):
        assert page(reader, event, f"tanks:{name}", *args).status_code == 403
        assert send(reader, event, f"tanks:{name}", *args, **READING).status_code == 403


def test_the_reading_of_another_event_is_not_there(event: Event, carer: Client) -> None:
    write(carer, event)
    other = world.event("Other")
    assert page(carer, other, "tanks:tank_reading", TankReading.objects.get().pk).status_code == 404
    assert page(carer, event, "tanks:tank_reading", 2**63).status_code == 404


def test_the_day_is_drawn_from_two_readings_on(event: Event, carer: Client) -> None:
    write(carer, event)
    answer = page(carer, event, "tanks:tanks")
    assert "One reading a tank makes no line." in text(answer) and b"<svg" not in answer.content
    write(carer, event, do="5.1", time="14:40")
    answer = page(carer, event, "tanks:tanks")
    said = text(answer)
    assert "The lowest oxygen read was 5.1 mg/L, in Line tank at 2:40 PM" in said and "keep 5 or more" in said
    assert answer.content.count(b"<svg") == 9  # three charts, each for three widths of page
    ice = {"what": "ice", "product": "", "dose": "5 lb", "started": "14:20", "label_seen": ""}
    send(carer, event, "tanks:treatments_new", **{**TREATMENT, **ice})
    drawn = page(carer, event, "tanks:tanks").content.decode().split("<svg", 1)[1]
    assert ">Ice</text>" in drawn  # what was put in, by the name that its table gives it
    assert "The warmest water read was 78 °F, in Line tank at" in said
    for minute in ("50", "55"):
        write(carer, event, time=f"14:{minute}", ph="7.6", total_ammonia="0.4")
    answer = page(carer, event, "tanks:tanks")
    assert "The most un-ionised ammonia read was 0.011 mg/L, in Line tank at 2:50 PM" in text(answer)
    assert "The readings in figures" in text(answer) and answer.content.count(b"<svg") == 12
    # A chart of a single time of day cannot be drawn
    TankReading.objects.update(time=TankReading.objects.earliest("time").time)
    assert page(carer, event, "tanks:tanks").status_code == 200


def test_what_was_put_in_is_written_down_with_its_label(event: Event, carer: Client) -> None:
    for wrong, field in (
        ({"label_seen": ""}, "label_seen"),
        ({"what": "conditioner", "product": ""}, "product"),
        ({"dose": ""}, "dose"),
        ({"ended": "13:00"}, "ended"),
        ({"what": "magic"}, "what"),
    ):
        assert set(faults(send(carer, event, "tanks:treatments_new", **{**TREATMENT, **wrong}))) == {field}
    assert send(carer, event, "tanks:treatments_new", **TREATMENT).status_code == 302
    # Ice and water have no label
    assert (
        send(
            carer, event, "tanks:treatments_new", **{**TREATMENT, "what": "ice", "product": "", "label_seen": ""}
        ).status_code
        == 302
    )
    said = text(page(carer, event, "tanks:tanks"))
    assert "Stock salt" in said and "seen" in said and acts(event)[-2:] == ["treatment.written"] * 2
    row = Treatment.objects.get(what="salt")
    opened = page(carer, event, "tanks:treatment", row.pk)
    assert send(carer, event, "tanks:treatment", row.pk, **again(opened, ended="14:20")).status_code == 302
    row.refresh_from_db()
    assert row.ended is not None and row.ended - row.started == timedelta(minutes=20)


def test_a_change_of_water_moves_the_next_one(event: Event, carer: Client) -> None:
    write(carer, event)
    assert "4:10 PM to 5:10 PM" in text(page(carer, event, "tanks:tanks"))
    send(carer, event, "tanks:treatments_new", **{**TREATMENT, "what": "water", "product": "", "dose": "half", "started": "15:30", "label_seen": ""})  # fmt: skip
    said = text(page(carer, event, "tanks:tanks"))
    assert "5:30 PM to 6:30 PM" in said and "after the last change at 3:30 PM" in said


def test_readings_go_into_the_workbook_as_written(event: Event, carer: Client) -> None:
    write(carer, event, temp="25.50", shows="C", volume_gal="100.0", note="=1+1")
    out = BytesIO()
    write_event_workbook(event, out)
    rows = list(load_workbook(BytesIO(out.getvalue()))["Tanks"].iter_rows(values_only=True))
    row: dict[Any, Any] = dict(zip(rows[0], rows[1], strict=True))
    assert (row["temp"], row["volume_gal"], row["time"], row["note"]) == ("25.50 C", 100, "14:10", "=1+1")
    assert set(load_workbook(BytesIO(out.getvalue())).sheetnames) == {
        "Event", "Days", "Flights", "Rules", "Teams", "Slips", "Check-ins", "Fish care", "Tanks", "Holding",
    }  # fmt: skip


def test_the_page_asks_the_same_number_of_questions_for_1_reading_and_for_300(event: Event, carer: Client) -> None:
    counts = []
    for number in (1, 300):
        TankReading.objects.all().delete()
        start = datetime(2026, 6, 20, 12, tzinfo=UTC)
        TankReading.objects.bulk_create(
            TankReading(event=event, day=1, tank=f"Tank {n % 7}", time=start + timedelta(minutes=n), do="6", temp="76 F", fish_lb="9", volume_gal="90")
            for n in range(number)
        )  # fmt: skip
        page(carer, event, "tanks:tanks")
        with CaptureQueriesContext(connection) as asked:
            assert page(carer, event, "tanks:tanks").status_code == 200
        counts.append(len(asked))
    assert counts[0] == counts[1] <= 12, counts


def test_several_days_are_read_one_at_a_time(db: None) -> None:
    event = world.event("Two days", days=2)
    carer = world.member(event.club, Role.FISH_CARE_OFFICIAL, "lunt")
    write(carer, event, do="4.0")
    write(carer, event, day="2", do="7.0")
    assert "Line tank is within its limits." in text(page(carer, event, "tanks:tanks"))
    assert "Line tank needs attention now." in text(page(carer, event, "tanks:tanks", day="1"))
    assert page(carer, event, "tanks:tanks", day="9").context["day"] == 2
    assert reverse("tanks:tanks", args=[event.slug]) in page(carer, event, "care:notes").content.decode()
