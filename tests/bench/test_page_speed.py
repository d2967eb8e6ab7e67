"""What the standings page costs: uncached, cached, as a 304, and with ever more boats."""

from math import log10

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


@pytest.mark.parametrize("page", ["standings:live", "stations:api_station"])
def test_ten_times_the_boats_cost_about_ten_times_the_work(page: str, measured: Measured) -> None:
    spent = []
    for boats in (100, 1000):
        event = world.large(boats, f"Of {boats}")
        client, where = world.member(event.club, username=f"of-{boats}"), reverse(page, args=[event.slug])

        def fresh(client: Client = client, where: str = where) -> None:
            KEEPER.clear()
            assert client.get(where).status_code == 200

        spent.append(best(fresh, 3))
    slope = log10(spent[1] / spent[0])
    name = {"standings:live": "Standings page", "stations:api_station": "A tablet's whole document"}[page]
    measured(f"{name}, 100 to 1,000 boats: how steeply it grows", slope, "(1 = in step)", at_most=1.1)
