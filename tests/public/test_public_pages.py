"""Pages without log-in and the address for programs: what they give, and what they cost when nothing changed."""

import json

import pytest
import world
from django.core.management import call_command
from django.test import Client
from django.urls import reverse

from weighin.clubs.services.clubs import change_water
from weighin.events.models import Event
from weighin.roster.models import Angler
from weighin.slips.models import WeighSlip
from weighin.slips.services.slips import correct_slip
from weighin.standings.services import publish_result, set_public

pytestmark = pytest.mark.django_db
CHANGED = {"boat": "4", "day": "1", "fish": "1", "alive": "1", "dead": "0", "gross": "1.50", "reason": "misread"}


def published() -> Event:
    event = world.plain()
    publish_result(event, "test")
    event.refresh_from_db()
    return event


def test_an_empty_site_asks_for_its_first_director() -> None:
    assert Client().get("/")["Location"] == reverse("clubs:begin")


def test_home_lists_published_events_only() -> None:
    event, other = published(), world.plain("Not yet")
    html = Client().get("/").content.decode()
    assert event.name in html and other.name not in html
    assert world.member(event.club).get("/")["Location"] == reverse("events:mine")


def test_a_days_weather_and_temperatures_are_sentences_of_their_own() -> None:
    event = published()
    event.event_days.filter(number=1).update(weather="Still and hot, haze", lake_temp="86 F", air_temp="95 F")
    html = Client().get(f"/results/{event.slug}/").content.decode()
    assert "Day 1: Still and hot, haze. Lake 86 °F. Air 95 °F." in html.replace("\N{NO-BREAK SPACE}", " ")


def test_the_public_json_is_that_of_the_export_without_care_notes(tmp_path) -> None:  # type: ignore[no-untyped-def]
    event = published()
    answer = Client().get(f"/api/events/{event.slug}")
    assert answer["Content-Type"] == "application/json" and "no-cache" in answer["Cache-Control"]
    call_command("export_event", event.slug, format="json", out=tmp_path / "event.json")
    exported = json.loads((tmp_path / "event.json").read_text())
    told = answer.json()
    assert told.pop("result")["state"] == "official", "the public is told what the result is by now"
    assert exported.pop("fish_care") and told == exported


def test_unchanged_is_304_and_changed_is_not() -> None:
    event = published()
    client = Client()
    where = f"/api/events/{event.slug}"
    tag = client.get(where)["ETag"]
    again = client.get(where, headers={"if-none-match": tag})
    assert again.status_code == 304 and not again.content and again["ETag"] == tag
    assert client.get(where, headers={"if-none-match": f'"other", W/{tag}'}).status_code == 304
    slip = WeighSlip.objects.current().get(event=event, entry__boat=4, day=1)
    correct_slip(slip, CHANGED, "test")
    after = client.get(where, headers={"if-none-match": tag})
    assert after.status_code == 200 and after["ETag"] != tag
    assert next(row for row in after.json()["standings"] if row["boat"] == 4)["gross"] == "1.50"


def test_pages_answer_304_too_and_any_public_page_only_while_published() -> None:
    event = published()
    client = Client()
    for name in ("event", "standings", "rules", "mortality"):
        where = reverse(f"public:{name}", args=[event.slug])
        first = client.get(where)
        assert first.status_code == 200
        assert client.get(where, headers={"if-none-match": first["ETag"]}).status_code == 304
    set_public(event, False, "test")
    assert client.get(f"/api/events/{event.slug}").status_code == 404
    assert client.get(where, headers={"if-none-match": first["ETag"]}).status_code == 404


def test_only_reading_is_allowed() -> None:
    event = published()
    assert Client().post(f"/api/events/{event.slug}").status_code == 405
    assert Client().head(f"/api/events/{event.slug}").status_code == 200


def test_the_public_search_knows_no_anglers() -> None:
    event = world.plain()
    Event.objects.filter(pk=event.pk).update(is_public=True)
    address = reverse("public:standings", args=[event.slug])
    for name in Angler.objects.filter(entry__event=event).values_list("name", flat=True):
        page = Client().get(address, {"q": name}).content.decode()
        assert "No team or boat matches" in page, name
    assert "angler" not in Client().get(address).content.decode().replace(event.club.slug, "")
    assert "No team" not in Client().get(address, {"q": "3"}).content.decode()


def test_a_corrected_elevation_reaches_the_public_briefing() -> None:
    event = published()
    address = reverse("public:briefing", args=[event.slug])
    tag = Client().get(address)["ETag"]
    change_water(event.water, event.water.name, 6000, "test")
    assert Client().get(address, headers={"If-None-Match": tag}).status_code == 200


def test_pages_of_forty_boats_with_long_names_stay_small() -> None:
    """60,000 bytes are ours: a phone at the lake waits for them some seconds. From memory."""
    event = world.large(40, "Alexander Montgomery & Christopher Featherstonehaugh")
    publish_result(event, "test")
    Event.objects.filter(pk=event.pk).update(is_public=True, revision=event.revision + 1)
    for name, more in (("event", ()), ("standings", ()), ("result", (1,))):
        answer = Client().get(reverse(f"public:{name}", args=[event.slug, *more]))
        assert answer.status_code == 200 and len(answer.content) <= 60_000, (name, len(answer.content))
