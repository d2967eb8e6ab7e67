"""What the standings page costs: uncached, cached, and as a 304."""

import pytest
import world
from django.test import Client
from django.urls import reverse

from bench.floor import FLOOR, best, floor
from bench.measured import Measured
from weighin.standings.services import publish_result
from weighin.ui.kept import KEEPER

pytestmark = [pytest.mark.bench, pytest.mark.django_db]


def test_a_standings_page_of_300_teams(measured: Measured) -> None:
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
    measured("Standings page of 300 teams, members', new", uncached, "ms", least, FLOOR, at_most=25)
    measured("Standings page of 300 teams, members', kept", cached, "ms", least, FLOOR, at_most=1.5)
    measured("Public JSON of 300 teams, unchanged", unchanged, "ms", least, FLOOR, at_most=0.8)
