"""What links and search engines show of a public page: what it is, its address, the first places as a picture."""

import json
import re
from contextlib import closing
from io import BytesIO
from pathlib import Path

import pytest
import world
from django.contrib.staticfiles import finders
from django.db.models import F
from django.test import Client
from django.urls import reverse
from PIL import Image

from weighin.events.models import Event
from weighin.public.pages.picture import legible, picture
from weighin.public.pages.still_files import still_files
from weighin.standings.services import publish_result

pytestmark = pytest.mark.django_db
PAGES = ("event", "standings", "rules", "mortality", "draws", "briefing", "crowd", "check")


@pytest.fixture
def event(db: None) -> Event:
    found = world.plain()
    found.club.is_open = True
    found.club.save()
    publish_result(found, "test")
    return Event.objects.get(pk=found.pk)


def said(html: str) -> dict[str, str]:
    return dict(re.findall(r'<meta (?:name|property)="([\w:]+)" content="([^"]*)">', html))


@pytest.mark.parametrize("name", PAGES)
def test_every_public_page_of_an_event_says_what_it_is(event: Event, name: str) -> None:
    path = reverse(f"public:{name}", args=[event.slug])
    told = said(Client().get(path).content.decode())
    assert told["robots"] == "index, follow" and event.name in told["description"] and told["og:title"] == event.name
    assert told["og:url"] == f"http://testserver{path}"
    assert told["og:image"] == f"http://testserver/results/{event.slug}/standings.png"


@pytest.mark.parametrize("path", ["/", "/help/words/", "/help/programs/", "/help/first-event/"])
def test_the_pages_of_the_site_say_what_they_are(event: Event, path: str) -> None:
    told = said(Client().get(path).content.decode())
    assert told["robots"] == "index, follow" and told["description"] and told["og:title"]
    with closing(Client().get(told["og:image"].removeprefix("http://testserver"))) as image:
        assert image.status_code == 200


def test_a_page_names_the_host_by_which_it_was_asked(event: Event, settings: object) -> None:
    settings.ALLOWED_HOSTS = ["one.example", "two.example"]  # type: ignore[attr-defined]
    path = reverse("public:event", args=[event.slug])
    for host in ("one.example", "two.example", "one.example"):
        assert said(Client().get(path, headers={"host": host}).content.decode())["og:url"] == f"http://{host}{path}"


def test_the_picture_has_the_size_that_links_show(event: Event) -> None:
    answer = Client().get(reverse("public:picture", args=[event.slug]))
    assert answer.headers["Content-Type"] == "image/png" and len(answer.content) < 60_000
    assert Image.open(BytesIO(answer.content)).size == (1200, 630)
    again = Client().get(
        reverse("public:picture", args=[event.slug]), headers={"if-none-match": answer.headers["ETag"]}
    )
    assert again.status_code == 304
    Event.objects.filter(pk=event.pk).update(is_public=False, revision=event.revision + 1)
    assert Client().get(reverse("public:picture", args=[event.slug])).status_code == 404


def test_long_names_stay_within_the_picture() -> None:
    rows = [
        (str(n), f"{n} " + "Wolverhamptonshire and Montgomery-Featherstonehaugh " * 3, "123.45 lb") for n in range(1, 6)
    ]
    image = Image.open(BytesIO(picture("Name " * 60, "Where " * 60, rows, "state " * 60))).convert("RGB")
    edge = [image.getpixel((x, y)) for x in range(1200 - 60, 1200) for y in range(0, 630, 7)]
    assert len(set(edge)) == 1, "something is drawn past the right margin"


def test_letters_that_no_font_has_are_not_drawn_as_boxes() -> None:
    names = ["Lœwe & Łódź", "Đường Hồ", "Ψάρεμα", "Рыбалка", "مسابقة الصيد", "e\u0301te\u0301"]
    assert all(legible(name) for name in names) and not any(legible(name) for name in ("湖の大会", "낚시", "Carp 🎣"))
    assert picture("湖 Lake", "W", [], "live") == picture("Lake", "W", [], "live")
    assert picture("مسابقة", "W", [], "live") != picture("", "W", [], "live")


def test_a_team_whose_letters_cannot_be_drawn_stands_as_its_boat() -> None:
    event = world.event(teams=[{"boat": "7", "team": "湖の大会", "angler_1": "A"}], slips=[world.slip(boat="7")])
    publish_result(event, "mara")
    drawn = Client().get(reverse("public:picture", args=[event.slug])).content
    event.entries.update(name="Boat 7")
    Event.objects.update(revision=F("revision") + 1)
    assert Client().get(reverse("public:picture", args=[event.slug])).content == drawn


def test_a_copy_in_files_has_the_picture_and_names_no_host(event: Event) -> None:
    files = still_files(event.club)
    assert files[f"results/{event.slug}/standings.png"][:4] == b"\x89PNG"
    told = said(files[f"results/{event.slug}/index.html"].decode())
    assert told["og:image"] == "standings.png" and "og:url" not in told


def test_a_page_of_the_lake_can_be_installed_as_itself(event: Event) -> None:
    """Without ``start_url`` the installed page opens again where it was installed (Web Application Manifest, 1.5)."""
    member = world.member(event.club)
    for path in (reverse("checkin:roll", args=[event.slug]), reverse("stations:scales_table", args=[event.slug]), reverse("care:ramp", args=[event.slug])):  # fmt: skip
        answer = member.get(path)
        found = re.search(r'<link rel="manifest" href="([^"]+)">', answer.content.decode())
        assert found and answer.headers["Referrer-Policy"] == "same-origin"
    told = json.loads(Path(finders.find("weighin/site.webmanifest") or "").read_text(encoding="utf-8"))
    assert "start_url" not in told and any("maskable" in icon.get("purpose", "") for icon in told["icons"])
    for icon in told["icons"]:
        with Image.open(finders.find(f"weighin/{icon['src']}") or "") as image:
            size = image.size
        assert "x".join(map(str, size)) == icon["sizes"]
