"""What the standings page costs: uncached, cached, and as a 304."""

import pytest
import world
from django.test import Client
from django.urls import reverse

from bench.floor import best, floor
from weighin.standings.services import publish_result
from weighin.ui.kept import KEEPER

pytestmark = [pytest.mark.bench, pytest.mark.django_db]


def test_a_standings_page_of_300_teams(capsys: pytest.CaptureFixture[str]) -> None:
    event = world.large(300)
    publish_result(event, "test")
    client, where = world.member(event.club), reverse("standings:live", args=[event.slug])

    def fresh() -> None:
        KEEPER.clear()
        assert client.get(where).status_code == 200

    uncached = best(fresh, 5)
    cached = best(lambda: client.get(where), 100)
    public = Client()
    api = f"/api/events/{event.slug}"
    tag = public.get(api)["ETag"]
    unchanged = best(lambda: public.get(api, headers={"if-none-match": tag}), 100)
    least = floor()
    uncached, cached, unchanged = uncached / least, cached / least, unchanged / least
    with capsys.disabled():
        print(f"\nstandings of 300 teams: {uncached:.1f} floors uncached, {cached:.2f} cached, 304 in {unchanged:.2f}")
    # Seen: 9, 0.6 and 0.16 times
    assert uncached <= 25
    assert cached <= 1.5
    assert unchanged <= 0.8
