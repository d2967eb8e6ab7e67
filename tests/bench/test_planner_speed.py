"""What a planner's answer costs: a hot day, and the longest sentence the page allows within a tournament's day."""

import pytest
from django.test import Client

from bench.floor import best, floor
from weighin.planning.forms import PlannerForm

pytestmark = pytest.mark.bench

HOT = {"units": "us", "lake": "86", "air": "95", "have": "20"}
LONG = {**HOT, "aboard": "day", "hours": "12", "change": "2", "lid": "open", "fish": "30"}


@pytest.mark.parametrize("asked", [HOT, LONG], ids=["hot day", "twelve hours"])
def test_a_planners_answer_is_there_at_once(asked: dict[str, str], capsys: pytest.CaptureFixture[str]) -> None:
    client = Client()
    client.get("/planner/", asked)

    def worked_out() -> None:
        form = PlannerForm(asked)
        assert form.is_valid() and form.answer is not None
        assert form.answer.oxygen_freshly_caught and form.answer.carbon_freshly_caught and form.answer.stops

    least = floor()
    answer = best(worked_out) / least
    part = best(lambda: client.get("/planner/", asked, headers={"HX-Request": "true"})) / least
    page = best(lambda: client.get("/planner/", asked)) / least
    with capsys.disabled():
        print(f"\nplanner: answer {answer:.1f} floors, with charts and what-ifs as a part {part:.0f}, page {page:.0f}")
    # Seen: 2, 10 and 13 times
    assert answer <= 8
    assert part <= 25
    assert page <= 35
