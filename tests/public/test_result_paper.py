"""What directors take out of a result: poster with its code, certificates, press text; of the frozen result, no anglers."""

import pytest
import segno
import world
from django.test import Client
from django.urls import reverse

from weighin.clubs.models import Club
from weighin.events.models import Event
from weighin.standings.services import post_result, publish_result, set_public

pytestmark = pytest.mark.django_db

SLIPS = [
    world.slip(gross="9.47", big_fish="1.80"),
    world.slip(boat="2", fish="6", alive="5", dead="1", gross="8.25", big_fish="1.95", big_fish_alive="yes"),
    world.slip(boat="3", gross="8.25", big_fish="1.20"),
]
PAPERS = ("poster", "certificates", "press")


@pytest.fixture
def event() -> Event:
    made: Event = world.event("First light", slips=SLIPS)
    return made


def page(client: Client, name: str, event: Event, host: str = "localhost") -> str:
    answer = client.get(reverse(f"public:{name}", args=[event.slug]), headers={"Host": host})
    assert answer.status_code == 200
    return answer.content.decode()


def test_each_says_what_to_do_before_a_result(event: Event) -> None:
    director = world.member(event.club)
    for name in PAPERS:
        assert "No result is posted yet." in page(director, name, event)


def test_they_are_directors_alone(event: Event) -> None:
    for name in PAPERS:
        address = reverse(f"public:{name}", args=[event.slug])
        assert world.member(event.club, "weigh_official").get(address).status_code == 403
        assert world.stranger().get(address).status_code == 404


def test_they_are_made_of_the_posted_then_of_the_official_result(event: Event) -> None:
    director = world.member(event.club)
    post_result(event, "test")
    assert "First light pair 1 leads First light with 9.47 lb." in page(director, "press", event)
    assert "Provisional results." in page(director, "poster", event)
    publish_result(event, "test")
    said = page(director, "press", event)
    assert "First light pair 1 won First light with 9.47 lb." in said and "Official results, version 1." in said
    assert "Big fish: First light pair 2, 1.95 lb." in said
    assert "Fish: 19 of 20 weighed were alive at the scales." in said
    assert said.index("1. First light pair 1, 9.47 lb, 7 fish") < said.index("First light pair 3, 8.25 lb, 7 fish")
    for name in PAPERS:
        assert "First light angler" not in page(director, name, event)


def test_a_certificate_for_each_of_the_first_three_and_for_the_big_fish(event: Event) -> None:
    publish_result(event, "test")
    said = page(world.member(event.club), "certificates", event)
    assert said.count('<section class="award">') == 4
    first, second, third, fish = said.split('<section class="award">')[1:]
    assert "Place 1" in first and "First light pair 1" in first and "9.47 lb" in first and "First light, " in first
    assert "Place 2" in second and "Place 3" in third
    assert "Big fish" in fish and "First light pair 2" in fish and "1.95 lb" in fish


def test_the_code_is_the_address_of_the_result(event: Event, settings: object) -> None:
    settings.ALLOWED_HOSTS = ["lake.example", "localhost"]  # type: ignore[attr-defined]
    director = world.member(event.club)
    publish_result(event, "test")
    address = f"http://lake.example{reverse('public:event', args=[event.slug])}"
    drawn = segno.make(address, error="m", micro=False).svg_inline(
        scale=1, border=4, dark="#000", light="#fff", omitsize=True, title="The result", svgclass="code", lineclass=None
    )
    said = page(director, "poster", event, "lake.example")
    assert drawn in said and address in said
    assert "works on this computer only" in page(director, "poster", event)
    set_public(event, False, "test")
    said = page(director, "poster", event, "lake.example")
    assert drawn not in said and "The event is not public" in said


def test_a_tie_says_so(event: Event) -> None:
    tied = world.event("Even", slips=[world.slip(), world.slip(boat="2")], rules={"ties": "share"})
    publish_result(tied, "test")
    said = page(world.member(event.club, username="other"), "press", tied)
    assert "Even pair 1, Even pair 2 won Even, tied, with 8.50 lb." in said and "1, tied. Even pair 1" in said


def test_the_press_text_is_in_the_language_of_the_club_and_its_page_in_the_readers(event: Event) -> None:
    director = world.member(event.club)
    director.get("/", {"language": "es"})
    publish_result(event, "test")
    said = page(director, "press", event)
    assert '<html lang="es"' in said and 'lang="en">First light pair 1 won First light with 9.47 lb.' in said
    Club.objects.update(language="es")
    said = page(world.member(event.club, username="other"), "press", event)
    assert '<html lang="en"' in said and 'lang="es">First light pair 1' in said and " won " not in said
