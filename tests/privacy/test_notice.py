"""The privacy notice: plain words to begin with, a club's own, linked from the foot of every public page."""

import pytest
import world
from django.test import Client

from weighin.audit.models import HistoryEntry
from weighin.events.models import Event
from weighin.privacy.pages.notice import text_to_begin_with
from weighin.privacy.services.deciding import keep_names
from weighin.safekeeping.domain.backup_ages import ONE_A_DAY
from weighin.standings.services import publish_result

pytestmark = pytest.mark.django_db


@pytest.fixture
def event() -> Event:
    found = world.plain()
    publish_result(found, "test")
    found.refresh_from_db()
    return found


def test_the_site_s_notice_says_what_is_public_and_who_consents_for_youth() -> None:
    page = Client().get("/privacy/").content.decode()
    for words in ("What is public", "parent or guardian", "ask a director", "no other site", "Backups keep it longer"):
        assert words in page, words


def test_a_club_writes_its_own_and_readers_find_it(event: Event) -> None:
    client, where = world.member(event.club), f"/clubs/{event.club.slug}/privacy/notice/"
    assert "What is public" in client.get(where).content.decode()
    answer = client.post(where, {"notice": "Ask R. Quill at the ramp.\n\n<script>no</script>"})
    assert answer.status_code == 302
    page = Client().get(f"/privacy/{event.club.slug}/").content.decode()
    assert "<p>Ask R. Quill at the ramp.</p>" in page and "&lt;script&gt;" in page and "What is public" not in page
    line = HistoryEntry.objects.get(act="notice.written")
    assert "Quill" not in line.sentence and line.club_id == event.club.pk
    client.post(where, {"notice": ""})
    assert "What is public" in Client().get(f"/privacy/{event.club.slug}/").content.decode()


def test_the_site_s_text_sent_back_unchanged_stays_the_site_s(event: Event) -> None:
    client = world.member(event.club)
    client.post(f"/clubs/{event.club.slug}/privacy/notice/", {"notice": text_to_begin_with().replace("\n", "\r\n")})
    assert "club’s own" not in client.get(f"/privacy/{event.club.slug}/").content.decode()


def test_it_says_how_long_backups_keep_a_name() -> None:
    assert f"gone after {ONE_A_DAY.days} days" in Client().get("/privacy/").content.decode()


def test_it_says_how_long_names_are_kept(event: Event) -> None:
    where = f"/privacy/{event.club.slug}/"
    assert "has not decided yet" in Client().get(where).content.decode()
    keep_names(event.club, 3, "mara")
    assert "latest 3 seasons" in Client().get(where).content.decode()
    keep_names(event.club, None, "mara")
    assert "until somebody asks" in Client().get(where).content.decode()


def test_a_club_that_publishes_nothing_is_not_told_to_strangers(event: Event) -> None:
    Event.objects.update(is_public=False)
    where = f"/privacy/{event.club.slug}/"
    assert Client().get(where).status_code == world.stranger().get(where).status_code == 404
    assert world.member(event.club).get(where).status_code == 200
    assert Client().get("/privacy/nowhere/").status_code == 404


@pytest.mark.parametrize("page", ["", "standings/", "rules/", "fish/", "briefing/", "official/1/", "crowd/"])
def test_public_pages_lead_to_the_club_s_notice(event: Event, page: str) -> None:
    said = Client().get(f"/results/{event.slug}/{page}").content.decode()
    assert f'href="/privacy/{event.club.slug}/"' in said


def test_other_open_pages_lead_to_the_site_s() -> None:
    world.member(world.club())
    for page in ("/", "/sign-in/", "/planner/", "/no-such-page/"):
        assert 'href="/privacy/"' in Client().get(page).content.decode(), page
