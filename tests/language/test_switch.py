"""Which language an answer has: chosen, asked for, or English; and no page is shown in another than its reader's."""

import pytest
import world
from django.test import Client
from django.urls import reverse
from public.test_door import Door, door, event  # noqa: F401

from weighin.events.models import Event

SPANISH = '<html lang="es">'
ENGLISH = '<html lang="en">'


@pytest.fixture(autouse=True)
def someone(db: None) -> None:
    """A site that nobody can sign in to leads to its first page."""
    world.stranger()


@pytest.mark.parametrize(
    ("asked", "language"),
    [("", "en"), ("es-MX,es;q=0.9,en;q=0.8", "es"), ("ES", "es"), ("en-US,es;q=0.9", "en"), ("fr-CA,es;q=0.5", "en")],
)
def test_what_the_browser_asks_for_first(asked: str, language: str) -> None:
    page = Client().get("/sign-in/", headers={"accept-language": asked}).content.decode()
    assert f'<html lang="{language}">' in page


def test_a_choice_is_kept_in_the_browser_and_beats_what_it_asks_for() -> None:
    reader = Client(headers={"accept-language": "en-US"})
    first = reader.get("/sign-in/").content.decode()
    assert (
        ENGLISH in first and '<button class="as-words" name="language" value="es" lang="es">Español</button>' in first
    )
    chosen = reader.get("/sign-in/?language=es")
    assert SPANISH in chosen.content.decode() and chosen.cookies["language"]["samesite"] == "Lax"
    kept = reader.get("/sign-in/")
    assert SPANISH in kept.content.decode() and "language" not in kept.cookies
    assert {"Accept-Language", "Cookie"} <= set(kept["Vary"].split(", "))
    assert 'value="en" lang="en">English</button>' in kept.content.decode()
    assert ENGLISH in reader.get("/sign-in/?language=en").content.decode()
    assert ENGLISH in reader.get("/sign-in/").content.decode()


@pytest.mark.parametrize("written", ["fr", "", "es; x", '"es', "en-xa", "%00"])
def test_no_other_language_is_taken(written: str) -> None:
    answer = Client().get("/sign-in/", {"language": written})
    assert ENGLISH in answer.content.decode() and "language" not in answer.cookies
    assert ENGLISH in Client(headers={"cookie": f"language={written}"}).get("/sign-in/").content.decode()


def test_the_door_before_django_keeps_languages_apart(event: Event, door: Door) -> None:  # noqa: F811
    address = reverse("public:rules", args=[event.slug])
    readers = [{}, {"HTTP_COOKIE": "language=es"}, {"HTTP_ACCEPT_LANGUAGE": "es-US"}, {"HTTP_COOKIE": "language=en"}]
    for environ, wanted in zip(readers, [ENGLISH, SPANISH, SPANISH, ENGLISH], strict=True):
        for _ in range(3):
            _, headers, body = door.ask(address, **environ)
            assert wanted in body.decode() and "Accept-Language" in headers["Vary"]
    assert door.to_django <= 4
    _, headers, body = door.ask(f"{address}?language=es")
    assert SPANISH in body.decode() and "language=es" in headers["Set-Cookie"]
    assert ENGLISH in door.ask(address)[2].decode()


def test_a_form_that_is_sent_is_answered_in_its_readers_language() -> None:
    reader = world.stranger()
    reader.cookies["language"] = "es"
    assert SPANISH in reader.post("/sign-in/", {}).content.decode()
